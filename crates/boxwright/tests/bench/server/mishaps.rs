//! What can happen to a file, a disk and a folder while a bench is at work.
#![cfg(unix)]

use crate::bench::{Bench, Scratch, complaint, until};
use serde_json::json;
use std::ffi::OsStr;
use std::fs;
use std::os::unix::fs::{MetadataExt, PermissionsExt};
use std::path::Path;
use std::process::Command;

const ASIDE: &str = "box/.design.toml.bench";

fn opened() -> (Scratch, Bench) {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    let bench = Bench::open(&scratch);
    (scratch, bench)
}

/// A change is refused with these words, and the file stays.
fn refused(scratch: &Scratch, bench: &Bench, words: &str) {
    let before = fs::read(scratch.design()).unwrap();
    let edit = json!({"what": "set", "key": "brief.loudness", "value": "77 dB"});
    let answer = bench.post("/do", &edit);
    assert_eq!(answer.status(), 422);
    assert!(answer.text().contains(words), "{}", answer.text());
    assert_eq!(fs::read(scratch.design()).unwrap(), before);
    // Nothing half-written is left.
    let left = fs::read_dir(scratch.path("box")).unwrap();
    let left = left.filter(|entry| {
        let path = entry.as_ref().unwrap().path();
        path.extension() == Some(OsStr::new("part"))
    });
    assert_eq!(left.count(), 0);
}

fn first_step(bench: &Bench) -> String {
    bench.wait(|event| event["busy"] == false);
    let check = bench.get("/cut/check.json").json();
    check["order"]["steps"][0]["id"]
        .as_str()
        .unwrap()
        .to_owned()
}

/// A command whose process can write no file longer than so many half kilobytes,
/// as on a disk that is full.
fn cramped(scratch: &Scratch, blocks: u64) -> Command {
    let plain = scratch.command();
    let mut command = Command::new("sh");
    command
        .arg("-c")
        .arg(format!(
            "trap '' XFSZ; ulimit -f {blocks}; exec \"$0\" \"$@\""
        ))
        .arg(plain.get_program())
        .args(plain.get_args())
        .stdin(std::process::Stdio::null())
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped());
    for (key, value) in plain.get_envs() {
        match value {
            Some(value) => command.env(key, value),
            None => command.env_remove(key),
        };
    }
    command
}

#[test]
fn a_full_disk_costs_nothing_that_was_there() {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    let bench = Bench::start(cramped(&scratch, 2));
    refused(&scratch, &bench, "cannot write");
    assert_eq!(bench.get("/parts").status(), 200);
}

/// The design can be written, what is kept beside it cannot: that is told.
#[test]
fn what_cannot_be_kept_is_told() {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    let blocks = scratch.text().len() as u64 / 512 + 2;
    let bench = Bench::start(cramped(&scratch, blocks));
    bench.set("brief.loudness", "77 dB");
    assert!(scratch.text().contains("77 dB"));
    assert!(bench.page().contains("cannot be kept beside the design"));
    bench.act(&json!({"what": "undo"}));
    assert!(!scratch.text().contains("77 dB"));
}

#[test]
fn a_file_that_is_to_be_read_only_stays_so() {
    let (scratch, bench) = opened();
    fs::set_permissions(scratch.design(), fs::Permissions::from_mode(0o444)).unwrap();
    refused(&scratch, &bench, "read-only");
    fs::set_permissions(scratch.design(), fs::Permissions::from_mode(0o640)).unwrap();
    bench.set("brief.loudness", "77 dB");
    let mode = fs::metadata(scratch.design()).unwrap().mode();
    assert_eq!(mode & 0o777, 0o640, "who may read it stays as it was");
}

#[test]
fn a_folder_or_a_pipe_in_the_place_of_the_file_is_told() {
    let (scratch, bench) = opened();
    let pipe = |path: &Path| {
        let made = Command::new("mkfifo").arg(path).status().unwrap();
        assert!(made.success());
    };
    let edit = json!({"what": "set", "key": "brief.loudness", "value": "77 dB"});
    fs::remove_file(scratch.design()).unwrap();
    fs::create_dir(scratch.design()).unwrap();
    until("the folder is told", || {
        bench.page().contains("no longer a file")
    });
    assert_eq!(bench.post("/do", &edit).status(), 422);
    fs::remove_dir(scratch.design()).unwrap();
    pipe(&scratch.design());
    assert_eq!(bench.post("/do", &edit).status(), 422);
    assert!(bench.page().contains("no longer a file"));
    fs::remove_file(scratch.design()).unwrap();
    bench.set("brief.loudness", "77 dB");
    assert!(scratch.text().contains("77 dB"));
    // At the start nobody waits for what a pipe may bring.
    for name in ["box/shelf.toml", "box/design.toml"] {
        let scratch = Scratch::new();
        scratch.copy("bathing-beach");
        fs::remove_file(scratch.path(name)).ok();
        pipe(&scratch.path(name));
        let mut child = scratch.command().spawn().unwrap();
        assert_eq!(child.wait().unwrap().code(), Some(2));
        assert!(complaint(&mut child).contains("no file"));
    }
}

#[test]
fn a_file_that_grows_beyond_all_bounds_is_not_read() {
    let (scratch, bench) = opened();
    let file = fs::OpenOptions::new().append(true).open(scratch.design());
    file.unwrap().set_len(1 << 40).unwrap();
    until("it is told", || bench.page().contains("larger than"));
    let edit = json!({"what": "set", "key": "brief.loudness", "value": "77 dB"});
    assert_eq!(bench.post("/do", &edit).status(), 422);
    assert_eq!(fs::metadata(scratch.design()).unwrap().len(), 1 << 40);
}

#[test]
fn a_second_name_of_the_file_is_told() {
    let (scratch, bench) = opened();
    assert!(!bench.page().contains("another name"));
    let other = scratch.path("box/other.toml");
    fs::hard_link(scratch.design(), &other).unwrap();
    until("it is told", || bench.page().contains("another name"));
    let before = scratch.text();
    bench.set("brief.loudness", "77 dB");
    assert_eq!(fs::read_to_string(&other).unwrap(), before);
    until("they are parted", || !bench.page().contains("another name"));
}

/// Whatever path leads to the file, the second bench on it is told so.
#[test]
fn a_second_bench_by_another_path_is_told() {
    let (scratch, _first) = opened();
    let link = scratch.path("link.toml");
    std::os::unix::fs::symlink(scratch.design(), &link).unwrap();
    for path in [
        link,
        scratch.path("box/../box/design.toml"),
        scratch.path("box"),
    ] {
        let mut command = scratch.bare();
        command.arg(&path).arg("--builds=0");
        let second = Bench::start(command);
        assert!(
            second.page().contains("another bench"),
            "{}",
            path.display()
        );
    }
}

/// The bench that is left goes on with all the other one remembered.
#[test]
fn a_bench_that_is_left_alone_takes_over_undo_and_steps() {
    let (scratch, mut first) = opened();
    let before = scratch.text();
    let step = |id: &str| json!({"what": "step", "id": id, "done": true});
    let id = first_step(&first);
    first.set("brief.loudness", "77 dB");
    first.act(&step(&id));
    let second = Bench::open(&scratch);
    let check = second.get("/cut/check.json").json();
    let other = check["order"]["steps"][1]["id"]
        .as_str()
        .unwrap()
        .to_owned();
    second.act(&step(&other));
    second.set("brief.lowest", "91 Hz");
    first.kill();
    until("the second is alone", || {
        !second.page().contains("another bench")
    });
    second.act(&json!({"what": "undo"}));
    second.act(&json!({"what": "undo"}));
    assert_eq!(scratch.text(), before);
    let steps = fs::read_to_string(scratch.path(ASIDE).join("steps")).unwrap();
    for id in [id, other] {
        assert!(steps.lines().any(|line| line == id), "{id} in {steps}");
    }
}

/// Whoever takes the folder away has a bench that goes on, and is still the only one.
#[test]
fn the_claim_is_renewed_when_its_folder_goes() {
    let (scratch, first) = opened();
    fs::remove_dir_all(scratch.path(ASIDE)).unwrap();
    until("it is there again", || {
        scratch.path(ASIDE).join("lock").exists()
    });
    let second = Bench::open(&scratch);
    assert!(second.page().contains("another bench"));
    first.set("brief.loudness", "77 dB");
    assert!(scratch.path(ASIDE).join("history").exists());
}

#[test]
fn what_no_bench_wrote_is_left_alone() {
    for (name, kept) in [
        ("history", &b"my own notes\n"[..]),
        ("history", b"\xff\xfe\0"),
        ("history", b"boxwright bench history, format 2\n{}"),
        ("steps", b"my own notes\n"),
        ("steps", b"\xff\xfe\0"),
        ("steps", b"boxwright bench steps, format 2\nsaw\n"),
    ] {
        let scratch = Scratch::new();
        scratch.copy("bathing-beach");
        fs::create_dir(scratch.path(ASIDE)).unwrap();
        let path = scratch.path(ASIDE).join(name);
        fs::write(&path, kept).unwrap();
        let bench = Bench::open(&scratch);
        let id = first_step(&bench);
        bench.act(&json!({"what": "step", "id": id, "done": true}));
        bench.set("brief.loudness", "77 dB");
        bench.act(&json!({"what": "undo"}));
        assert_eq!(fs::read(&path).unwrap(), kept, "{name}");
        let told = bench.page().contains("is not this bench&#39;s")
            || bench.page().contains("is not this bench's");
        assert!(told, "{name}");
    }
}

#[test]
fn a_text_from_the_page_keeps_the_ends_of_its_lines() {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    let long = format!("\u{feff}{}", scratch.text().replace('\n', "\r\n"));
    scratch.write(&long);
    let bench = Bench::open(&scratch);
    bench.set("brief.loudness", "77 dB");
    let edited = scratch.text();
    assert_eq!(edited.matches('\n').count(), edited.matches("\r\n").count());
    assert_eq!(edited.chars().next(), Some('\u{feff}'));
    // As a field of a page gives it back.
    let number = bench.act(&json!({"what": "hold"}));
    let value = edited.replace("\r\n", "\n").replace("77 dB", "78 dB");
    bench.act(&json!({"what": "text", "value": value, "number": number}));
    assert_eq!(scratch.text(), edited.replace("77 dB", "78 dB"));
}

/// A field of a page drops the line break it begins with.
#[test]
fn a_text_that_begins_with_an_empty_line_is_shown_with_it() {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    scratch.write(&format!("\n{}", scratch.text()));
    let bench = Bench::open(&scratch);
    let page = bench.page();
    let (_, field) = page.split_once("<textarea").unwrap();
    let (_, text) = field.split_once('>').unwrap();
    assert!(text.starts_with("\n\n"), "{}", &text[..20]);
}
