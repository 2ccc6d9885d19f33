//! Designs that read well and yet are no box: one file for each code that says so.
//!
//! The first line of each says the code: `# expect: box-no-air`. A `.shelf.toml` of the same
//! name is the maker's shelf.

use boxwright_studies::{DIAGNOSTIC_CODES, Options, Texts, run};
use std::collections::BTreeSet;
use std::path::PathBuf;

/// No text is known to lead to it: whatever would is told while reading.
const UNSEEN: &str = "box-measure";

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/unsound")
}

fn designs() -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder()).expect("the folder is there");
    let mut paths: Vec<PathBuf> = entries
        .map(|entry| entry.expect("readable").path())
        .filter(|path| !path.to_string_lossy().ends_with(".shelf.toml"))
        .collect();
    paths.sort();
    paths
}

#[test]
fn each_is_told_its_one_fault_where_it_is() {
    let mut shown = BTreeSet::from([UNSEEN.to_owned()]);
    for path in designs() {
        let design = std::fs::read_to_string(&path).expect("readable");
        let shelf = std::fs::read_to_string(path.with_extension("shelf.toml")).ok();
        let texts = Texts {
            design: &design,
            shelf: shelf.as_deref(),
        };
        let options = Options {
            builds: 0,
            spread: 1.0,
            progress: &|_| {},
        };
        let errors = run(texts, options).expect_err("it is no box");
        let first = design.lines().next().unwrap_or_default();
        let wanted = first.strip_prefix("# expect: ").expect("it says its code");
        let found: Vec<&str> = errors.iter().map(|error| error.code).collect();
        assert_eq!(found, [wanted], "{path:?}: {errors:#?}");
        assert!(
            design
                .get(errors[0].place.start..errors[0].place.end)
                .is_some()
        );
        assert!(!errors[0].mend.is_empty());
        shown.insert(wanted.to_owned());
    }
    let all: BTreeSet<String> = DIAGNOSTIC_CODES
        .iter()
        .map(|code| (*code).to_owned())
        .collect();
    assert_eq!(shown, all);
    assert_eq!(all.len(), DIAGNOSTIC_CODES.len(), "no code is listed twice");
}
