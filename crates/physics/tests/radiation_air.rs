//! The air, and the special function its load on a piston needs, against
//! general reference libraries.

mod table;

use boxwright_physics::air::Air;
use boxwright_physics::special::struve_h1;

/// `mpmath` with 30 digits; ours loses a few where Bessel's Y₁ crosses zero.
#[test]
fn struve_function() {
    for row in table::numbers(include_str!("../../../reference/struve.csv")) {
        let error = struve_h1(row[0]) / row[1] - 1.0;
        assert!(error.abs() < 1e-12, "H1({}): {error:e}", row[0]);
    }
}

/// `coolprop-2014`: a real gas against two ideal ones. Density and speed of
/// sound within 0.1 %; viscosity, taken as that of dry air, and Prandtl number
/// within 3 % in the hottest and dampest row.
#[test]
fn humid_air() {
    let mut worst = [0.0_f64; 4];
    for row in table::numbers(include_str!("../../../reference/air_properties.csv")) {
        let air = Air::at(row[0], row[1], row[2]);
        let dry = Air::at(row[0], row[1], 0.0);
        let pairs = [
            (air.density, row[3]),
            (air.viscosity, row[4]),
            (air.prandtl, row[5]),
            (dry.sound_speed, row[6]),
        ];
        for (worst, (got, expected)) in worst.iter_mut().zip(pairs) {
            *worst = worst.max((got / expected - 1.0).abs());
        }
    }
    let [density, viscosity, prandtl, speed] = worst;
    assert!(density < 1e-3 && speed < 1e-3, "{worst:?}");
    assert!(viscosity < 0.03 && prandtl < 0.03, "{worst:?}");
}
