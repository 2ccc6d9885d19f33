//! The box as wood: what is cut, what fits, what comes out again, and how
//! sure that is.

mod access;
mod balance;
mod control;
mod control_plan;
mod cuts;
mod drilling;
mod gaps;
mod glue;
mod model;
mod modes;
mod parts;
mod plan;
mod ring;
mod sheets;
mod solid;
mod stops;
mod study;
mod workshop;

#[cfg(test)]
mod tests;

pub use model::*;
pub use plan::wall;

pub(crate) use control::{front, knob_height};
pub(crate) use cuts::{STRIP, cut_list, grille_weight};
pub(crate) use parts::{BOARD_WEIGHT, CONTROL_WEIGHT, MODULE_WEIGHT};
pub(crate) use plan::{
    Hull, Opening, PlanSubject, Sheets, TUBE_WALL, Thicknesses, extent, fit, middle, screws,
};
pub(crate) use sheets::{plans as sheet_plans, whole_sheets};
pub(crate) use solid::solid;
pub(crate) use stops::diagnostic;
pub(crate) use study::study;
pub(crate) use workshop::Workshop;
