//! Answers in words, for a terminal of eighty columns.

mod check;
mod explain;
mod failure;
mod figures;
mod files;
mod findings;
mod finish;
mod indicator;
mod layout;
mod money;
mod order;
mod plain;
mod promises;
mod shelf;
mod signal;
mod warmth;
mod wiring;
mod wood;

pub(crate) use check::check;
pub(crate) use explain::{checks, explained};
pub(crate) use failure::failure;
pub(crate) use files::{begun, mended, mends, nothing_to_mend, packed};
#[cfg(test)]
pub(crate) use shelf::part_as_toml;
pub(crate) use shelf::{parts, shelf};
