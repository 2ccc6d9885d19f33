//! What the keys of a design file mean, in the words of its manual.

use std::collections::BTreeMap;
use std::sync::OnceLock;

const MANUAL: &str = include_str!("../../../../../docs/design-file.md");

/// What a key means, and what holds where it is left out.
pub(super) fn meaning(key: &str) -> Option<&'static str> {
    static MEANINGS: OnceLock<BTreeMap<String, String>> = OnceLock::new();
    let known = MEANINGS.get_or_init(|| read(MANUAL));
    known.get(&unnumbered(key)).map(String::as_str)
}

/// A key without the places in its lists: `drivers.1.at.2` is `drivers.at`.
fn unnumbered(key: &str) -> String {
    let steps = key.split('.');
    let named = steps.filter(|step| !step.bytes().all(|byte| byte.is_ascii_digit()));
    named.collect::<Vec<_>>().join(".")
}

/// The lines of the manual's tables of keys: those of three columns under a table's heading.
fn read(manual: &str) -> BTreeMap<String, String> {
    let mut out = BTreeMap::new();
    let mut table = None;
    for line in manual.lines() {
        if let Some(title) = line.strip_prefix("## ") {
            let name = title.split('`').nth(1);
            let name = name.and_then(|name| name.strip_prefix('['));
            table = name.map(|name| name.trim_matches(['[', ']']));
        }
        let cells: Vec<&str> = line.trim_matches('|').split(" | ").map(str::trim).collect();
        let (Some(table), [keys, unsaid, said]) = (table, &cells[..]) else {
            continue;
        };
        for key in keys.split('`').skip(1).step_by(2) {
            out.insert(format!("{table}.{key}"), sentence(said, unsaid));
        }
    }
    out
}

/// A meaning as a sentence, with what holds where nothing is said.
fn sentence(said: &str, unsaid: &str) -> String {
    let said = said.replace('`', "");
    match unsaid.replace('`', "").as_str() {
        "" | "none" | "needed" => format!("{said}."),
        unsaid => format!("{said}. Left out: {unsaid}."),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_of_tables_lists_and_tables_within_are_found() {
        for (key, said) in [
            (
                "place.ears",
                "height of the listeners' ears above the ground. Left out: 1.2 m.",
            ),
            ("drivers.1.on", "the wall they are in. Left out: \"front\"."),
            ("box.vent.diameter", "inside, of one."),
            (
                "box.joint.2.edge",
                "the two walls that meet there, like \"front-top\".",
            ),
        ] {
            assert_eq!(meaning(key), Some(said), "{key}");
        }
        assert!(meaning("drivers.1.at.2").is_some_and(|said| said.starts_with("their middles")));
        assert_eq!(meaning("box.nothing"), None);
    }

    #[test]
    fn every_value_of_the_examples_is_explained() {
        for name in ["bathing-beach", "workshop-mono", "salvage-party"] {
            let file = format!(
                "{}/../../examples/{name}/design.toml",
                env!("CARGO_MANIFEST_DIR")
            );
            let text = std::fs::read_to_string(file).unwrap();
            for (key, _) in design::written(&text) {
                assert!(
                    !key.contains('.') || meaning(&key).is_some(),
                    "{name}: {key}"
                );
            }
        }
    }
}
