//! Gains written in decibels.

use super::Dimension;
use super::unit::Unit;

/// Whether the unit is the decibel of an amplification.
pub(crate) fn is_gain(unit: &Unit) -> bool {
    unit.dimension == Dimension::Gain && unit.symbol == "dB"
}

/// Amplitude ratio of a gain in dB; the same last bit on every machine.
pub(crate) fn ratio(decibels: f64) -> f64 {
    libm::pow(10.0, decibels / 20.0)
}

/// Gain in dB of an amplitude ratio.
pub(crate) fn from_ratio(ratio: f64) -> f64 {
    20.0 * libm::log10(ratio)
}
