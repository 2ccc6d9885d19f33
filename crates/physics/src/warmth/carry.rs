//! What carries heat between two bodies.

use super::convection::{Facing, film};
use crate::air::KELVIN;

/// Stefan–Boltzmann constant in W/(m²·K⁴) (`si-brochure`).
pub const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;

/// One way for heat between two bodies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Path {
    /// In proportion to the difference, in W/K: through a wall, a pad, or what
    /// a data sheet states as one over its K/W.
    Conductance(f64),
    /// From a plate to air by natural convection; the first body is the plate.
    Convection {
        /// Area in m².
        area: f64,
        /// Height of an upright plate, area over perimeter of a horizontal one, in m.
        length: f64,
        /// Which way the plate faces.
        facing: Facing,
    },
    /// By radiation, grey and diffuse, σ·ε·A·(T₁⁴ − T₂⁴).
    Radiation {
        /// Area in m².
        area: f64,
        /// Emissivity of the exchange, 0 to 1.
        emissivity: f64,
    },
}

impl Path {
    /// Heat in W from a body at `from` °C to one at `to` °C, in air under `pressure` Pa.
    #[must_use]
    pub fn flow(&self, from: f64, to: f64, pressure: f64) -> f64 {
        match *self {
            Self::Conductance(conductance) => conductance * (from - to),
            Self::Convection {
                area,
                length,
                facing,
            } => area * (from - to) * film(facing, length, from, to, pressure),
            Self::Radiation { area, emissivity } => {
                let square = |celsius: f64| (celsius + KELVIN) * (celsius + KELVIN);
                let (hot, cold) = (square(from), square(to));
                STEFAN_BOLTZMANN * emissivity * area * (hot * hot - cold * cold)
            }
        }
    }
}

/// Film coefficient in W/(m²·K) of radiation between surfaces whose mean
/// temperature is `mean` K: 4σεT³. Within 1 % of the full law up to 60 K apart
/// at room temperature.
#[must_use]
pub fn radiation_film(emissivity: f64, mean: f64) -> f64 {
    4.0 * STEFAN_BOLTZMANN * emissivity * mean * mean * mean
}

/// Conductivity in W/(m·K) of wood across the grain (`wood-handbook`, equation
/// 4-15): specific gravity G (oven-dry mass over volume as it is) and moisture in %.
///
/// Valid for G above 0.3 and moisture up to 25 %, near 24 °C; within a tenth.
/// Plywood and boards of the same density are taken as wood.
#[must_use]
pub fn wood_conductivity(gravity: f64, moisture: f64) -> f64 {
    gravity * (0.1941 + 0.004_064 * moisture) + 0.018_64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::STANDARD_PRESSURE;

    #[test]
    fn linear_radiation_is_near_the_full_law() {
        let path = Path::Radiation {
            area: 1.0,
            emissivity: 0.9,
        };
        let full = path.flow(53.0, -7.0, STANDARD_PRESSURE) / 60.0;
        let linear = radiation_film(0.9, 23.0 + KELVIN);
        assert!((full / linear - 1.0).abs() < 0.011, "{full} {linear}");
    }

    #[test]
    fn no_difference_no_heat() {
        for path in [
            Path::Conductance(2.0),
            Path::Radiation {
                area: 1.0,
                emissivity: 0.9,
            },
            Path::Convection {
                area: 1.0,
                length: 0.2,
                facing: Facing::Up,
            },
        ] {
            assert_eq!(path.flow(35.0, 35.0, STANDARD_PRESSURE), 0.0);
        }
    }
}
