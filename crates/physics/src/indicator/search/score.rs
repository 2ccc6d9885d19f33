//! How circuits are ranked.

use crate::indicator::Indicator;

/// A circuit that was found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// What it is ranked by; less is better.
    pub score: f64,
    /// The circuit.
    pub circuit: Indicator,
    /// Index of its comparator.
    pub comparator: usize,
    /// Index of its reference.
    pub reference: usize,
    /// Index of its capacitor.
    pub capacitor: Option<usize>,
    /// Parts that would have to be bought.
    pub to_buy: u32,
}

/// What a milliampere drawn with the lamp dark weighs against one per cent of
/// the threshold.
const PER_MILLIAMPERE: f64 = 1.0;

/// What each resistor of the divider weighs.
const PER_PART: f64 = 0.15;

/// What each part to be bought weighs.
const PER_BUY: f64 = 0.2;

/// What circuits are ranked by: the threshold's error in per cent (what its
/// nominal misses and what tolerances bring, in quadrature), and what drain,
/// parts and purchases weigh against that.
pub(super) fn score(error: f64, drain: f64, parts: u32, to_buy: u32) -> f64 {
    100.0 * error + rest(drain, parts, to_buy)
}

/// All of the score but the error.
pub(super) fn rest(drain: f64, parts: u32, to_buy: u32) -> f64 {
    1e3 * PER_MILLIAMPERE * drain + PER_PART * f64::from(parts) + PER_BUY * f64::from(to_buy)
}
