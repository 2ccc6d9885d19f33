//! What was studied before never changes a report.

#![allow(clippy::unwrap_used, reason = "a test")]

mod common;

use boxwright_studies::{Memory, Options, Texts};
use common::edited;
use std::path::Path;

const OPTIONS: Options<'_> = Options {
    builds: 0,
    spread: 1.0,
    progress: &|_| {},
};

#[test]
fn a_report_is_the_same_whatever_was_studied_before() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let text = std::fs::read_to_string(root.join("workshop-mono/design.toml")).unwrap();
    let shelf = std::fs::read_to_string(root.join("workshop-mono/shelf.toml")).ok();
    let edits = [
        text.clone(),
        edited(&text, &[("brief.loudness", "80 dB")]),
        edited(&text, &[("box.filling", "30 %")]),
        edited(&text, &[("brief.loudness", "86 dB")]),
        text,
    ];
    let memory = Memory::default();
    for design in &edits {
        let texts = Texts {
            design,
            shelf: shelf.as_deref(),
        };
        let after = memory.run(texts, OPTIONS).unwrap();
        let alone = boxwright_studies::run(texts, OPTIONS).unwrap();
        assert_eq!(format!("{after:?}"), format!("{alone:?}"));
    }
}
