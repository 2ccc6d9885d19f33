//! The file is the truth, and no text of it is lost.

use crate::bench::{Bench, Scratch, until};
use serde_json::{Value, json};
use std::fs;

fn opened(example: &str) -> (Scratch, Bench) {
    let scratch = Scratch::new();
    scratch.copy(example);
    let bench = Bench::open(&scratch);
    (scratch, bench)
}

/// The line of the file that holds a key.
fn line(text: &str, key: &str) -> String {
    let front = format!("{key} =");
    let found = text.lines().find(|line| line.starts_with(&front));
    found.unwrap_or_else(|| panic!("no {key}")).to_owned()
}

#[test]
fn an_edit_changes_one_value_and_no_remark() {
    let (scratch, bench) = opened("bathing-beach");
    let before = scratch.text();
    bench.set("brief.loudness", "77 dB");
    let after = scratch.text();
    let old = line(&before, "loudness");
    let new = line(&after, "loudness");
    assert_ne!(old, new);
    assert_eq!(before.replace(&old, &new), after);
}

#[test]
fn what_is_wrong_is_not_written() {
    let (scratch, bench) = opened("bathing-beach");
    let before = scratch.text();
    let edit = json!({"what": "set", "key": "brief.loudness", "value": "99 m"});
    for path in ["/do", "/try"] {
        let answer = bench.post(path, &edit);
        assert_eq!(answer.status(), 422);
        let problem = &answer.json()["problems"][0];
        let at = 1 + before
            .lines()
            .position(|l| l.starts_with("loudness"))
            .unwrap();
        assert_eq!(problem["place"], format!("line {at}"));
        assert!(problem["message"].as_str().unwrap().contains("length"));
        assert!(problem["advice"].as_str().unwrap().contains("dB"));
    }
    assert_eq!(scratch.text(), before);
}

#[test]
fn undo_goes_back_across_reload_and_restart() {
    let (scratch, mut bench) = opened("bathing-beach");
    let mut texts = vec![scratch.text()];
    for value in ["77 dB", "78 dB", "79 dB"] {
        bench.set("brief.loudness", value);
        texts.push(scratch.text());
    }
    for _ in 0..2 {
        // Ended as by Ctrl-C, then killed.
        for expected in texts.iter().rev().skip(1) {
            assert!(bench.page().contains("loudness"));
            bench.act(&json!({"what": "undo"}));
            assert_eq!(&scratch.text(), expected);
            bench.kill();
            bench = Bench::open(&scratch);
        }
        for expected in &texts[1..] {
            bench.act(&json!({"what": "redo"}));
            assert_eq!(&scratch.text(), expected);
        }
    }
    // Nothing more to make again: the text stays.
    bench.act(&json!({"what": "redo"}));
    assert_eq!(scratch.text(), texts[3]);
}

/// What a bench has seen once is never gone, whatever is done while none is there.
#[test]
fn undo_goes_back_to_what_an_earlier_bench_has_seen() {
    let (scratch, mut bench) = opened("bathing-beach");
    let before = scratch.text();
    bench.kill();
    scratch.write(&before.replace(&line(&before, "loudness"), "loudness = \"71 dB\""));
    let bench = Bench::open(&scratch);
    bench.act(&json!({"what": "undo"}));
    assert_eq!(scratch.text(), before);
}

#[cfg(unix)]
#[test]
fn it_ends_when_it_is_told_to() {
    let (_scratch, mut bench) = opened("bathing-beach");
    assert_eq!(bench.interrupt(), Some(0));
}

#[test]
fn a_change_by_an_editor_is_taken_up() {
    let (scratch, bench) = opened("bathing-beach");
    let before = scratch.text();
    let theirs = before.replace(&line(&before, "loudness"), "loudness = \"71 dB\" # by hand");
    scratch.write(&theirs);
    until("the bench sees it", || bench.page().contains("71 dB"));
    assert_eq!(scratch.text(), theirs);
    // Another place at once, before the bench can have looked.
    let more = theirs.replace(&line(&theirs, "lowest"), "lowest = \"91 Hz\"");
    scratch.write(&more);
    bench.set("brief.distance", "4 m");
    let both = scratch.text();
    assert!(both.contains("91 Hz") && both.contains("\"4 m\"") && both.contains("# by hand"));
    // One after the other is taken back, the editor's too.
    bench.act(&json!({"what": "undo"}));
    assert_eq!(scratch.text(), more);
    bench.act(&json!({"what": "undo"}));
    assert_eq!(scratch.text(), theirs);
    bench.act(&json!({"what": "undo"}));
    assert_eq!(scratch.text(), before);
}

/// An edit is meant for the text that was shown: not for another part that has come to its
/// place in the list since, nor over a value that the maker may never have seen.
#[test]
fn an_edit_is_made_where_it_was_meant() {
    let (scratch, bench) = opened("bathing-beach");
    let before = scratch.text();
    let shown = bench.set("brief.distance", "4 m");
    let own = scratch.text();
    let theirs = own
        .replacen(
            "[[module]]",
            "[[module]]\npart = \"radio module 5 V\"\n\n[[module]]",
            1,
        )
        .replace(&line(&before, "loudness"), "loudness = \"71 dB\"");
    scratch.write(&theirs);
    until("the bench sees it", || bench.page().contains("71 dB"));
    let refused =
        json!({"what": "set", "key": "brief.loudness", "value": "72 dB", "number": shown});
    assert_eq!(bench.post("/do", &refused).status(), 409);
    assert_eq!(scratch.text(), theirs);
    // The second part is the third one now, and is moved all the same.
    let edits = json!([{"key": "module.2.at", "value": "230 x 0 x 70 mm"}]);
    bench.act(&json!({"what": "edits", "edits": edits, "number": shown}));
    let theirs = theirs.replace("\"235 x 0 x 70 mm\"", "\"230 x 0 x 70 mm\"");
    assert_eq!(scratch.text(), theirs);
    // What the editor left alone goes with what it did.
    bench.act(&json!({"what": "set", "key": "brief.lowest", "value": "83 Hz", "number": shown}));
    let both = scratch.text();
    let lowest = line(&both, "lowest");
    assert!(lowest.contains("83 Hz"));
    assert_eq!(both, theirs.replace(&line(&theirs, "lowest"), &lowest));
    // And who has seen the editor's text may change it.
    let seen = bench.wait(|_| true)["number"].clone();
    bench.act(&json!({"what": "set", "key": "brief.loudness", "value": "72 dB", "number": seen}));
    assert!(scratch.text().contains("72 dB"));
}

#[test]
fn an_editor_who_saves_by_renaming_is_seen() {
    let (scratch, bench) = opened("bathing-beach");
    let theirs = scratch.text().replace("format = 1", "format = 1 # renamed");
    let draft = scratch.path("box/draft");
    fs::write(&draft, &theirs).unwrap();
    fs::rename(&draft, scratch.design()).unwrap();
    until("the bench sees it", || bench.page().contains("# renamed"));
    bench.set("brief.loudness", "77 dB");
    assert!(scratch.text().contains("# renamed"));
}

#[test]
fn the_same_line_is_asked_about_and_neither_is_lost() {
    for keep in ["mine", "theirs"] {
        let (scratch, mut bench) = opened("bathing-beach");
        let before = scratch.text();
        let theirs = before.replace(&line(&before, "loudness"), "loudness = \"71 dB\"");
        let mine = before.replace(&line(&before, "loudness"), "loudness = \"72 dB\"");
        // The bench may look between the two; then there is nothing to ask about.
        let mut asked = false;
        for _ in 0..20 {
            scratch.write(&before);
            until("all is as before", || {
                bench
                    .page()
                    .contains(&line(&before, "loudness").replace('"', "&quot;"))
            });
            scratch.write(&theirs);
            bench.act(&json!({"what": "text", "value": mine}));
            if scratch.text() == theirs {
                asked = true;
                break;
            }
        }
        assert!(asked, "the bench saw every change before it was met");
        // While it is asked, the file is as the editor left it, and nothing else is done.
        let edit = json!({"what": "set", "key": "brief.distance", "value": "4 m"});
        assert_eq!(bench.post("/do", &edit).status(), 422);
        assert_eq!(scratch.text(), theirs);
        if keep == "mine" {
            // Not even when it is killed.
            bench.kill();
            bench = Bench::open(&scratch);
            assert_eq!(scratch.text(), theirs);
            bench.act(&json!({"what": "undo"}));
            assert_eq!(scratch.text(), mine);
            continue;
        }
        bench.act(&json!({"what": "settle", "keep": keep}));
        assert_eq!(scratch.text(), theirs);
        bench.act(&json!({"what": "undo"}));
        assert_eq!(scratch.text(), mine);
    }
}

#[test]
fn mine_can_be_kept_and_theirs_come_back_to() {
    let (scratch, bench) = opened("bathing-beach");
    let before = scratch.text();
    let theirs = before.replace(&line(&before, "loudness"), "loudness = \"71 dB\"");
    let mine = before.replace(&line(&before, "loudness"), "loudness = \"72 dB\"");
    for _ in 0..20 {
        scratch.write(&before);
        until("all is as before", || {
            bench
                .page()
                .contains(&line(&before, "loudness").replace('"', "&quot;"))
        });
        scratch.write(&theirs);
        bench.act(&json!({"what": "text", "value": mine}));
        if scratch.text() == theirs {
            bench.act(&json!({"what": "settle", "keep": "mine"}));
            assert_eq!(scratch.text(), mine);
            bench.act(&json!({"what": "undo"}));
            assert_eq!(scratch.text(), theirs);
            return;
        }
    }
    panic!("the bench saw every change before it was met");
}

/// A text that was begun on an older state is merged with what was done since.
#[test]
fn a_text_from_an_older_page_is_merged() {
    let (scratch, bench) = opened("bathing-beach");
    let before = scratch.text();
    let number = bench.act(&json!({"what": "hold"}));
    bench.set("brief.loudness", "77 dB");
    let typed = before.replace(&line(&before, "lowest"), "lowest = \"91 Hz\"");
    bench.act(&json!({"what": "text", "value": typed, "number": number}));
    let both = scratch.text();
    assert!(both.contains("77 dB") && both.contains("91 Hz"));
    let typed = before.replace(&line(&before, "loudness"), "loudness = \"71 dB\"");
    let deed = json!({"what": "text", "value": typed, "number": number});
    assert_eq!(bench.post("/do", &deed).status(), 409);
    assert_eq!(scratch.text(), both);
}

#[test]
fn a_broken_text_is_told_and_mended_step_by_step() {
    let (scratch, bench) = opened("bathing-beach");
    let good = scratch.text();
    let broken = good
        .replace(&line(&good, "loudness"), "loudness = \"99 m\"")
        .replace(&line(&good, "lowest"), "lowest = \"91 kg\"");
    scratch.write(&broken);
    let event = bench.wait(|event| event["stage"] == "broken");
    assert_eq!(event["busy"], false);
    // What makes it better is taken, what makes it worse is not.
    let worse = json!({"what": "set", "key": "brief.distance", "value": "4 V"});
    assert_eq!(bench.post("/do", &worse).status(), 422);
    bench.set("brief.lowest", "91 Hz");
    bench.set("brief.loudness", "77 dB");
    bench.wait(|event| event["stage"] == "nominal" || event["stage"] == "whole");
}

#[test]
fn a_file_that_goes_is_written_again() {
    let (scratch, bench) = opened("bathing-beach");
    fs::remove_file(scratch.design()).unwrap();
    until("the bench says so", || {
        bench.page().contains("the file is gone")
    });
    bench.set("brief.loudness", "77 dB");
    assert!(scratch.text().contains("77 dB"));
}

#[test]
fn a_file_that_is_no_text_stays_as_it_is() {
    let (scratch, bench) = opened("bathing-beach");
    fs::write(scratch.design(), b"format = 1\n\xff\xfe").unwrap();
    until("the bench says so", || bench.page().contains("UTF-8"));
    let edit = json!({"what": "set", "key": "brief.loudness", "value": "77 dB"});
    assert_eq!(bench.post("/do", &edit).status(), 422);
    assert_eq!(fs::read(scratch.design()).unwrap(), b"format = 1\n\xff\xfe");
}

#[test]
fn a_second_bench_is_told_and_harms_nothing() {
    let (scratch, mut first) = opened("bathing-beach");
    let second = Bench::open(&scratch);
    assert!(!first.page().contains("another bench"));
    assert!(second.page().contains("another bench has this file open"));
    let before = scratch.text();
    first.set("brief.loudness", "77 dB");
    second.set("brief.lowest", "91 Hz");
    let both = scratch.text();
    assert!(both.contains("77 dB") && both.contains("91 Hz"));
    // The first remembers what the second did.
    until("the first sees it", || first.page().contains("91 Hz"));
    first.act(&json!({"what": "undo"}));
    first.act(&json!({"what": "undo"}));
    assert_eq!(scratch.text(), before);
    first.kill();
    until("the second is told that it is alone", || {
        !second.page().contains("another bench")
    });
}

#[test]
fn what_is_kept_may_be_torn_or_foreign() {
    for (kept, stays) in [
        (&b"boxwright bench history, format 1\n{\"present\":\"x"[..], false),
        (b"boxwright bench hist", false),
        (b"", false),
        (b"\0\0\0\0\0\0", false),
        (b"my own notes", true),
        (b"boxwright bench history, format 1\n{\"present\":\"\",\"back\":[{\"words\":\"x\",\"at\":99,\"removed\":\"\",\"added\":\"y\"}],\"forth\":[]}", false),
    ] {
        let scratch = Scratch::new();
        scratch.copy("bathing-beach");
        let folder = scratch.path("box/.design.toml.bench");
        fs::create_dir(&folder).unwrap();
        fs::write(folder.join("history"), kept).unwrap();
        let before = scratch.text();
        let bench = Bench::open(&scratch);
        bench.set("brief.loudness", "77 dB");
        bench.act(&json!({"what": "undo"}));
        assert_eq!(scratch.text(), before);
        let now = fs::read(folder.join("history")).unwrap();
        assert_eq!(now == kept, stays, "{:?}", String::from_utf8_lossy(kept));
    }
}

#[cfg(unix)]
#[test]
fn a_design_in_a_folder_that_may_not_be_written_is_shown() {
    use std::os::unix::fs::PermissionsExt;
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    let folder = scratch.path("box");
    fs::set_permissions(&folder, fs::Permissions::from_mode(0o555)).unwrap();
    // For root every folder may be written.
    let writable = fs::write(folder.join("probe"), "").is_ok();
    let bench = Bench::open(&scratch);
    assert_eq!(bench.get("/parts").status(), 200);
    if !writable {
        let edit = json!({"what": "set", "key": "brief.loudness", "value": "77 dB"});
        assert_eq!(bench.post("/do", &edit).status(), 422);
    }
    fs::set_permissions(&folder, fs::Permissions::from_mode(0o755)).unwrap();
}

#[test]
fn steps_that_are_done_stay_done() {
    let (scratch, mut bench) = opened("bathing-beach");
    let check = |bench: &Bench| {
        bench.wait(|event| event["busy"] == false);
        bench.get("/cut/check.json").json()
    };
    let steps = check(&bench)["order"]["steps"].clone();
    let id = steps[0]["id"].as_str().unwrap().to_owned();
    let step = |id: &str, done: bool| json!({"what": "step", "id": id, "done": done});
    bench.act(&step(&id, true));
    bench.kill();
    let kept = scratch.path("box/.design.toml.bench/steps");
    let bench = Bench::open(&scratch);
    bench.wait(|event| event["stage"] != "broken" && event["number"] == 1);
    assert!(
        fs::read_to_string(&kept)
            .unwrap()
            .lines()
            .any(|line| line == id)
    );
    bench.act(&step(&id, false));
    assert!(
        !fs::read_to_string(&kept)
            .unwrap()
            .lines()
            .any(|line| line == id)
    );
    assert_eq!(bench.post("/do", &step("no-such-step", true)).status(), 422);
}

/// The bench's mend is the command line's, byte for byte, and clears what it should.
#[test]
fn a_mend_is_that_of_the_command_line() {
    let scratch = Scratch::new();
    scratch.copy("salvage-party");
    // Without its bay, and the battery charged in the closed box.
    let text = scratch.text();
    let (before, bay) = text.split_once("[bay]").unwrap();
    let (_, after) = bay.split_once("\n[").unwrap();
    let closed = format!("{before}[{after}").replace("vented_bay = true", "vented_bay = false");
    scratch.write(&closed);
    let other = scratch.path("box/other.toml");
    fs::copy(scratch.design(), &other).unwrap();
    let bench = Bench::open(&scratch);
    bench.wait(|event| event["stage"] == "whole");
    let check = bench.get("/cut/check.json").json();
    let findings = check["findings"].as_array().unwrap();
    let finding = findings
        .iter()
        .find(|found| found["id"] == "lead-acid-airtight")
        .unwrap();
    assert_eq!(finding["severity"], "stop");
    let name = finding["name"].as_str().unwrap();
    let number = bench.act(&json!({"what": "hold"}));
    let mend = |number: u64| json!({"what": "mend", "finding": name, "number": number});
    assert_eq!(bench.post("/do", &mend(number + 1)).status(), 409);
    let tried = bench.post("/try", &mend(number));
    assert_eq!(tried.status(), 200, "{}", tried.text());
    bench.act(&mend(number));
    let run = |arguments: &[&str]| {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_boxwright"))
            .args(arguments)
            .args(["--json", "--builds=0"])
            .arg(&other)
            .output()
            .unwrap();
        assert!(
            output.status.code().is_some_and(|code| code < 2),
            "{arguments:?}"
        );
        serde_json::from_slice::<Value>(&output.stdout).unwrap()
    };
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_boxwright"))
        .args(["mend", "--json", "--builds=0"])
        .args([other.as_os_str(), name.as_ref()])
        .output()
        .unwrap();
    assert!(output.status.success());
    assert_eq!(scratch.text(), fs::read_to_string(&other).unwrap());
    let after = run(&["check"]);
    let mut left = after["findings"].as_array().unwrap().iter();
    assert!(!left.any(|left| left["id"] == finding["id"] && left["severity"] == "stop"));
    // What was offered on the old state is not made on the new one.
    assert_eq!(bench.post("/do", &mend(number)).status(), 409);
}

#[test]
fn a_design_is_chosen_and_begun() {
    let scratch = Scratch::new();
    let bench = Bench::start(scratch.bare());
    assert_eq!(bench.get("/parts").status(), 409);
    let page = bench.page();
    for example in ["bathing-beach", "workshop-mono", "salvage-party"] {
        assert!(page.contains(example), "{example}");
    }
    bench.act(&json!({"what": "begin", "name": "My Box", "example": "salvage-party"}));
    let begun = scratch.path("box/my-box/design.toml");
    assert!(fs::read_to_string(&begun).unwrap().contains("\"My Box\""));
    assert!(scratch.path("box/my-box/shelf.toml").exists());
    bench.set("brief.loudness", "77 dB");
    assert!(fs::read_to_string(&begun).unwrap().contains("77 dB"));
    // It is found again, and not begun over.
    let again = Bench::start(scratch.bare());
    let taken = json!({"what": "begin", "name": "my box", "example": Value::Null});
    assert_eq!(again.post("/do", &taken).status(), 422);
    assert!(again.page().contains("My Box"));
    again.act(&json!({"what": "open", "recent": 0}));
    assert!(again.page().contains("77 dB"));
}

/// What the bench prints is what the command line packs, byte for byte.
#[test]
fn the_pack_is_that_of_the_command_line() {
    let scratch = Scratch::new();
    scratch.copy("workshop-mono");
    let mut command = scratch.command();
    command.env("SOURCE_DATE_EPOCH", "1767225600");
    let bench = Bench::start(command);
    let served = bench.get("/pack.pdf");
    assert_eq!(served.status(), 200);
    let out = scratch.path("packed");
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_boxwright"))
        .args(["pack", "--builds=0", "--out"])
        .args([&out, &scratch.design()])
        .env("SOURCE_DATE_EPOCH", "1767225600")
        .output()
        .unwrap();
    assert!(output.status.code().is_some_and(|code| code < 2));
    let same = |name: &str, path: &str| {
        let packed = fs::read(out.join(name)).unwrap();
        assert!(
            bench.get(path).body() == packed,
            "{name} differs from {path}"
        );
    };
    assert!(served.body() == fs::read(out.join("pack.pdf")).unwrap());
    same("shopping.csv", "/cut/shopping.csv");
    same("accounts.csv", "/cut/accounts.csv");
    same("check.json", "/cut/check.json");
    same("templates.pdf", "/cut/templates.pdf");
    same("solid/box.stl", "/cut/box.stl");
    let sheets = fs::read_dir(out.join("sheets")).unwrap();
    for sheet in sheets.map(|sheet| sheet.unwrap().file_name().into_string().unwrap()) {
        let number: usize = sheet[..2].parse().unwrap();
        same(&format!("sheets/{sheet}"), &format!("/sheet/{number}.svg"));
    }
}
