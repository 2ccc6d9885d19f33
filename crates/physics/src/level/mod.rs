//! Levels: weighting, spreading, absorption on the way, and how long an ear bears them.

pub mod absorption;
pub mod exposure;
pub mod weighting;

/// Reference sound pressure in Pa: 20 µPa.
pub const REFERENCE_PRESSURE: f64 = 20e-6;

/// Level in dB re 20 µPa of an rms pressure in Pa.
#[must_use]
pub fn db_of_pressure(rms: f64) -> f64 {
    crate::math::db_amplitude(rms / REFERENCE_PRESSURE)
}
