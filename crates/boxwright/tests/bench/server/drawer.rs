//! A driver from its data sheet comes onto the maker's shelf, and nothing there is lost.

use crate::bench::{Bench, Scratch};
use serde_json::{Value, json};
use std::fs;
use std::path::PathBuf;

const KEY: &str = "drivers.1.part";

fn shelf(scratch: &Scratch) -> PathBuf {
    scratch.path("box/shelf.toml")
}

fn on_shelf(scratch: &Scratch) -> String {
    fs::read_to_string(shelf(scratch)).unwrap_or_default()
}

fn opened(example: &str) -> (Scratch, Bench) {
    let scratch = Scratch::new();
    scratch.copy(example);
    let bench = Bench::open(&scratch);
    (scratch, bench)
}

/// A driver as it is typed in, used at a key where one is named.
fn driver(name: &str, key: Option<&str>) -> Value {
    json!({"what": "driver", "key": key, "values": {
        "name": name, "size": "4 in", "impedance": "8 ohm", "fs": "80 Hz", "qms": "4",
        "qes": "0.5", "vas": "4 L", "xmax": "3 mm", "power": "20 W",
    }})
}

#[test]
fn shelf_and_design_change_and_go_back_in_one_step() {
    let (scratch, bench) = opened("salvage-party");
    let [design, drawer] = [scratch.text(), on_shelf(&scratch)];
    assert!(drawer.contains('#'), "the shelf has remarks to keep");
    let number = bench.act(&driver("mine", Some(KEY)));
    let [used, longer] = [scratch.text(), on_shelf(&scratch)];
    assert_eq!(used.matches("part = \"mine\"").count(), 1);
    assert!(longer.starts_with(&drawer) && longer.contains("name = \"mine\""));
    bench.wait(|event| event["number"] == number && event["stage"] != "broken");
    assert!(
        bench.page().contains("new on the shelf"),
        "what undo takes back"
    );
    bench.act(&json!({"what": "undo"}));
    assert_eq!([scratch.text(), on_shelf(&scratch)], [design, drawer]);
    bench.act(&json!({"what": "redo"}));
    assert_eq!([scratch.text(), on_shelf(&scratch)], [used, longer]);
}

#[test]
fn without_a_shelf_one_is_begun_beside_the_design() {
    let (scratch, bench) = opened("workshop-mono");
    let design = scratch.text();
    assert!(!shelf(&scratch).exists());
    bench.act(&driver("mine", None));
    assert!(on_shelf(&scratch).starts_with("format = 1\n\n[[driver]]\nname = \"mine\"\n"));
    assert_eq!(scratch.text(), design, "it is on the shelf and not in use");
    let mut left: Vec<_> = fs::read_dir(scratch.path("box"))
        .unwrap()
        .flatten()
        .collect();
    left.retain(|entry| entry.file_name().to_string_lossy().ends_with(".part"));
    assert!(left.is_empty(), "{left:?}");
    // The same once more bears a number, and undo takes one at a time.
    bench.act(&driver("mine", None));
    assert!(on_shelf(&scratch).contains("name = \"mine 2\""));
    bench.act(&json!({"what": "undo"}));
    assert!(!on_shelf(&scratch).contains("mine 2"));
    bench.act(&json!({"what": "undo"}));
    assert_eq!(on_shelf(&scratch), "format = 1\n");
    assert!(bench.get("/shelf?kind=driver").text().contains("<li>"));
}

/// Undo reaches over the end of a session, for the shelf as for the design.
#[test]
fn the_way_back_is_remembered() {
    let (scratch, mut bench) = opened("salvage-party");
    let before = [scratch.text(), on_shelf(&scratch)];
    bench.act(&driver("mine", Some(KEY)));
    bench.kill();
    let bench = Bench::open(&scratch);
    bench.act(&json!({"what": "undo"}));
    assert_eq!([scratch.text(), on_shelf(&scratch)], before);
}

#[test]
fn what_an_editor_writes_on_the_shelf_meanwhile_stays() {
    let (scratch, bench) = opened("salvage-party");
    let drawer = on_shelf(&scratch);
    // A moment before, not yet seen by the bench.
    let theirs = format!("# mine alone\n{drawer}");
    fs::write(shelf(&scratch), &theirs).unwrap();
    bench.act(&driver("mine", Some(KEY)));
    assert!(on_shelf(&scratch).starts_with(&theirs));
    // Lines of the part itself: undo leaves them, and says so.
    let priced = on_shelf(&scratch) + "price = \"3 €\"\n";
    fs::write(shelf(&scratch), &priced).unwrap();
    bench.wait(|event| event["stage"] != "broken" && bench.page().contains("Undo"));
    let undone = || {
        bench.act(&json!({"what": "undo"}));
        !scratch.text().contains("\"mine\"")
    };
    // The first one may only show what the editor did.
    assert!(undone() || undone());
    assert_eq!(on_shelf(&scratch), priced);
    assert!(bench.page().contains("stays on the shelf"));
}

#[test]
fn what_cannot_be_read_is_not_written() {
    let (scratch, bench) = opened("salvage-party");
    let before = [scratch.text(), on_shelf(&scratch)];
    let refused = |deed: &Value, said: &str| {
        for path in ["/do", "/try"] {
            let answer = bench.post(path, deed);
            assert_eq!(answer.status(), 422, "{deed}: {}", answer.text());
            assert!(answer.text().contains(said), "{}", answer.text());
        }
        assert_eq!([scratch.text(), on_shelf(&scratch)], before);
    };
    let with = |key: &str, value: &str| {
        let mut deed = driver("mine", Some(KEY));
        deed["values"][key] = json!(value);
        deed
    };
    refused(&with("fs", "80 kg"), "fs");
    refused(&with("nonsense", "1"), "nonsense");
    refused(&with("a\" = 1\n[[fuse]]\n\"b", "1"), "");
    refused(&with("fs", "1\"\n[[fuse]]\nname = \"b"), "");
    refused(&driver("mine", Some("brief.loudness")), "");
    refused(&driver("mine", Some("drivers.7.part.x")), "");
    // Nor beside lines that cannot be read.
    let broken = format!("{}\n[[driver\n", before[1]);
    fs::write(shelf(&scratch), &broken).unwrap();
    let answer = bench.post("/do", &driver("mine", None));
    assert_eq!(answer.status(), 422);
    assert!(
        answer.text().contains("shelf.toml, line"),
        "{}",
        answer.text()
    );
    assert_eq!(on_shelf(&scratch), broken);
}

#[test]
fn a_trial_tells_and_writes_nothing() {
    let (scratch, bench) = opened("salvage-party");
    bench.wait(|event| event["number"] == 1);
    let before = [scratch.text(), on_shelf(&scratch)];
    let answer = bench.post("/try", &driver("mine", Some(KEY)));
    assert_eq!(answer.status(), 200);
    assert!(answer.text().contains("<table"), "{}", answer.text());
    assert_eq!([scratch.text(), on_shelf(&scratch)], before);
}

#[cfg(unix)]
#[test]
fn nothing_is_written_out_of_the_folder() {
    let scratch = Scratch::new();
    scratch.copy("workshop-mono");
    // A shelf that was named, lies elsewhere, and is not there.
    let mut command = scratch.command();
    command.arg("--shelf").arg(scratch.path("other.toml"));
    let bench = Bench::start(command);
    assert_eq!(bench.post("/do", &driver("mine", None)).status(), 422);
    assert!(!scratch.path("other.toml").exists());
    drop(bench);
    // A link that appears where the shelf would be.
    let bench = Bench::open(&scratch);
    fs::write(scratch.path("secret.toml"), "format = 1\n").unwrap();
    std::os::unix::fs::symlink(scratch.path("secret.toml"), shelf(&scratch)).unwrap();
    assert_eq!(bench.post("/do", &driver("mine", None)).status(), 422);
    let secret = fs::read_to_string(scratch.path("secret.toml")).unwrap();
    assert_eq!(secret, "format = 1\n");
}
