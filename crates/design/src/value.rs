//! A number with the tolerance its writer gave it.

use crate::place::Place;

/// A physical value as written: nominal, tolerance, place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Value {
    /// The nominal value in SI units (kelvin differences and °C stay °C, money
    /// stays in its currency, level stays in dB).
    pub si: f64,
    /// The tolerance stated with it.
    pub tolerance: Tolerance,
    /// Where it is written.
    pub place: Place,
}

/// The tolerance stated with a value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tolerance {
    /// Nothing stated: the usual spread of this kind of value applies.
    Unstated,
    /// Within plus or minus so much, in the value's own SI unit.
    Within(f64),
    /// "about".
    About,
}
