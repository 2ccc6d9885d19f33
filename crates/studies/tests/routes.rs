//! Important numbers by two routes: read from the network, and from closed
//! forms that know nothing of it.

mod common;

use boxwright_studies::Report;
use common::{base_with, figure, study};

/// F3/Fc of a second-order closed box (`small-1972`).
fn f3_over_fc(q: f64) -> f64 {
    let a = 1.0 / (q * q) - 2.0;
    ((a + (a * a + 4.0).sqrt()) / 2.0).sqrt()
}

/// The −6 dB point over Fc of the same response.
fn f6_over_fc(q: f64) -> f64 {
    // |G|² = x⁴/((1−x²)² + x²/Q²) = 1/4 ⇒ 3y² + (2 − 1/Q²)y − 1 = 0 with y = x².
    let b = 2.0 - 1.0 / (q * q);
    ((-b + (b * b + 12.0).sqrt()) / 6.0).sqrt()
}

#[test]
fn a_sealed_box_rolls_off_as_its_resonance_and_total_q_say() {
    for (depth, filling) in [(130, 0), (180, 0), (300, 0), (180, 60)] {
        let size = format!("outside = \"360 x 200 x {depth} mm\"\nfilling = \"{filling} %\"");
        let report = study(
            &base_with(&[("outside = \"360 x 200 x 180 mm\"", &size)]),
            0,
            1.0,
        );
        let (fc, q) = (figure(&report, "box-resonance"), figure(&report, "total-q"));
        let off = |id: &str, ratio: f64| figure(&report, id) / (fc * ratio) - 1.0;
        // The closed form knows neither the coil's inductance nor that losses and
        // filling change with frequency.
        assert!(
            off("low-3db", f3_over_fc(q)).abs() < 0.02,
            "{depth} mm {filling} %"
        );
        assert!(
            off("low-6db", f6_over_fc(q)).abs() < 0.02,
            "{depth} mm {filling} %"
        );
        let peak = extreme(&report, "impedance", 50.0, 300.0, f64::gt);
        assert!(
            (peak / fc - 1.0).abs() < 0.01,
            "impedance peaks at {peak}, fc {fc}"
        );
    }
}

#[test]
fn a_vented_box_dips_in_impedance_where_it_is_tuned() {
    for (diameter, length) in [(36, 60), (36, 120), (50, 120)] {
        let vent = format!(
            "kind = \"vented\"\n[box.vent]\ndiameter = \"{diameter} mm\"\nlength = \"{length} mm\"\ncount = 1\n"
        );
        let text = base_with(&[("kind = \"sealed\"\nleak = \"usual\"\n", &vent)]);
        let report = study(&text, 0, 1.0);
        let tuning = figure(&report, "tuning");
        let dip = extreme(&report, "impedance", 0.75 * tuning, 1.3 * tuning, f64::lt);
        assert!(
            (dip / tuning - 1.0).abs() < 0.04,
            "dips at {dip}, tuned to {tuning}"
        );
    }
}

#[test]
fn a_passive_radiator_leaves_a_notch_at_its_own_resonance() {
    let radiator = "kind = \"passive radiator\"\n[box.radiator]\npart = \"radiator 5.25 in\"\ncount = 1\nadded_mass = \"5 g\"\n";
    let report = study(
        &base_with(&[("kind = \"sealed\"\nleak = \"usual\"\n", radiator)]),
        0,
        1.0,
    );
    let own = figure(&report, "radiator-resonance");
    let notch = extreme(&report, "response", 0.7 * own, 1.4 * own, f64::lt);
    // Mounted in the box it carries the air of both sides, hung free only half as much.
    assert!(
        notch < own && notch > 0.9 * own,
        "notch at {notch}, resonance {own}"
    );
}

/// Where a curve has its extreme value between two frequencies.
fn extreme(report: &Report, id: &str, from: f64, to: f64, beats: fn(&f64, &f64) -> bool) -> f64 {
    let curve = report
        .curves
        .iter()
        .find(|curve| curve.id == id)
        .expect("every report has it");
    let points = curve
        .x
        .iter()
        .zip(&curve.y)
        .filter(|(x, _)| (from..to).contains(*x));
    let best = points.reduce(|best, next| if beats(next.1, best.1) { next } else { best });
    *best.expect("the grid is finer than that").0
}
