//! The pack of every shipped example.

#![allow(clippy::unwrap_used, reason = "a test")]

use boxwright_drawings::boxview::{Look, pictured};
use boxwright_drawings::export::pdf::pdf;
use boxwright_drawings::export::svg::svg;
use boxwright_drawings::pack::pack;
use boxwright_drawings::sheet::Item;
use boxwright_drawings::{Paper, Rect, Role, Theme};
use design::Project;
use std::path::PathBuf;
use studies::carpentry::{PartKind, PlacedPart};
use studies::{Options, Report, Texts, run};
use wood::Wall;

fn folders() -> Vec<PathBuf> {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples");
    let entries = std::fs::read_dir(root).unwrap();
    let mut folders: Vec<_> = entries
        .map(|e| e.unwrap().path())
        .filter(|p| p.is_dir())
        .collect();
    folders.sort();
    folders
}

fn studied(design: &str, shelf: Option<&str>, builds: usize) -> (Project, Report) {
    let options = Options {
        builds,
        spread: 1.0,
        progress: &|_| {},
    };
    let project = design::read(design, shelf).unwrap();
    let texts = Texts { design, shelf };
    (project, run(texts, options).unwrap())
}

/// Every shipped example, read and studied with a few builds.
fn examples() -> Vec<(String, Project, Report)> {
    folders()
        .into_iter()
        .map(|folder| {
            let design = std::fs::read_to_string(folder.join("design.toml")).unwrap();
            let shelf = std::fs::read_to_string(folder.join("shelf.toml")).ok();
            let (project, report) = studied(&design, shelf.as_deref(), 250);
            let name = folder.file_name().unwrap().to_string_lossy().into_owned();
            (name, project, report)
        })
        .collect()
}

/// No collision on any sheet; the pack is written out for the eye.
fn clear(name: &str, project: &Project, report: &Report) {
    for paper in [Paper::A4, Paper::Letter] {
        let sheets = pack(project, report, paper, None);
        assert!(sheets.len() >= 5, "{name}: {} sheets", sheets.len());
        for sheet in &sheets {
            let found = sheet.collisions();
            assert_eq!(found, [], "{name}, “{}” on {}", sheet.title, paper.name());
        }
        let bytes = pdf(&sheets, name, None, Theme::Paper).unwrap();
        let file = format!("pack {name} {}.pdf", paper.name()).replace(' ', "-");
        std::fs::write(PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(file), bytes).unwrap();
    }
}

#[test]
fn the_pack_of_every_example_is_clear_on_both_papers() {
    for (name, project, report) in examples() {
        clear(&name, &project, &report);
    }
}

/// One line of the text replaced.
fn with(text: &str, key: &str, line: &str) -> String {
    let mut found = false;
    let changed: Vec<&str> = text
        .lines()
        .map(|old| {
            let hit = old.trim_start().starts_with(key) && !found;
            found |= hit;
            if hit { line } else { old }
        })
        .collect();
    assert!(found, "no line begins with {key}");
    changed.join("\n") + "\n"
}

#[test]
fn odd_designs_still_make_clear_packs() {
    let path = folders()[0].join("design.toml");
    let text = std::fs::read_to_string(path).unwrap();
    let long = "A name that goes on & on <like this> “with marks” until no title block holds it "
        .repeat(3);
    for (what, key, line) in [
        (
            "a long name",
            "name =",
            format!("name = \"{}\"", long.trim()),
        ),
        (
            "a tiny box",
            "outside =",
            "outside = \"200 x 160 x 122 mm\"".to_owned(),
        ),
        (
            "a flat box",
            "outside =",
            "outside = \"1200 x 150 x 150 mm\"".to_owned(),
        ),
        (
            "a tall box",
            "outside =",
            "outside = \"200 x 1100 x 300 mm\"".to_owned(),
        ),
        (
            "a huge box",
            "outside =",
            "outside = \"1100 x 560 x 560 mm\"".to_owned(),
        ),
        ("no wish for bass", "lowest =", String::new()),
        (
            "an impossible wish",
            "loudness =",
            "loudness = \"130 dB\"".to_owned(),
        ),
    ] {
        for builds in [0, 60] {
            let (project, report) = studied(&with(&text, key, &line), None, builds);
            clear(what, &project, &report);
        }
    }
}

/// Numbers of a fixed sequence (Lehmer's multiplicative generator, modulus 2³¹ − 1).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        (self.0 % sides as u64) as usize
    }

    fn between(&mut self, low: usize, high: usize) -> usize {
        low + self.roll(high - low + 1)
    }

    fn pick<'a>(&mut self, words: &[&'a str]) -> &'a str {
        words[self.roll(words.len())]
    }
}

/// A shipped example in another box.
fn another(text: &str, dice: &mut Dice) -> String {
    let [w, h, d] = [(170, 700), (150, 480), (140, 420)].map(|(a, b)| dice.between(a, b));
    const OWN: [&str; 8] = [
        "outside =",
        "rebate =",
        "joints =",
        "front =",
        "back =",
        "round =",
        "setback =",
        "front_lean =",
    ];
    let mut out = String::new();
    let mut in_box = false;
    for line in text.lines() {
        let key = line.trim_start();
        in_box = if key.starts_with('[') {
            key.starts_with("[box]")
        } else {
            in_box
        };
        let own = OWN.iter().any(|own| key.starts_with(own));
        if !(own || in_box && key.starts_with("inside =")) {
            out.push_str(line);
            out.push('\n');
        }
        if key.starts_with("[box]") {
            out += &format!("outside = \"{w} x {h} x {d} mm\"\n");
            let joints = dice.pick(&["butt", "mitred", "mitred ring", "rebated"]);
            out += &format!("joints = \"{joints}\"\n");
            if joints == "mitred ring" {
                let (front, back) = (
                    dice.pick(&["inset", "overlaid"]),
                    dice.pick(&["inset", "overlaid"]),
                );
                out += &format!("front = \"{front}\"\nback = \"{back}\"\n");
            }
            out += &format!("front_lean = \"{}°\"\n", dice.pick(&["0", "0", "6", "15"]));
            if dice.roll(2) == 0 {
                out += "round = \"3 mm\"\n";
            }
        }
    }
    out
}

#[test]
fn twenty_generated_designs_make_clear_packs() {
    let texts: Vec<(String, Option<String>)> = folders()
        .iter()
        .map(|folder| {
            let shelf = std::fs::read_to_string(folder.join("shelf.toml")).ok();
            (
                std::fs::read_to_string(folder.join("design.toml")).unwrap(),
                shelf,
            )
        })
        .collect();
    let mut dice = Dice(20_261);
    let mut made = 0;
    for i in 0..60 {
        let (text, shelf) = &texts[i % texts.len()];
        let text = another(text, &mut dice);
        let options = Options {
            builds: 0,
            spread: 1.0,
            progress: &|_| {},
        };
        let project = design::read(&text, shelf.as_deref()).unwrap();
        let design = &text;
        let shelf = shelf.as_deref();
        // Some cannot be made at all: a stop, and no pack.
        let Ok(report) = run(Texts { design, shelf }, options) else {
            continue;
        };
        clear(&format!("generated {i}"), &project, &report);
        made += 1;
        if made == 20 {
            return;
        }
    }
    panic!("only {made} designs could be built");
}

#[test]
fn twelve_drivers_still_make_clear_sheets() {
    let path = folders()[0].join("design.toml");
    let text = std::fs::read_to_string(path).unwrap();
    let text = with(&with(&text, "count =", "count = 12"), "at =", "");
    let (project, report) = studied(&text, None, 0);
    clear("twelve drivers", &project, &report);
}

#[test]
fn every_part_has_its_number_in_the_box_taken_apart() {
    for (name, project, report) in examples() {
        let sheets = pack(&project, &report, Paper::A4, None);
        let sheet = sheets.iter().find(|s| s.title == "Box").unwrap();
        let drawn = svg(sheet, Theme::Paper);
        for part in &report.carpentry.parts {
            let number = part.number.to_string();
            let revision = report.revision.map(|r| r.to_string());
            let wanted = 1 + usize::from(revision.as_ref() == Some(&number));
            let found = drawn.matches(&format!(">{number}</text>")).count();
            assert_eq!(found, wanted, "{name}: {}", part.label);
        }
    }
}

#[test]
fn a_driver_shows_its_cone_where_it_is_looked_at() {
    let area = Rect::new(0.0, 0.0, 190.0, 118.0);
    for (name, _, report) in examples() {
        let coned = |part: &&PlacedPart| {
            let kind = matches!(part.kind, PartKind::Driver | PartKind::Radiator);
            kind && part.part.sits_in == Some(Wall::Front)
        };
        let drivers = report.carpentry.parts.iter().filter(coned).count();
        for (look, seen) in [(Look::Front, drivers), (Look::Section, 0)] {
            let picture = pictured(&report.carpentry, look, area);
            // Surround and cap: dark surfaces with an edge of their own.
            let dark = picture.drawing.items.iter().filter(|item| {
                matches!(item, Item::Shape(_, style) if style.stroke.is_some()
                    && style.fill.is_some_and(|fill| fill.role == Role::MetalDark))
            });
            assert_eq!(dark.count(), 2 * seen, "{name}, {look:?}");
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
