//! Natural convection at plates.

use crate::air::{self, KELVIN};
use crate::math::pow;

/// Acceleration of free fall in m/s² (`si-brochure`).
const GRAVITY: f64 = 9.806_65;

/// Below this difference in K the film coefficient no longer changes: it keeps
/// the flow smooth where a horizontal plate's law goes to zero.
const STILL: f64 = 1e-3;

/// Which way a surface faces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Facing {
    /// Upright.
    Sideways,
    /// Horizontal, the air above it.
    Up,
    /// Horizontal, the air below it.
    Down,
}

/// Mean Nusselt number of an upright plate against Rayleigh and Prandtl
/// numbers, over all of laminar and turbulent flow (`churchill-chu-1975`,
/// equation 9). Holds for 0.1 < Ra < 10¹²; measured plates scatter by 15 %.
#[must_use]
pub fn nusselt_vertical(rayleigh: f64, prandtl: f64) -> f64 {
    let shape = pow(1.0 + pow(0.492 / prandtl, 9.0 / 16.0), 8.0 / 27.0);
    let root = 0.825 + 0.387 * pow(rayleigh, 1.0 / 6.0) / shape;
    root * root
}

/// The same for laminar flow, Ra < 10⁹, where it follows measurements a little
/// better (`churchill-chu-1975`).
#[must_use]
pub fn nusselt_vertical_laminar(rayleigh: f64, prandtl: f64) -> f64 {
    let shape = pow(1.0 + pow(0.492 / prandtl, 9.0 / 16.0), 4.0 / 9.0);
    0.68 + 0.670 * pow(rayleigh, 0.25) / shape
}

/// Mean Nusselt number of a horizontal plate, its length taken as area over
/// perimeter (`mcadams-1954`, from memory, as heat-transfer textbooks print it).
///
/// `unstable` where warm air rises off it: a hot plate facing up or a cold one
/// facing down; there 0.54 Ra^¼ up to 10⁷ and 0.15 Ra^⅓ beyond, joined where
/// they meet. Otherwise 0.27 Ra^¼. Valid from 10⁵, within 20 %; below it
/// understates.
#[must_use]
pub fn nusselt_horizontal(rayleigh: f64, unstable: bool) -> f64 {
    let root = pow(rayleigh, 0.25);
    if unstable {
        (0.54 * root).max(0.15 * pow(rayleigh, 1.0 / 3.0))
    } else {
        0.27 * root
    }
}

/// Film coefficient in W/(m²·K) between a plate at `surface` °C and air at
/// `air` °C under `pressure` Pa.
///
/// `length` in m is the height of an upright plate, area over perimeter of a
/// horizontal one. Properties are those of dry air halfway between both
/// temperatures (`iso-2533`).
#[must_use]
pub fn film(facing: Facing, length: f64, surface: f64, air: f64, pressure: f64) -> f64 {
    let between = f64::midpoint(surface, air) + KELVIN;
    let properties = air::film(between, pressure);
    let difference = (surface - air).abs().max(STILL);
    let momentum = properties.viscosity / properties.density;
    let rayleigh = GRAVITY * difference * length * length * length * properties.prandtl
        / (between * momentum * momentum);
    let nusselt = match facing {
        Facing::Sideways => nusselt_vertical(rayleigh, properties.prandtl),
        Facing::Up => nusselt_horizontal(rayleigh, surface > air),
        Facing::Down => nusselt_horizontal(rayleigh, surface < air),
    };
    nusselt * properties.conductivity / length
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::STANDARD_PRESSURE;
    use proptest::prelude::*;

    proptest! {
        /// More difference never carries less heat, whichever way it faces.
        #[test]
        fn flow_grows_with_the_difference(
            facing in prop_oneof![Just(Facing::Sideways), Just(Facing::Up), Just(Facing::Down)],
            length in 0.02_f64..0.5,
            air in -10.0_f64..60.0,
            rise in -60.0_f64..80.0,
            more in 0.01_f64..5.0,
        ) {
            let flow = |rise: f64| {
                rise * film(facing, length, air + rise, air, STANDARD_PRESSURE)
            };
            prop_assert!(flow(rise + more) > flow(rise));
        }
    }

    #[test]
    fn warm_air_leaves_a_hot_plate_upwards() {
        let at = |facing, surface| film(facing, 0.1, surface, 30.0, STANDARD_PRESSURE);
        assert!(at(Facing::Up, 50.0) > 1.9 * at(Facing::Down, 50.0));
        assert!(at(Facing::Down, 10.0) > 1.9 * at(Facing::Up, 10.0));
    }

    /// The two laws of a hot plate facing up meet without a step.
    #[test]
    fn laminar_passes_into_turbulent() {
        let mut last = nusselt_horizontal(1e5, true);
        for step in 1..2000 {
            let next = nusselt_horizontal(pow(10.0, 5.0 + f64::from(step) / 500.0), true);
            assert!(next > last && next < 1.004 * last);
            last = next;
        }
    }
}
