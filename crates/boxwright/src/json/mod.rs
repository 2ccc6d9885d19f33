//! Answers in JSON.
//!
//! Numbers carry full precision in the unit named beside them. What does not
//! exist or has no end is null; NaN never appears. The schemas in `docs` name
//! every field, and the tests hold every answer against them, so a change of
//! the model that would change an answer does not go unseen.

mod accounts;
mod carpentry;
mod check;
mod electrics;
mod explain;
mod failure;
mod files;
mod finish;
mod layout;
mod money;
mod order;
mod shelf;

pub(crate) use check::check;
pub(crate) use explain::checks;
pub(crate) use failure::failure;
pub(crate) use files::{curves, mends, netlist, opened, written};
pub(crate) use shelf::shelf;

/// Version of the JSON answers; raised when a field changes its meaning or goes.
const FORMAT: u32 = 1;
