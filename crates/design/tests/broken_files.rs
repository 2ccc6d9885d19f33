//! A folder of broken files, each with one fault, at least one for every code.
//!
//! The first line of each says the code: `# expect: unit-missing`. A name that
//! ends in `.shelf.toml` is a maker's shelf; all others are designs.

use boxwright_design::{DIAGNOSTIC_CODES, Diagnostic, FileId, read};
use std::collections::BTreeSet;
use std::path::PathBuf;

const SOUND: &str = include_str!("../../../examples/bathing-beach/design.toml");

struct Broken {
    name: String,
    text: String,
    expected: String,
}

fn folder() -> Vec<Broken> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/broken");
    let mut files: Vec<Broken> = std::fs::read_dir(folder)
        .expect("the folder is there")
        .map(|entry| {
            let path = entry.expect("readable").path();
            let text = std::fs::read_to_string(&path).expect("readable");
            let first = text.lines().next().unwrap_or_default();
            let expected = first
                .strip_prefix("# expect: ")
                .unwrap_or_else(|| panic!("{path:?} says no code"));
            Broken {
                name: path
                    .file_name()
                    .unwrap_or_default()
                    .to_string_lossy()
                    .into_owned(),
                expected: expected.to_owned(),
                text,
            }
        })
        .collect();
    files.sort_by(|a, b| a.name.cmp(&b.name));
    files
}

fn found(broken: &Broken) -> Vec<Diagnostic> {
    let result = if broken.name.ends_with(".shelf.toml") {
        read(SOUND, Some(&broken.text))
    } else {
        read(&broken.text, None)
    };
    result.err().unwrap_or_default()
}

#[test]
fn each_file_is_told_its_one_fault() {
    for broken in folder() {
        let found = found(&broken);
        let codes: Vec<&str> = found.iter().map(|d| d.code).collect();
        assert_eq!(
            codes,
            [broken.expected.as_str()],
            "{}: {found:#?}",
            broken.name
        );
        let starts_with_code = broken.name.starts_with(&broken.expected);
        assert!(starts_with_code, "{} is named for its code", broken.name);
    }
}

#[test]
fn every_code_has_a_file() {
    let shown: BTreeSet<String> = folder().into_iter().map(|b| b.expected).collect();
    let all: BTreeSet<String> = DIAGNOSTIC_CODES.iter().map(|c| (*c).to_owned()).collect();
    assert_eq!(shown, all);
    assert_eq!(all.len(), DIAGNOSTIC_CODES.len(), "no code is listed twice");
}

#[test]
fn the_place_is_in_the_file_and_holds_what_is_wrong() {
    for broken in folder() {
        for d in found(&broken) {
            let wanted = if broken.name.ends_with(".shelf.toml") {
                FileId::Shelf
            } else {
                FileId::Design
            };
            assert_eq!(d.place.file, wanted, "{}", broken.name);
            assert!(broken.text.get(d.place.start..d.place.end).is_some());
        }
    }
}

#[test]
fn all_faults_of_both_files_are_told_at_once() {
    let design = "\
format = 1
name = \"x\"
[brief]
distance = 3
weight = \"7 L\"
[[drivers]]
part = \"woofer\"
count = 0
[box]
outside = \"1 x 2 mm\"
wal = \"birch plywood 12 mm\"
kind = 4
";
    let shelf = "format = 1\n[[battery]]\nname = \"lead-acid 12 V 7 Ah\"\ncapacity = \"7 V\"\n";
    let found = read(design, Some(shelf)).unwrap_err();
    let codes: Vec<&str> = found.iter().map(|d| d.code).collect();
    assert_eq!(
        codes,
        [
            "table-missing",
            "table-missing",
            "unit-missing",
            "unit-wrong",
            "part-unknown",
            "count-range",
            "key-missing",
            "size-count",
            "key-unknown",
            "type-wrong",
            "unit-wrong",
        ]
    );
}

#[test]
fn broken_lines_do_not_hide_other_faults() {
    let design = SOUND
        .replacen("distance = \"3 m\"", "distance = 3 m", 1)
        .replacen("runtime = \"10 h\"", "runtime = \"10 L\"", 1)
        .replacen("level = \"0.9 V\"", "level = ", 1);
    let found = read(&design, None).unwrap_err();
    let codes: Vec<&str> = found.iter().map(|d| d.code).collect();
    assert_eq!(codes, ["quotes-missing", "unit-wrong", "syntax"]);
}
