//! Level and distance in a free field.

use crate::math::{db_amplitude, db_power};
use core::f64::consts::PI;

/// Spherical spreading: dB lost between 1 m and a distance in m (`iso-9613-2` eq. 7).
///
/// Valid in the far field: beyond a few times the size of the box.
#[must_use]
pub fn loss_db(distance: f64) -> f64 {
    db_amplitude(distance)
}

/// Level at a distance (m), re 20 µPa, of a source of sound power level
/// `power_level` (re 1 pW) that radiates evenly into the whole sphere, in
/// air of ρc = 400 Pa·s/m.
#[must_use]
pub fn level_of_power(power_level: f64, distance: f64) -> f64 {
    power_level - db_power(4.0 * PI * distance * distance)
}
