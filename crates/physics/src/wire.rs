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

/// Diameter in m of a solid wire of an American wire gauge (`astm-b258`): 0.005 in at 36, and
/// 92 times that at 0000, in 39 equal ratios. Gauges 00 to 0000 are −1 to −3.
#[must_use]
pub fn gauge_diameter(gauge: i32) -> f64 {
    let steps = f64::from(36 - gauge) / 39.0;
    0.005 * 0.0254 * crate::math::pow(92.0, steps)
}

/// Section in m² of a wire of an American wire gauge.
#[must_use]
pub fn gauge_section(gauge: i32) -> f64 {
    let diameter = gauge_diameter(gauge);
    core::f64::consts::PI / 4.0 * diameter * diameter
}

/// The thinnest American wire gauge that is no thinner than a section (m²), among the even ones
/// from 30 to 8 that flexible wire is sold in; `None` above them.
#[must_use]
pub fn gauge_for(section: f64) -> Option<i32> {
    // What is sold for a metric section is up to 3 % thinner than it: 0.52 mm² serves as 0.5.
    let serves = |gauge: &i32| gauge_section(*gauge) >= 0.97 * section;
    (4..=15).rev().map(|half| 2 * half).find(serves)
}
