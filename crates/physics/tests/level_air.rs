//! Absorption on the way and the weighting of level meters against their standards.

mod table;

use boxwright_physics::air::{Air, STANDARD_PRESSURE};
use boxwright_physics::level::absorption::db_per_metre;
use boxwright_physics::level::weighting;
use boxwright_physics::math::{db_power, power_from_db};

fn db_per_km(frequency: f64, celsius: f64, humidity_percent: f64) -> f64 {
    let air = Air::at(celsius, STANDARD_PRESSURE, humidity_percent / 100.0);
    1000.0 * db_per_metre(frequency, &air)
}

/// `iso-9613-1`, its equations worked elsewhere to ten digits.
#[test]
fn absorption_by_the_equations() {
    let weather = [
        (20.0, 50.0),
        (20.0, 60.0),
        (20.0, 70.0),
        (10.0, 70.0),
        (30.0, 70.0),
    ];
    for row in table::numbers(include_str!("../../../reference/air_absorption.csv")) {
        for ((celsius, humidity), expected) in weather.into_iter().zip(&row[2..]) {
            let got = db_per_km(row[1], celsius, humidity);
            assert!((got / expected - 1.0).abs() < 1e-8, "{row:?}: {got}");
        }
    }
}

/// `iso-9613-1` Table 1 as printed: three digits, hence half a per cent.
#[test]
fn absorption_as_printed() {
    let rows = table::numbers(include_str!(
        "../../../reference/air_absorption_printed.csv"
    ));
    assert_eq!(rows.len(), 22);
    for row in rows {
        let exact = 1000.0 * power_from_db(db_power(row[2] / 1000.0).round());
        let got = db_per_km(exact, row[0], row[1]);
        assert!((got / row[3] - 1.0).abs() < 5e-3, "{row:?}: {got}");
    }
}

/// `iec-61672-1` Table 3 is given to 0.1 dB; the poles to seven digits.
#[test]
fn weighting_of_level_meters() {
    for row in table::numbers(include_str!("../../../reference/weighting.csv")) {
        let (a, c) = (weighting::a_db(row[1]), weighting::c_db(row[1]));
        assert!((a - row[2]).abs() < 0.0505, "A at {}: {a}", row[0]);
        assert!((a - row[3]).abs() < 1e-6, "A at {}: {a}", row[0]);
        assert!((c - row[4]).abs() < 0.0505, "C at {}: {c}", row[0]);
    }
}
