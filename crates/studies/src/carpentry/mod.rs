//! The box as wood: what is cut, what fits, what comes out again, and how
//! sure that is.

mod control;
mod model;
mod parts;
mod plan;
mod stops;
mod study;

pub use model::*;

pub(crate) use control::front;
pub(crate) use parts::{BOARD_WEIGHT, CONTROL_WEIGHT};
pub(crate) use plan::{
    Hull, Opening, PlanSubject, Sheets, TUBE_WALL, Thicknesses, extent, fit, middle, wall,
};
pub(crate) use stops::diagnostic;
pub(crate) use study::study;
