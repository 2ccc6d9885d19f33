//! Frequency weighting of sound level meters (`iec-61672-1` § 5.5 and annex E).

use crate::math::db_power;

/// Pole frequencies f₁ to f₄ in Hz.
const POLES: [f64; 4] = [20.598_997, 107.652_65, 737.862_23, 12_194.217];

/// A-weighting in dB, 0 at 1 kHz. Valid above 0 Hz.
#[must_use]
pub fn a_db(frequency: f64) -> f64 {
    a_power(frequency) - a_power(1000.0)
}

/// C-weighting in dB, 0 at 1 kHz. Valid above 0 Hz.
#[must_use]
pub fn c_db(frequency: f64) -> f64 {
    c_power(frequency) - c_power(1000.0)
}

/// The C filter: two zeros at 0 Hz, double poles at f₁ and f₄, as a level.
fn c_power(frequency: f64) -> f64 {
    let [f1, _, _, f4] = POLES;
    let low = high_pass(frequency, f1);
    let high = 1.0 - high_pass(frequency, f4);
    2.0 * (db_power(low) + db_power(high))
}

/// The A filter: the C filter with two more first-order high-passes, as a level.
fn a_power(frequency: f64) -> f64 {
    let [_, f2, f3, _] = POLES;
    c_power(frequency) + db_power(high_pass(frequency, f2)) + db_power(high_pass(frequency, f3))
}

/// Power passed by a first-order high-pass.
fn high_pass(frequency: f64, corner: f64) -> f64 {
    let square = frequency * frequency;
    square / (square + corner * corner)
}
