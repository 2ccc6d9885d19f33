use super::*;
use crate::demo_wood::{demo_body, demo_control, demo_lines};
use crate::export::pdf::pdf;
use crate::role::Theme;
use crate::sheet::{Item, Shape};
use std::process::Command;

fn demo(paper: Paper) -> Vec<Sheet> {
    let body = demo_body();
    let (drawn, plain) = subjects(&body, &demo_lines(&body), Some(&demo_control()), paper);
    let words = "Invented box · revision 2".to_owned();
    sheets(&drawn, &plain, &Imprint { words, paper })
}

#[test]
fn nothing_collides_on_any_template() {
    for paper in [Paper::A4, Paper::Letter] {
        let sheets = demo(paper);
        assert!(sheets.len() > 4, "the front alone takes several pages");
        for sheet in sheets {
            assert_eq!(sheet.collisions(), [], "{}", sheet.title);
        }
    }
}

#[test]
fn panels_with_holes_are_drawn_and_plain_ones_named() {
    let sheets = demo(Paper::A4);
    let titles: Vec<&str> = sheets.iter().map(|sheet| sheet.title.as_str()).collect();
    for wanted in [
        "panel A, front (left edge up): page 1 of 3",
        "panel E, top",
        "control panel",
    ] {
        assert!(
            titles.iter().any(|title| title.starts_with(wanted)),
            "{titles:?}"
        );
    }
    assert!(
        !titles.iter().any(|title| title.contains("back")),
        "{titles:?}"
    );
    let told = format!("{:?}", sheets[0].drawing);
    assert!(told.contains("panel B, back"));
}

/// Every circle of the front lies on some page with its true size.
#[test]
fn holes_keep_their_size() {
    let mut found = 0;
    for sheet in demo(Paper::A4) {
        for item in &sheet.drawing.items {
            let Item::Group(_, inside) = item else {
                continue;
            };
            found += inside
                .iter()
                .filter(|item| {
                    matches!(item, Item::Shape(Shape::Circle { radius, .. }, _) if (radius - 52.0).abs() < 1e-9)
                })
                .count();
        }
    }
    assert!(found >= 2);
}

/// A turned panel is not mirrored: the hole left of the middle and above it
/// comes to lie above the middle and right of it.
#[test]
fn turned_panels_keep_their_hand() {
    let body = demo_body();
    let panel = body.wall(wood::Wall::Front);
    let lines = demo_lines(&body);
    let (drawn, _) = subjects(&body, &lines[..1], None, Paper::A4);
    let (subject, hole) = (&drawn[0], &panel.holes[0]);
    assert_eq!(subject.size, (1e3 * panel.blank[1], 1e3 * panel.blank[0]));
    let found = subject.lines.items.iter().any(|item| {
        matches!(item, Item::Shape(Shape::Circle { centre, .. }, _)
            if (centre.x - 1e3 * hole.at[1]).abs() < 1e-9
                && (centre.y - 1e3 * hole.at[0]).abs() < 1e-9)
    });
    assert!(found);
}

/// What poppler finds on the pages: stretches of exactly 100 mm, level and upright.
#[test]
fn both_bars_measure_100_mm_in_the_pdf() {
    let file = std::env::temp_dir().join(format!("templates-{}.pdf", std::process::id()));
    let sheets = demo(Paper::Letter);
    std::fs::write(&file, pdf(&sheets, "t", None, Theme::Paper).unwrap()).unwrap();
    for page in 1..=sheets.len() {
        let page = page.to_string();
        let out = Command::new("pdftocairo")
            .args([
                "-svg",
                "-f",
                &page,
                "-l",
                &page,
                file.to_str().unwrap(),
                "-",
            ])
            .output()
            .expect("pdftocairo of poppler-utils; ./check installs it");
        assert!(out.status.success());
        let drawn = String::from_utf8(out.stdout).unwrap();
        let found = bars(&drawn);
        assert!(found.0 >= 1 && found.1 >= 1, "page {page}: {found:?}");
    }
    std::fs::remove_file(file).unwrap();
}

/// Straight single stretches of 100 mm in a picture: level ones, upright ones.
fn bars(drawn: &str) -> (usize, usize) {
    let mut found = (0, 0);
    for line in drawn.lines().filter(|line| line.contains("<path")) {
        let Some(path) = attribute(line, " d=\"") else {
            continue;
        };
        let numbers: Vec<f64> = path
            .split(|c: char| c.is_whitespace() || c.is_ascii_alphabetic())
            .filter_map(|word| word.parse().ok())
            .collect();
        let [x0, y0, x1, y1] = numbers[..] else {
            continue;
        };
        let scale = scale(line);
        let (w, h) = ((x1 - x0).abs() * scale, (y1 - y0).abs() * scale);
        let near = |a: f64, b: f64| (a - b).abs() < 0.01;
        found.0 += usize::from(near(w, 100.0) && near(h, 0.0));
        found.1 += usize::from(near(h, 100.0) && near(w, 0.0));
    }
    found
}

fn attribute<'a>(line: &'a str, name: &str) -> Option<&'a str> {
    let after = &line[line.find(name)? + name.len()..];
    after.split('"').next()
}

/// Millimetres of paper in one unit of a path: the path's own matrix gives
/// points, of which 72 make an inch.
fn scale(line: &str) -> f64 {
    let matrix = attribute(line, "transform=\"matrix(").unwrap_or("1");
    let first = matrix.split([',', ' ', ')']).next().unwrap();
    first.parse::<f64>().unwrap() * 25.4 / 72.0
}
