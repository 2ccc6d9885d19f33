//! Published instances of two-dimensional guillotine cutting
//! (`christofides-whitlock-1977`, `beasley-1985`). Tolerance: none; the optima are
//! whole numbers.

use crate::jobs;
use boxwright_wood::sawing::{Blank, best_value};

const TABLE: &str = include_str!("../../../../reference/guillotine_value.csv");

/// Numbers of the rows of one instance.
fn rows(instance: &str, row: &str) -> Vec<Vec<Option<f64>>> {
    let prefix = format!("{instance},{row},");
    TABLE
        .lines()
        .filter_map(|line| line.strip_prefix(&prefix))
        .map(|cells| cells.split(',').map(|cell| cell.parse().ok()).collect())
        .collect()
}

/// The optimum of the engine, its unit taken for 1 mm; with free orientation if
/// `turns`. Pieces without limit are offered as often as they fit side by side.
fn optimum(instance: &str, turns: bool) -> (f64, Option<f64>) {
    let number = |cell: Option<f64>| cell.expect("a number");
    let sheet = rows(instance, "sheet").remove(0);
    let (long, wide) = (number(sheet[0]), number(sheet[1]));
    let (mut blanks, mut worth): (Vec<Blank>, Vec<f64>) = (Vec::new(), Vec::new());
    for piece in rows(instance, "piece") {
        let [length, width, copies, value] = [0, 1, 2, 3].map(|cell| number(piece[cell]));
        let grid = |a: f64, b: f64| (long / a).floor() * (wide / b).floor();
        let most = if turns {
            ((long * wide) / (length * width)).floor()
        } else {
            grid(length, width)
        };
        let copies = if copies == 0.0 { most } else { copies };
        for _ in 0..copies as usize {
            blanks.push(jobs::blank(length / 1e3, width / 1e3, turns));
            worth.push(value);
        }
    }
    let sheet_size = jobs::offcut(long / 1e3, wide / 1e3, 1);
    let found = best_value(&blanks, &worth, &sheet_size, &jobs::saw(0.0, 0.0));
    (found, sheet[if turns { 3 } else { 2 }])
}

fn check(instance: &str, turns: bool) {
    let (found, published) = optimum(instance, turns);
    assert_eq!(Some(found), published, "{instance}, turning: {turns}");
}

#[test]
fn seven_kinds_in_limited_number() {
    check("cgcut1", false);
    check("cgcut1", true);
}

#[test]
fn ten_kinds_in_limited_number() {
    check("cgcut2", false);
}

#[test]
fn ten_kinds_without_limit() {
    check("gcut1", false);
    check("gcut1", true);
}
