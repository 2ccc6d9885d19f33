//! Relations between a driver's parameters, one law each.

use core::f64::consts::PI;

use crate::air::Air;
use crate::level::REFERENCE_PRESSURE;
use crate::math;

/// The voltage in V rms that sensitivity is stated for: 1 W in 8 Ω, as the
/// trade writes it.
pub const SENSITIVITY_VOLTAGE: f64 = 2.83;

/// V<sub>AS</sub> = ρc²S<sub>D</sub>²C<sub>MS</sub> in m³ from compliance (m/N) and
/// area (m²).
#[must_use]
pub fn equivalent_volume(compliance: f64, area: f64, air: &Air) -> f64 {
    stiffness(air) * area * area * compliance
}

/// C<sub>MS</sub> in m/N from equivalent volume (m³) and area (m²).
#[must_use]
pub fn compliance_of(equivalent_volume: f64, area: f64, air: &Air) -> f64 {
    equivalent_volume / (stiffness(air) * area * area)
}

fn stiffness(air: &Air) -> f64 {
    air.density * air.sound_speed * air.sound_speed
}

/// Q<sub>TS</sub> of a mechanical and an electrical Q: 1/Q<sub>TS</sub> = 1/Q<sub>MS</sub> + 1/Q<sub>ES</sub>.
#[must_use]
pub fn total_quality(mechanical: f64, electrical: f64) -> f64 {
    mechanical * electrical / (mechanical + electrical)
}

/// Reference efficiency η₀ = ρBl²S<sub>D</sub>²/(2πcR<sub>E</sub>M<sub>MS</sub>²) into half space, as
/// a fraction (`small-1972`).
///
/// Far above resonance, below where the cone beams or the coil's inductance counts.
#[must_use]
pub fn efficiency(bl: f64, area: f64, re: f64, mass: f64, air: &Air) -> f64 {
    let drive = bl * area / mass;
    air.density * drive * drive / (2.0 * PI * air.sound_speed * re)
}

/// The same from what is measured at resonance: η₀ = 4π²f<sub>S</sub>³V<sub>AS</sub>/(c³Q<sub>ES</sub>).
#[must_use]
pub fn efficiency_of_resonance(fs: f64, equivalent_volume: f64, qes: f64, air: &Air) -> f64 {
    let wavenumber = math::omega(fs) / air.sound_speed;
    wavenumber * wavenumber * wavenumber * equivalent_volume / (2.0 * PI * qes)
}

/// Sound pressure level in dB re 20 µPa at 1 m in half space of an acoustic
/// power in W.
#[must_use]
pub fn level_of_power(power: f64, air: &Air) -> f64 {
    let square = power * air.density * air.sound_speed / (2.0 * PI);
    math::db_power(square / (REFERENCE_PRESSURE * REFERENCE_PRESSURE))
}

/// Sensitivity: the level in dB re 20 µPa at 1 m in half space for 2.83 V rms.
#[must_use]
pub fn sensitivity(bl: f64, area: f64, re: f64, mass: f64, air: &Air) -> f64 {
    math::db_amplitude(pressure(bl, area, re, mass, air) / REFERENCE_PRESSURE)
}

fn pressure(bl: f64, area: f64, re: f64, mass: f64, air: &Air) -> f64 {
    air.density * bl * area * SENSITIVITY_VOLTAGE / (2.0 * PI * re * mass)
}

/// A sensitivity in dB as the pressure at 1 m in Pa rms.
pub(super) fn pressure_of(sensitivity: f64) -> f64 {
    REFERENCE_PRESSURE * math::amplitude_from_db(sensitivity)
}

/// The sensitivity in dB of a pressure at 1 m in Pa rms.
pub(super) fn sensitivity_of(pressure: f64) -> f64 {
    math::db_amplitude(pressure / REFERENCE_PRESSURE)
}

/// Air that moves with a cone hung free, both sides together, in kg: 8ρa³/3
/// with a the radius of the cone's area.
///
/// The added mass of a rigid disc in an unbounded fluid at low frequency
/// (`lamb-1932`, article 102). M<sub>MS</sub> = M<sub>MD</sub> + this, since data sheets and the
/// added-mass method state the driver hung in free air. In a wide wall each side
/// alone carries as much (the piston's mass, `morse-ingard`), so that the
/// resonance there is lower.
#[must_use]
pub fn free_air_mass(area: f64, air: &Air) -> f64 {
    let square = area / PI;
    8.0 / 3.0 * air.density * square * square.sqrt()
}
