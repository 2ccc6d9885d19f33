//! The piston against values from a general reference library.
//!
//! Source of both tables: relation `vigran-2008` eq. 3.57, values `scipy`.

mod table;

use boxwright_physics::math::{db_amplitude, db_power};
use boxwright_physics::radiation::piston::{
    directivity, directivity_index, reactance_ratio, resistance_ratio,
};

/// The tables carry ten significant digits, hence 2e-9 of the value (absolute
/// near the zeros of D).
fn check(what: &str, got: f64, expected: f64) {
    let tolerance = 2e-9 * expected.abs().max(0.1);
    assert!(
        (got - expected).abs() < tolerance,
        "{what}: {got} is not {expected}"
    );
}

#[test]
fn impedance_and_directivity() {
    let rows = table::numbers(include_str!("../../../reference/piston_functions.csv"));
    assert_eq!(rows.len(), 20);
    for row in rows {
        check("R1", resistance_ratio(row[0]), row[1]);
        check("X1", reactance_ratio(row[0]), row[2]);
        check("D", directivity(row[0]), row[3]);
    }
}

#[test]
fn landmarks() {
    let rows = table::items(include_str!("../../../reference/piston_directivity.csv"));
    let value = |name: &str| rows.iter().find(|(item, _)| item == name).unwrap().1;
    for (name, level) in [
        ("minus 1 dB", -1.0),
        ("half power", -db_power(2.0)),
        ("minus 6 dB", -6.0),
        ("minus 10 dB", -10.0),
    ] {
        check(name, db_amplitude(directivity(value(name)).abs()), level);
    }
    for name in ["first null", "second null"] {
        assert!(directivity(value(name)).abs() < 1e-8, "{name}");
    }
    let lobe = value("first side lobe position");
    check(
        "side lobe",
        db_amplitude(directivity(lobe).abs()),
        value("first side lobe level dB"),
    );
    for ka in [0.5, 1.0, 2.0, 3.0, 5.0, 10.0] {
        check(
            "index",
            directivity_index(ka),
            value(&format!("index dB at ka {ka}")),
        );
    }
}
