//! The sheets about the wiring of every shipped example.

#![allow(clippy::unwrap_used, reason = "a test")]

use boxwright_drawings::export::pdf::pdf;
use boxwright_drawings::pack::pack;
use boxwright_drawings::{Paper, Sheet, Theme};
use std::path::{Path, PathBuf};
use studies::{Options, Texts, run};

const TITLES: [&str; 6] = [
    "Wiring diagram",
    "Switches and what is live",
    "Wires to cut",
    "Wire labels",
    "Wires in the box",
    "Wires on the walls",
];

/// The sheets about wires of one example.
fn sheets(folder: &Path, paper: Paper) -> Vec<Sheet> {
    let design = std::fs::read_to_string(folder.join("design.toml")).unwrap();
    let shelf = std::fs::read_to_string(folder.join("shelf.toml")).ok();
    let texts = Texts {
        design: &design,
        shelf: shelf.as_deref(),
    };
    let options = Options {
        builds: 0,
        spread: 1.0,
        progress: &|_| {},
    };
    let project = design::read(&design, shelf.as_deref()).unwrap();
    let report = run(texts, options).unwrap();
    let all = pack(&project, &report, paper, None).into_iter();
    all.filter(|s| TITLES.iter().any(|t| s.title.starts_with(t)))
        .collect()
}

#[test]
fn every_example_is_wired_on_clear_sheets() {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples");
    for name in ["bathing-beach", "salvage-party", "workshop-mono"] {
        for paper in [Paper::A4, Paper::Letter] {
            let found = sheets(&Path::new(root).join(name), paper);
            for theme in [Theme::Paper, Theme::Blueprint] {
                let file = format!("wires-{name}-{}-{theme:?}.pdf", paper.name());
                let bytes = pdf(&found, name, None, theme).unwrap();
                let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(file);
                std::fs::write(path, bytes).unwrap();
            }
            for title in TITLES {
                assert!(
                    found.iter().any(|s| s.title.starts_with(title)),
                    "{name}: {title}"
                );
            }
            for sheet in &found {
                let met = sheet.collisions();
                assert_eq!(met, [], "{name}, “{}” on {}", sheet.title, paper.name());
            }
        }
    }
}
