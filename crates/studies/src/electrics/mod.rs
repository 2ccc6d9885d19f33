//! The electrics of a box: the net list it needs, what its switches do, its harness.

pub mod colour;
pub mod section;

mod aside;
mod currents;
mod draft;
mod harness;
mod kinds;
mod model;
mod modes;
mod named;
mod overrides;
mod propose;
mod route;
mod spools;
mod spots;
mod study;
#[cfg(test)]
mod tests;

pub(crate) use aside::{Aside, Share};
pub use model::*;
pub use spools::{Spool, Strand};
pub(crate) use study::{Asked, DROP_SHARE, amplifier_drop, lets_pass, study};
