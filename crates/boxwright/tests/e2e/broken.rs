//! Broken design files and shelves: every message as the maker sees it.

use crate::support::{Ran, command, golden, names, ran, root};
use serde_json::Value;
use std::path::PathBuf;

fn corpus() -> PathBuf {
    root().join("crates/design/tests/broken")
}

/// A broken design is checked; a broken shelf is listed.
fn told(name: &str, json: bool) -> Ran {
    let mut arguments = if name.ends_with(".shelf.toml") {
        vec!["shelf", "--shelf", name]
    } else {
        vec!["check", name]
    };
    if json {
        arguments.push("--json");
    }
    ran(command(&arguments).current_dir(corpus()))
}

#[test]
fn every_mistake_is_shown_in_its_place() {
    for name in names(&corpus()) {
        let ran = told(&name, false);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{name}");
        golden(
            &format!("broken/{}.txt", name.trim_end_matches(".toml")),
            &ran.err,
        );
    }
}

#[test]
fn lines_of_messages_fit_a_terminal() {
    for name in names(&corpus()) {
        for line in told(&name, false).err.lines() {
            // The maker's own text is shown as it is.
            let own = line.trim_start().starts_with(|c: char| c.is_ascii_digit());
            assert!(own || line.chars().count() <= 80, "{name}: {line}");
        }
    }
}

#[test]
fn mistakes_in_json_lie_where_they_say() {
    for name in names(&corpus()) {
        let ran = told(&name, true);
        assert_eq!((ran.status, ran.err.as_str()), (2, ""), "{name}");
        let answer: Value = serde_json::from_str(&ran.out).unwrap();
        let text = std::fs::read_to_string(corpus().join(&name)).unwrap();
        let code = name.split('.').next().unwrap();
        let errors = answer["errors"].as_array().unwrap();
        assert!(
            errors.iter().any(|error| error["code"] == code),
            "{name}: {errors:?}"
        );
        for error in errors {
            let number = |key: &str| usize::try_from(error[key].as_u64().unwrap()).unwrap();
            assert_eq!(error["file"], name.as_str());
            let before = &text[..number("start")];
            let line = before.matches('\n').count() + 1;
            let column = before.rsplit('\n').next().unwrap().chars().count() + 1;
            assert_eq!((number("line"), number("column")), (line, column), "{name}");
            assert!(text.get(number("start")..number("end")).is_some(), "{name}");
        }
    }
}
