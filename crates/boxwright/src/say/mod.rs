//! Answers in words, for a terminal of eighty columns.

mod check;
mod failure;
mod figures;
mod findings;
mod layout;
mod promises;

pub(crate) use check::check;
pub(crate) use failure::failure;
