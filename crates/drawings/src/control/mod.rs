//! The control panel: what is written on it, and its sheet at full size.

pub(crate) mod face;
mod sheet;

pub use sheet::{View, pages};

use studies::carpentry::ControlPlan;

/// What a control panel should say and has no room for, in words: labels of parts, numbers
/// of scales.
#[must_use]
pub fn left_out(plan: &ControlPlan) -> Vec<String> {
    face::Face::of(plan).left_out
}

#[cfg(test)]
mod tests;
