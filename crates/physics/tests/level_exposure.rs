//! How long an ear bears a level, against `itu-h870`.

mod table;

use boxwright_physics::level::exposure::{listening_hours_per_week, sensitive_hours_per_week};

fn check(got: f64, expected: f64) {
    assert!(
        (got / expected - 1.0).abs() < 1e-7,
        "{got} is not {expected}"
    );
}

#[test]
fn at_leisure() {
    for row in table::numbers(include_str!("../../../reference/exposure_listening.csv")) {
        check(listening_hours_per_week(row[0]), row[1]);
        check(sensitive_hours_per_week(row[0]), row[2]);
    }
}
