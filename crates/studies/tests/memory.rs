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

fn example(name: &str) -> (String, Option<String>) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let read = |file: &str| std::fs::read_to_string(root.join(name).join(file));
    (read("design.toml").unwrap(), read("shelf.toml").ok())
}

#[test]
fn a_report_is_the_same_whatever_was_studied_before() {
    let (text, shelf) = example("workshop-mono");
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
        let alone = Memory::default().run(texts, OPTIONS).unwrap();
        assert_eq!(format!("{after:?}"), format!("{alone:?}"));
    }
}

/// Every edit forth and back, so that each memory is asked for what it holds and for what is
/// nearly the same: places, ways, solids, layouts, faces, circuits.
#[test]
fn what_is_remembered_is_what_would_be_found() {
    let (text, shelf) = example("bathing-beach");
    let changes = [
        ("box.outside", "360 x 200 x 196 mm"),
        ("battery.at", "26 x 0 x 66 mm"),
        ("drivers.1.at.1", "90 x 106 mm"),
        ("place.temperature", "19 °C"),
        ("saw.kerf", "2 mm"),
        ("box.thickness", "11.5 mm"),
        ("indicator.warning", "25 min"),
        ("box.filling", "40 %"),
    ];
    let options = Options {
        builds: 24,
        ..OPTIONS
    };
    let memory = Memory::default();
    let after = |design: &str| {
        let shelf = shelf.as_deref();
        let report = memory.survey(Texts { design, shelf }, options).unwrap();
        format!("{report:?}")
    };
    let alone = |design: &str| {
        let shelf = shelf.as_deref();
        let report = boxwright_studies::survey(Texts { design, shelf }, options).unwrap();
        format!("{report:?}")
    };
    let plain = alone(&text);
    for change in changes {
        let changed = edited(&text, &[change]);
        assert_eq!(after(&changed), alone(&changed), "{change:?}");
        assert_eq!(after(&text), plain, "back from {change:?}");
    }
}

#[test]
fn faults_are_found_whatever_was_studied_before() {
    let (text, shelf) = example("bathing-beach");
    let shelf = shelf.as_deref();
    let wrong = edited(&text, &[("box.outside", "360 x 200 x 20 mm")]);
    let memory = Memory::default();
    for _ in 0..2 {
        for design in [&text, &wrong] {
            let texts = Texts { design, shelf };
            let alone = boxwright_studies::survey(texts, OPTIONS).err();
            assert_eq!(memory.faults(texts), alone.unwrap_or_default());
            assert_eq!(memory.faults(texts).is_empty(), design == &text);
        }
    }
}
