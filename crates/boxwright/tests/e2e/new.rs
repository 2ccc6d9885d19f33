//! `boxwright new`.

use crate::support::{EXAMPLES, Scratch, answer, boxwright};
use serde_json::Value;
use std::fs;

#[test]
fn what_is_begun_passes() {
    let scratch = Scratch::new();
    let path = scratch.path("beach-box/design.toml");
    answer(&["new", &path]);
    let report: Value = serde_json::from_str(&answer(&["check", "--json", &path])).unwrap();
    assert_eq!(report["verdict"], "good", "{}", report["findings"]);
    assert_eq!(report["name"], "Beach box");
    for promise in report["promises"].as_array().unwrap() {
        assert_eq!(promise["kept"], true, "{promise}");
        assert!(promise["odds"].as_f64().unwrap() > 0.9, "{promise}");
    }
}

#[test]
fn every_key_has_its_unit_and_the_file_its_remarks() {
    let scratch = Scratch::new();
    let path = scratch.path("x.toml");
    answer(&["new", &path, "--name", "Say \"hello\""]);
    let text = fs::read_to_string(&path).unwrap();
    assert!(text.matches('#').count() > 25, "{text}");
    assert!(
        text.contains("Say \\\"hello\\\"") || text.contains("'Say \"hello\"'"),
        "{text}"
    );
}

#[test]
fn a_name_is_not_empty() {
    for name in ["", " "] {
        let scratch = Scratch::new();
        let ran = boxwright(&["new", &scratch.path("x.toml"), "--name", name]);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""));
        assert!(ran.err.contains("needs a name"), "{}", ran.err);
        assert_eq!(scratch.names(), Vec::<String>::new());
    }
}

#[test]
fn examples_can_be_begun_from() {
    for name in EXAMPLES {
        let scratch = Scratch::new();
        answer(&["new", &scratch.path("here/design.toml"), "--like", name]);
        let given = crate::support::root().join("examples").join(name);
        let copied = |file: &str| fs::read(scratch.path(&format!("here/{file}"))).ok();
        assert_eq!(
            copied("design.toml"),
            fs::read(given.join("design.toml")).ok()
        );
        assert_eq!(
            copied("shelf.toml"),
            fs::read(given.join("shelf.toml")).ok()
        );
    }
}

#[test]
fn nothing_is_overwritten() {
    let scratch = Scratch::new();
    let path = scratch.file("design.toml", "mine");
    for arguments in [&["new", &path][..], &["new", &scratch.path("")]] {
        let ran = boxwright(arguments);
        assert_eq!(ran.status, 2);
        assert!(ran.err.contains("already there"), "{}", ran.err);
    }
    assert_eq!(fs::read_to_string(&path).unwrap(), "mine");
    let shelf = Scratch::new();
    shelf.file("shelf.toml", "mine");
    let ran = boxwright(&["new", &shelf.path("design.toml"), "--like", "salvage-party"]);
    assert_eq!(ran.status, 2);
    assert_eq!(shelf.names(), ["shelf.toml"], "half of it was written");
}
