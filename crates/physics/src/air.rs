//! The air a loudspeaker works in.

use crate::math::pow;

/// 0 °C in K.
pub const KELVIN: f64 = 273.15;

/// Reference atmospheric pressure in Pa.
pub const STANDARD_PRESSURE: f64 = 101_325.0;

/// Molar gas constant in J/(mol·K).
const GAS: f64 = 8.314_462_618;

/// Molar mass of dry air in kg/mol (`iso-2533`).
const DRY_AIR: f64 = 0.028_964_42;

/// Molar mass of water in kg/mol.
const WATER: f64 = 0.018_015_28;

/// Properties of air at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Temperature in °C.
    pub celsius: f64,
    /// Static pressure in Pa.
    pub pressure: f64,
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
    /// Density ρ in kg/m³.
    pub density: f64,
    /// Speed of sound c in m/s.
    pub sound_speed: f64,
    /// Dynamic viscosity µ in Pa·s.
    pub viscosity: f64,
    /// Ratio of the heat capacities γ.
    pub gamma: f64,
    /// Prandtl number.
    pub prandtl: f64,
}

impl Air {
    /// Air at a temperature (°C), static pressure (Pa) and relative humidity (0 to 1).
    ///
    /// A mixture of two ideal gases, with heat capacities 7/2 R (dry air) and
    /// 4.04 R (water vapour), saturation pressure of `iso-9613-1`, and
    /// viscosity and conductivity of dry air (`iso-2533`).
    /// Valid for −20 to 50 °C near sea level and up to 3 km; within 0.1 % in ρ
    /// and c there. Damp lowers the viscosity, by 0.5 % in a room and 3 % on a
    /// hot wet mountain, which is left out.
    #[must_use]
    pub fn at(celsius: f64, pressure: f64, humidity: f64) -> Self {
        let kelvin = celsius + KELVIN;
        let water = humidity * saturation_pressure(celsius) / pressure;
        let molar_mass = DRY_AIR + water * (WATER - DRY_AIR);
        let heat_capacity = 3.5 + water * (4.04 - 3.5);
        let gamma = heat_capacity / (heat_capacity - 1.0);
        let viscosity = sutherland_viscosity(kelvin);
        let capacity_per_mass = heat_capacity * GAS / molar_mass;
        Self {
            celsius,
            pressure,
            humidity,
            density: pressure * molar_mass / (GAS * kelvin),
            sound_speed: (gamma * GAS * kelvin / molar_mass).sqrt(),
            viscosity,
            gamma,
            prandtl: viscosity * capacity_per_mass / heat_conductivity(kelvin),
        }
    }

    /// Air at a temperature (°C), height above sea level (m) and relative
    /// humidity (0 to 1), under the pressure of the standard atmosphere.
    #[must_use]
    pub fn at_altitude(celsius: f64, altitude: f64, humidity: f64) -> Self {
        Self::at(celsius, standard_pressure(altitude), humidity)
    }

    /// Air with stated density (kg/m³) and speed of sound (m/s), otherwise as at 20 °C.
    ///
    /// Used where a published example states its own ρ and c.
    #[must_use]
    pub const fn with(density: f64, sound_speed: f64) -> Self {
        Self {
            celsius: 20.0,
            pressure: STANDARD_PRESSURE,
            humidity: 0.5,
            density,
            sound_speed,
            viscosity: 1.813e-5,
            gamma: 1.4,
            prandtl: 0.71,
        }
    }

    /// Characteristic impedance ρc in Pa·s/m.
    #[must_use]
    pub fn impedance(&self) -> f64 {
        self.density * self.sound_speed
    }

    /// Share of the molecules that are water, 0 to 1.
    #[must_use]
    pub fn water_share(&self) -> f64 {
        self.humidity * saturation_pressure(self.celsius) / self.pressure
    }

    /// Absolute temperature in K.
    #[must_use]
    pub fn kelvin(&self) -> f64 {
        self.celsius + KELVIN
    }
}

/// Pressure of the standard atmosphere in Pa at a height in m (`iso-2533`),
/// valid from −2 to 11 km.
#[must_use]
pub fn standard_pressure(altitude: f64) -> f64 {
    const LAPSE: f64 = 0.0065;
    const SEA_LEVEL: f64 = 288.15;
    const EXPONENT: f64 = 9.806_65 * DRY_AIR / (8.314_32 * LAPSE);
    STANDARD_PRESSURE * pow(1.0 - LAPSE * altitude / SEA_LEVEL, EXPONENT)
}

/// Dry air as it carries heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Film {
    /// Density in kg/m³.
    pub(crate) density: f64,
    /// Dynamic viscosity in Pa·s.
    pub(crate) viscosity: f64,
    /// Thermal conductivity in W/(m·K).
    pub(crate) conductivity: f64,
    /// Prandtl number.
    pub(crate) prandtl: f64,
}

/// Dry air at a temperature in K and a pressure in Pa (`iso-2533`).
pub(crate) fn film(kelvin: f64, pressure: f64) -> Film {
    let viscosity = sutherland_viscosity(kelvin);
    let conductivity = heat_conductivity(kelvin);
    Film {
        density: pressure * DRY_AIR / (GAS * kelvin),
        viscosity,
        conductivity,
        prandtl: viscosity * 3.5 * GAS / DRY_AIR / conductivity,
    }
}

/// Saturation vapour pressure of water in Pa (`iso-9613-1` annex B).
fn saturation_pressure(celsius: f64) -> f64 {
    let triple_point = 273.16;
    let ratio = triple_point / (celsius + KELVIN);
    STANDARD_PRESSURE * pow(10.0, -6.8346 * pow(ratio, 1.261) + 4.6151)
}

/// Sutherland's law for dry air, in Pa·s (`iso-2533`).
fn sutherland_viscosity(kelvin: f64) -> f64 {
    1.458e-6 * kelvin * kelvin.sqrt() / (kelvin + 110.4)
}

/// Thermal conductivity of dry air in W/(m·K) (`iso-2533`).
fn heat_conductivity(kelvin: f64) -> f64 {
    let sink = 245.4 * pow(10.0, -12.0 / kelvin);
    2.648_151e-3 * kelvin * kelvin.sqrt() / (kelvin + sink)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn check(what: &str, got: f64, expected: f64, tolerance: f64) {
        let error = (got - expected).abs();
        assert!(
            error <= tolerance,
            "{what}: {got} is not {expected} ± {tolerance}"
        );
    }

    #[test]
    fn damp_air_is_lighter_and_faster() {
        let dry = Air::at(30.0, STANDARD_PRESSURE, 0.0);
        let damp = Air::at(30.0, STANDARD_PRESSURE, 1.0);
        check(
            "vapour",
            damp.water_share() * STANDARD_PRESSURE,
            4246.0,
            15.0,
        );
        assert!(damp.density < 0.99 * dry.density);
        assert!(damp.sound_speed > dry.sound_speed + 2.0);
        assert!(damp.gamma < dry.gamma);
    }

    proptest! {
        /// The standard atmosphere carries its own weight: −dp/dh = ρg, but
        /// for the fifth digit of its older gas constant.
        #[test]
        fn standard_atmosphere_is_in_balance(altitude in -1000.0_f64..10_000.0) {
            let gradient = standard_pressure(altitude + 1.0) - standard_pressure(altitude - 1.0);
            let air = Air::at_altitude(15.0 - 0.0065 * altitude, altitude, 0.0);
            prop_assert!((-gradient / 2.0 / (air.density * 9.806_65) - 1.0).abs() < 3e-5);
        }

        /// ρc² = γp holds for any ideal mixture.
        #[test]
        fn stiffness_is_gamma_pressure(
            celsius in -20.0_f64..50.0,
            pressure in 7e4_f64..1.1e5,
            humidity in 0.0_f64..=1.0,
        ) {
            let air = Air::at(celsius, pressure, humidity);
            let stiffness = air.density * air.sound_speed * air.sound_speed;
            prop_assert!((stiffness / (air.gamma * pressure) - 1.0).abs() < 1e-12);
        }

        /// Speed of sound does not depend on pressure, density is proportional to it (dry).
        #[test]
        fn pressure_scales_density_only(celsius in -20.0_f64..50.0, ratio in 0.7_f64..1.1) {
            let low = Air::at(celsius, STANDARD_PRESSURE, 0.0);
            let high = Air::at(celsius, STANDARD_PRESSURE * ratio, 0.0);
            prop_assert!((high.density / low.density / ratio - 1.0).abs() < 1e-12);
            prop_assert!((high.sound_speed / low.sound_speed - 1.0).abs() < 1e-12);
        }
    }
}
