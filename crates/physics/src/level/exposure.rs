//! How long an ear bears a level.
//!
//! Caution, not judgement: local rules for work and public events come first.

use crate::math::pow;

/// Hours a week of listening at a steady level in dB(A): 40 h at 80, equal
/// energy (`itu-h870` mode 1, adults).
#[must_use]
pub fn listening_hours_per_week(level: f64) -> f64 {
    40.0 * pow(10.0, (80.0 - level) / 10.0)
}

/// The same for children and sensitive listeners: 40 h at 75 dB(A)
/// (`itu-h870` mode 2, from memory).
#[must_use]
pub fn sensitive_hours_per_week(level: f64) -> f64 {
    listening_hours_per_week(level + 5.0)
}
