//! Answers in JSON against their published schemas.

use crate::support::{
    EXAMPLES, FEW, Scratch, answer, boxwright, command, example, python, ran, root,
};
use serde_json::{Value, json};
use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};

/// What a general validator says of each text, held against a schema of `docs`.
fn verdicts(schema: &str, texts: &[String]) -> Vec<String> {
    let scratch = Scratch::new();
    let paths: Vec<String> = texts
        .iter()
        .enumerate()
        .map(|(index, text)| scratch.file(&format!("{index}.json"), text))
        .collect();
    let output = Command::new(python())
        .arg(root().join("crates/boxwright/tests/e2e/validate.py"))
        .arg(root().join(format!("docs/{schema}.schema.json")))
        .args(&paths)
        .output()
        .expect("run ./check once: it puts the Python packages in place");
    let complaint = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{complaint}");
    let said = String::from_utf8(output.stdout).unwrap();
    said.lines().map(str::to_owned).collect()
}

fn valid(schema: &str, texts: &[String]) {
    for (verdict, text) in verdicts(schema, texts).iter().zip(texts) {
        let begin: String = text.chars().take(300).collect();
        assert_eq!(verdict, "ok", "{schema}: {begin}");
    }
}

fn check(name: &str) -> String {
    answer(&["check", "--json", "--builds=200", &example(name)])
}

#[test]
fn check_keeps_its_schema() {
    let scratch = Scratch::new();
    let mut texts: Vec<String> = EXAMPLES.map(check).into();
    texts.push(answer(&[
        "check",
        "--json",
        "--builds=0",
        &example("workshop-mono"),
    ]));
    let bare = scratch.copied("bathing-beach");
    let text = std::fs::read_to_string(&bare).unwrap();
    let wishes = ["loudness", "lowest", "runtime", "largest", "weight", "cost"];
    let without: Vec<&str> = text
        .lines()
        .filter(|line| !wishes.iter().any(|wish| line.starts_with(wish)) || line.contains(" g\""))
        .collect();
    let bare = scratch.file("bare.toml", without.join("\n"));
    texts.push(boxwright(&["check", "--json", FEW, &bare]).out);
    valid("check", &texts);
}

/// A schema that lets everything pass proves nothing.
#[test]
fn the_schema_refuses_what_is_broken() {
    let sound: Value = serde_json::from_str(&check("bathing-beach")).unwrap();
    let mut broken = Vec::new();
    let mut with = |change: &dyn Fn(&mut Value)| {
        let mut value = sound.clone();
        change(&mut value);
        broken.push(value.to_string());
    };
    with(&|v| drop(v.as_object_mut().unwrap().remove("promises")));
    with(&|v| v["extra"] = json!(1));
    with(&|v| v["format"] = json!(2));
    with(&|v| v["promises"][0]["odds"] = json!(1.5));
    with(&|v| v["promises"][0]["value"] = json!("67 Hz"));
    with(&|v| drop(v["promises"].as_array_mut().unwrap().pop()));
    with(&|v| v["findings"][0]["severity"] = json!("awful"));
    with(&|v| drop(v["findings"][0].as_object_mut().unwrap().remove("cause")));
    with(&|v| v["curves"][0]["x"] = json!(null));
    with(&|v| v["curves"][0]["limits"] = json!(["patience"]));
    with(&|v| v["accounts"]["net"] = json!(null));
    with(&|v| v["carpentry"]["panels"][0]["holes"][0]["form"] = json!("oval"));
    with(&|v| v["carpentry"]["sheets"][0]["waste"] = json!(-0.1));
    with(&|v| drop(v["carpentry"].as_object_mut().unwrap().remove("gaps")));
    let verdicts = verdicts("check", &broken);
    assert_eq!(verdicts.len(), broken.len());
    for (index, verdict) in verdicts.iter().enumerate() {
        assert_ne!(verdict, "ok", "broken text {index}");
    }
}

#[test]
fn the_other_answers_keep_theirs() {
    let scratch = Scratch::new();
    let design = example("workshop-mono");
    valid(
        "shelf",
        &[
            answer(&["shelf", "--json"]),
            answer(&["shelf", "--json", "radiator 4 in"]),
        ],
    );
    valid(
        "explain",
        &[
            answer(&["explain", "--json"]),
            answer(&["explain", "travel", "--json"]),
        ],
    );
    valid(
        "curves",
        &[answer(&["export", "--curves", "--json", FEW, &design])],
    );
    valid(
        "netlist",
        &[answer(&["export", "--netlist", "--json", &design])],
    );
    valid(
        "mends",
        &[answer(&["mend", "--json", FEW, &example("bathing-beach")])],
    );
    valid(
        "written",
        &[answer(&["new", "--json", &scratch.path("a/design.toml")])],
    );
    let pack = boxwright(&[
        "pack",
        "--json",
        FEW,
        &design,
        "--out",
        &scratch.path("pack"),
    ]);
    valid("written", &[pack.out]);
    let errors = [
        boxwright(&["check", "--json", "nowhere.toml"]).out,
        boxwright(&["explain", "--json", "nothing"]).out,
        boxwright(&[
            "check",
            "--json",
            "crates/design/tests/broken/unit-wrong.toml",
        ])
        .out,
        boxwright(&["shelf", "--json", "nothing"]).out,
    ];
    valid("errors", &errors);
}

/// What the bench says once it listens.
fn opened(arguments: &[&str], state: &str) -> String {
    let mut bench = command(&["open", "--json", "--no-browser", "--builds=0"])
        .args(arguments)
        .env("XDG_STATE_HOME", state)
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut said = BufReader::new(bench.stdout.take().unwrap());
    let mut text = String::new();
    while serde_json::from_str::<Value>(&text).is_err() {
        assert!(said.read_line(&mut text).unwrap() > 0, "it ended: {text}");
    }
    bench.kill().unwrap();
    bench.wait().unwrap();
    text
}

#[test]
fn open_keeps_its_schema() {
    let scratch = Scratch::new();
    let state = scratch.path("state");
    let design = scratch.copied("workshop-mono");
    let texts = [opened(&[&design], &state), opened(&[], &state)];
    valid("opened", &texts);
    let sound: Value = serde_json::from_str(&texts[0]).unwrap();
    let mut broken = Vec::new();
    let mut with = |change: &dyn Fn(&mut Value)| {
        let mut value = sound.clone();
        change(&mut value);
        broken.push(value.to_string());
    };
    with(&|v| drop(v.as_object_mut().unwrap().remove("address")));
    with(&|v| v["address"] = json!("http://192.168.0.2:80/"));
    with(&|v| v["address"] = json!("https://127.0.0.1:80/"));
    with(&|v| v["format"] = json!(2));
    with(&|v| v["token"] = json!("a secret has no place here"));
    for (index, verdict) in verdicts("opened", &broken).iter().enumerate() {
        assert_ne!(verdict, "ok", "broken text {index}");
    }
}

/// The same file gives the same answer to the last digit on any number of threads.
#[test]
fn threads_make_no_difference() {
    for name in EXAMPLES {
        let on = |threads: &str| {
            let design = example(name);
            ran(command(&["check", "--json", &design]).env("RAYON_NUM_THREADS", threads)).out
        };
        let (one, two) = (on("1"), on("2"));
        assert!(one.len() > 10_000);
        assert!(one == two, "{name} differs between one thread and two");
        assert!(
            two == on("3"),
            "{name} differs between two threads and three"
        );
    }
}

/// Bands hold the value wherever it is not at the edge of what can happen.
#[test]
fn odds_and_bands_are_in_order() {
    for name in EXAMPLES {
        let report: Value = serde_json::from_str(&check(name)).unwrap();
        for list in ["promises", "figures"] {
            for row in report[list].as_array().unwrap() {
                if let (Some(p10), Some(p90)) = (row["p10"].as_f64(), row["p90"].as_f64()) {
                    assert!(p10 <= p90, "{name}: {row}");
                }
            }
        }
        for curve in report["curves"].as_array().unwrap() {
            let column = |key: &str| curve[key].as_array().unwrap().clone();
            for (low, high) in column("p10").iter().zip(column("p90")) {
                assert!(low.as_f64() <= high.as_f64(), "{name}: {}", curve["id"]);
            }
            assert_eq!(column("x").len(), column("y").len());
        }
    }
}
