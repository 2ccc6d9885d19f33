//! Resistance of copper wire.

use crate::heat::copper_resistance;

/// Resistivity of annealed copper at 20 °C in Ω·m (`iec-60028`: 1/58 Ω·mm²/m).
pub const COPPER_RESISTIVITY: f64 = 1.0 / 58.0 * 1e-6;

/// What stranding and the limits of `iec-60228` class 5 add to the ideal
/// resistance of the nominal section: 1.11 to 1.16 over 0.5 to 10 mm².
pub const STRANDED_EXCESS: f64 = 1.15;

/// Resistance in Ω of a copper conductor of a length (m) and true section (m²)
/// at a temperature (°C).
#[must_use]
pub fn resistance(length: f64, section: f64, celsius: f64) -> f64 {
    copper_resistance(COPPER_RESISTIVITY * length / section, celsius)
}

/// Highest resistance in Ω, out and back, of a two-core flexible cable of a
/// run (m) and nominal section (m²) at a temperature (°C).
///
/// Within 4 % of the limits of `iec-60228` class 5 from 0.5 to 10 mm².
#[must_use]
pub fn cable_loop(run: f64, section: f64, celsius: f64) -> f64 {
    STRANDED_EXCESS * resistance(2.0 * run, section, celsius)
}
