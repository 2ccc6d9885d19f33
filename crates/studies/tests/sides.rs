//! Sides that are written apart, unlike, or missing.

mod common;

use boxwright_studies::{Options, Report, Texts, run};
use common::{base_with, figure, promise, study};

const BOTH: &str = "[[drivers]]\npart = \"full-range 4 in, 4 ohm\"\ncount = 2\nside = \"both\"\n";

/// One driver on each of these sides, and what else the box has.
fn boxed(drivers: &[(&str, &str)], more: &str) -> Report {
    study(&text(drivers, more), 0, 1.0)
}

fn text(drivers: &[(&str, &str)], more: &str) -> String {
    let groups: String = drivers
        .iter()
        .map(|(part, side)| {
            format!("[[drivers]]\npart = \"{part}\"\ncount = 1\nside = \"{side}\"\n")
        })
        .collect();
    base_with(&[
        (BOTH, &groups),
        ("kind = \"sealed\"\nleak = \"usual\"\n", more),
    ])
}

const FULL_RANGE: &str = "full-range 4 in, 4 ohm";
const OTHER: &str = "full-range 3 in, 8 ohm";
const CLOSED: &str = "kind = \"sealed\"\n";
const CLOSED_APART: &str = "kind = \"sealed\"\nchambers = \"one per side\"\n";
const VENTED_APART: &str = "kind = \"vented\"\nchambers = \"one per side\"\n[box.vent]\ndiameter = \"36 mm\"\nlength = \"80 mm\"\ncount = 2\n";

/// Holds all figures of two reports against each other.
fn same(a: &Report, b: &Report, tolerance: f64, what: &str) {
    assert_eq!(a.figures.len(), b.figures.len(), "{what}");
    for (a, b) in a.figures.iter().zip(&b.figures) {
        let off = (a.value - b.value).abs();
        assert!(
            off <= tolerance * (1.0 + b.value.abs()),
            "{what}, {}: {} and {}",
            a.id,
            a.value,
            b.value
        );
    }
}

#[test]
fn equal_sides_written_apart_are_the_same_box() {
    let apart = [(FULL_RANGE, "left"), (FULL_RANGE, "right")];
    for more in [CLOSED, CLOSED_APART, VENTED_APART] {
        let both = study(
            &base_with(&[("kind = \"sealed\"\nleak = \"usual\"\n", more)]),
            0,
            1.0,
        );
        same(&boxed(&apart, more), &both, 1e-7, more);
    }
}

/// Face and loudness differ a little, for the edge wave follows the driver on the left.
#[test]
fn unlike_sides_may_change_places() {
    let here = boxed(&[(FULL_RANGE, "left"), (OTHER, "right")], VENTED_APART);
    let there = boxed(&[(FULL_RANGE, "right"), (OTHER, "left")], VENTED_APART);
    for id in ["low-6db", "sensitivity", "least-impedance", "clean-mid"] {
        let (a, b) = (figure(&here, id), figure(&there, id));
        assert!((a - b).abs() < 1e-7 * b, "{id}: {a} and {b}");
    }
    for id in ["vent-speed", "travel"] {
        let curve = |report: &Report| {
            let found = report.curves.iter().find(|curve| curve.id == id);
            found.expect("a vented box has it").y.clone()
        };
        for (a, b) in curve(&here).iter().zip(curve(&there)) {
            assert!((a - b).abs() < 1e-7 * b.max(1e-9), "{id}: {a} and {b}");
        }
    }
}

#[test]
fn a_weaker_side_takes_nothing_from_the_stronger() {
    let alone = boxed(&[(FULL_RANGE, "left")], CLOSED);
    let with = boxed(&[(FULL_RANGE, "left"), (OTHER, "right")], CLOSED_APART);
    let gain = figure(&with, "loud") - figure(&alone, "loud");
    assert!((0.0..6.1).contains(&gain), "{gain} dB");
}

#[test]
fn one_side_alone_plays_on_one_channel() {
    let left = boxed(&[(FULL_RANGE, "left")], CLOSED);
    let mono = boxed(&[(FULL_RANGE, "mono")], CLOSED);
    same(&left, &mono, 1e-9, "left is mono");
    assert!(left.figures.iter().all(|figure| figure.value.is_finite()));
    assert!(figure(&left, "runtime") > 1.0);
}

#[test]
fn what_lies_in_the_drawer_is_used_once() {
    let design = text(&[(FULL_RANGE, "left"), (FULL_RANGE, "right")], CLOSED);
    let spent = |on_hand: u32| {
        let shelf = format!(
            "format = 1\n[[driver]]\nname = \"{FULL_RANGE}\"\nprice = \"18 €\"\non_hand = {on_hand}\n"
        );
        let texts = Texts {
            design: &design,
            shelf: Some(&shelf),
        };
        let options = Options {
            builds: 0,
            spread: 1.0,
            progress: &|_| {},
        };
        let report = run(texts, options).unwrap_or_else(|errors| panic!("{errors:#?}"));
        promise(&report, "cost").value
    };
    for (on_hand, saved) in [(1, 18.0), (2, 36.0), (3, 36.0)] {
        let saves = spent(0) - spent(on_hand);
        assert!(
            (saves - saved).abs() < 1e-9,
            "{on_hand} in the drawer save {saves}"
        );
    }
}
