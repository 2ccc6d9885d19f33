//! What must hold of every design.

mod common;

use common::{base_with, figure, promise, study, width};
use proptest::prelude::*;

const DRIVERS: [&str; 3] = [
    "full-range 4 in, 4 ohm",
    "woofer 4 in, 4 ohm",
    "full-range 3.5 in, 4 ohm",
];

fn sized(driver: &str, depth_mm: f64, filling_percent: f64) -> String {
    let outside =
        format!("outside = \"360 x 200 x {depth_mm:.1} mm\"\nfilling = \"{filling_percent:.0} %\"");
    base_with(&[
        ("full-range 4 in, 4 ohm", driver),
        ("outside = \"360 x 200 x 180 mm\"", &outside),
    ])
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn a_larger_closed_box_never_has_a_higher_resonance(
        driver in prop::sample::select(&DRIVERS[..]),
        depth in 130.0_f64..400.0,
        more in 1.0_f64..200.0,
        filling in 0.0_f64..90.0,
    ) {
        let small = study(&sized(driver, depth, filling), 0, 1.0);
        let large = study(&sized(driver, depth + more, filling), 0, 1.0);
        prop_assert!(figure(&large, "box-resonance") < figure(&small, "box-resonance"));
        prop_assert!(figure(&large, "total-q") < figure(&small, "total-q"));
        prop_assert!(figure(&large, "net-volume") > figure(&small, "net-volume"));
        prop_assert!(figure(&large, "weight") > figure(&small, "weight"));
    }

    #[test]
    fn filling_makes_a_box_act_larger_but_never_beyond_isothermal(
        driver in prop::sample::select(&DRIVERS[..]),
        depth in 130.0_f64..300.0,
        filling in 5.0_f64..100.0,
    ) {
        let empty = study(&sized(driver, depth, 0.0), 0, 1.0);
        let filled = study(&sized(driver, depth, filling), 0, 1.0);
        let lower = figure(&empty, "box-resonance") / figure(&filled, "box-resonance");
        prop_assert!(lower > 1.0);
        // The box stiffness can fall by γ at most, the resonance by its root.
        prop_assert!(lower < 1.4_f64.sqrt(), "{lower}");
    }

    #[test]
    fn bands_widen_with_tolerance(driver in prop::sample::select(&DRIVERS[..]), depth in 150.0_f64..300.0) {
        let text = sized(driver, depth, 40.0);
        let reports = [0.5, 1.0, 2.0].map(|spread| study(&text, 200, spread));
        for id in ["low", "loud", "long", "light", "cost"] {
            let [narrow, usual, wide] = reports.each_ref().map(|report| width(report, id));
            prop_assert!(narrow < usual && usual < wide, "{id}: {narrow} {usual} {wide}");
        }
    }

    #[test]
    fn odds_of_a_harder_wish_are_never_better(mark in 60.0_f64..120.0, easier in 1.0_f64..40.0) {
        let with = |hertz: f64| {
            let text = base_with(&[("lowest = \"90 Hz\"", &format!("lowest = \"{hertz:.2} Hz\""))]);
            promise(&study(&text, 200, 1.0), "low").odds.expect("a mark and drawn builds")
        };
        prop_assert!(with(mark) <= with(mark + easier));
    }
}

#[test]
fn without_spread_every_build_is_the_nominal_one() {
    let report = study(common::BASE, 50, 0.0);
    for promise in &report.promises {
        let (p10, p90) = (promise.p10.unwrap(), promise.p90.unwrap());
        assert_eq!(p10, p90, "{}", promise.id);
        // The nominal build is studied on a finer grid than the drawn ones.
        let off = (p10 - promise.value).abs() / promise.value;
        assert!(
            off < 2e-3,
            "{}: {p10} against {}",
            promise.id,
            promise.value
        );
    }
}

#[test]
fn a_stated_tolerance_replaces_the_usual_spread() {
    let exact = base_with(&[(
        "wall = \"birch plywood 12 mm\"",
        "wall = \"birch plywood 12 mm\"\nthickness = \"12 mm ± 0.001 mm\"",
    )]);
    let loose = base_with(&[(
        "wall = \"birch plywood 12 mm\"",
        "wall = \"birch plywood 12 mm\"\nthickness = \"12 mm ± 1.5 mm\"",
    )]);
    let (exact, loose) = (study(&exact, 300, 1.0), study(&loose, 300, 1.0));
    assert!(width(&loose, "light") > 1.3 * width(&exact, "light"));
}

#[test]
fn the_seven_curves_of_every_box_carry_bands_around_their_middle() {
    let report = study(common::BASE, 200, 1.0);
    for id in [
        "response",
        "max-level",
        "impedance",
        "phase",
        "travel",
        "group-delay",
        "current",
    ] {
        let curve = report.curves.iter().find(|curve| curve.id == id).unwrap();
        let (p10, p90) = (curve.p10.as_ref().unwrap(), curve.p90.as_ref().unwrap());
        assert_eq!(curve.x.len(), curve.y.len());
        assert!(p10.iter().zip(p90).all(|(low, high)| low <= high), "{id}");
        let inside = curve
            .y
            .iter()
            .zip(p10.iter().zip(p90))
            .filter(|(y, (low, high))| low <= y && y <= high);
        // Half of the drawn builds lie on either side of the nominal one, more or less.
        assert!(inside.count() > 8 * curve.y.len() / 10, "{id}");
    }
}
