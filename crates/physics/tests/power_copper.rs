//! Warm copper and cables.

mod table;

use boxwright_physics::heat::{level_loss_db, resistance_ratio};
use boxwright_physics::math::db_power;
use boxwright_physics::wire::cable_loop;

/// Coefficient of `iec-60028`; ten digits in the table.
#[test]
fn warm_coil() {
    for row in table::numbers(include_str!("../../../reference/coil_heating.csv")) {
        let ratio = resistance_ratio(row[0]);
        assert!((ratio - row[1]).abs() < 1e-9);
        assert!((-db_power(ratio) - row[2]).abs() < 1e-8);
        assert!((-level_loss_db(row[0]) - row[3]).abs() < 1e-8);
    }
}

/// Limits of `iec-60228` class 5 against one excess over ideal copper for all
/// sections: within 4 %, never counted on to be better than that.
#[test]
fn flexible_cable() {
    for row in table::numbers(include_str!("../../../reference/flexible_conductors.csv")) {
        let per_km = cable_loop(500.0, 1e-6 * row[0], 20.0);
        assert!((per_km / row[1] - 1.0).abs() < 0.04, "{row:?}: {per_km}");
    }
}
