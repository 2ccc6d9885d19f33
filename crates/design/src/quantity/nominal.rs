//! A number with its unit.

use super::decibel;
use super::number::Number;
use super::unit::Unit;

/// A number with its unit, not yet multiplied out.
pub(crate) struct Nominal {
    pub(crate) number: Number,
    pub(crate) unit: Option<&'static Unit>,
}

impl Nominal {
    pub(crate) fn si(&self) -> f64 {
        match self.unit {
            Some(unit) if decibel::is_gain(unit) => decibel::ratio(self.number.value()),
            Some(unit) => self.number.in_unit(unit),
            None => self.number.value(),
        }
    }
}
