//! The electrics of a box: the net list it needs, what its switches do, its harness.

pub mod colour;

mod model;

pub use model::*;
