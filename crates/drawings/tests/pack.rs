//! The pack of every shipped example.

#![allow(clippy::unwrap_used, reason = "a test")]

use boxwright_drawings::export::pdf::pdf;
use boxwright_drawings::export::svg::svg;
use boxwright_drawings::pack::pack;
use boxwright_drawings::{Paper, Theme};
use design::Project;
use studies::{Options, Report, Texts, run};

/// Every shipped example, read and studied with a few builds.
fn examples() -> Vec<(String, Project, Report)> {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples");
    let mut names: Vec<_> = std::fs::read_dir(root)
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.is_dir())
        .collect();
    names.sort();
    names
        .into_iter()
        .map(|path| {
            let design = std::fs::read_to_string(path.join("design.toml")).unwrap();
            let shelf = std::fs::read_to_string(path.join("shelf.toml")).ok();
            let texts = Texts {
                design: &design,
                shelf: shelf.as_deref(),
            };
            let options = Options {
                builds: 250,
                spread: 1.0,
                progress: &|_| {},
            };
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            let project = design::read(&design, shelf.as_deref()).unwrap();
            (name, project, run(texts, options).unwrap())
        })
        .collect()
}

#[test]
fn the_pack_of_every_example_is_clear_on_both_papers() {
    for (name, project, report) in examples() {
        for paper in [Paper::A4, Paper::Letter] {
            let sheets = pack(&project, &report, paper, None);
            assert!(sheets.len() >= 5, "{name}: {} sheets", sheets.len());
            for sheet in &sheets {
                let found = sheet.collisions();
                assert_eq!(found, [], "{name}, “{}” on {}", sheet.title, paper.name());
            }
            let bytes = pdf(&sheets, &name, None, Theme::Paper).unwrap();
            let path = format!(
                "{}/pack-{name}-{}.pdf",
                env!("CARGO_TARGET_TMPDIR"),
                paper.name()
            );
            std::fs::write(path, bytes).unwrap();
        }
    }
}

#[test]
fn every_number_of_the_promises_is_on_the_first_sheet() {
    for (name, project, report) in examples() {
        let first = svg(&pack(&project, &report, Paper::A4, None)[0], Theme::Paper);
        for promise in &report.promises {
            let value = studies::words::bare(promise.value, &promise.unit);
            assert!(
                first.contains(&format!(">{value}</text>")),
                "{name}: {}",
                promise.id
            );
        }
    }
}
