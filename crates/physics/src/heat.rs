//! Copper that gets warm, above all a voice coil's.

use crate::math::db_amplitude;

/// Temperature coefficient of annealed copper at 20 °C in 1/K (`iec-60028`).
pub const COPPER_COEFFICIENT: f64 = 0.003_93;

/// Resistance in Ω at a temperature in °C of copper that has `at_20` Ω at 20 °C.
///
/// Linear law (`iec-60028`), good from −40 to 200 °C.
#[must_use]
pub fn copper_resistance(at_20: f64, celsius: f64) -> f64 {
    at_20 * (1.0 + COPPER_COEFFICIENT * (celsius - 20.0))
}

/// Resistance ratio of copper `rise` K warmer than at 20 °C.
#[must_use]
pub fn resistance_ratio(rise: f64) -> f64 {
    1.0 + COPPER_COEFFICIENT * rise
}

/// Rise in K of a coil that takes `power` W, through `thermal_resistance` K/W
/// to the air, once magnet and box are warm through.
#[must_use]
pub fn rise(power: f64, thermal_resistance: f64) -> f64 {
    power * thermal_resistance
}

/// Rise in K of a coil on a constant voltage that would feed it `cold_power` W
/// at 20 °C: as it warms its resistance grows and it takes less.
///
/// Solves ΔT = R<sub>th</sub>·P₂₀/(1 + αΔT); holds where the coil's resistance
/// is the load, so it overstates the relief near an impedance peak.
#[must_use]
pub fn rise_on_voltage(cold_power: f64, thermal_resistance: f64) -> f64 {
    let cold_rise = rise(cold_power, thermal_resistance);
    ((1.0 + 4.0 * COPPER_COEFFICIENT * cold_rise).sqrt() - 1.0) / (2.0 * COPPER_COEFFICIENT)
}

/// Level lost in dB by a coil `rise` K warm on a constant voltage: the most,
/// where its resistance is the whole load.
#[must_use]
pub fn level_loss_db(rise: f64) -> f64 {
    db_amplitude(resistance_ratio(rise))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn warm_coil_takes_what_it_sheds(power in 0.0_f64..200.0, resistance in 0.5_f64..20.0) {
            let warm = rise_on_voltage(power, resistance);
            let shed = warm / resistance;
            let taken = power / resistance_ratio(warm);
            prop_assert!((shed - taken).abs() < 1e-9 * (1.0 + taken));
            prop_assert!(warm <= rise(power, resistance));
        }
    }

    #[test]
    fn resistance_is_linear_about_20() {
        assert_eq!(copper_resistance(6.0, 20.0), 6.0);
        assert!((copper_resistance(6.0, 70.0) - 6.0 * resistance_ratio(50.0)).abs() < 1e-12);
    }
}
