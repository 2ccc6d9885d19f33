//! Quantities: text with number, unit and tolerance, and back.

mod apart;
mod component;
mod decibel;
mod dimension;
mod money;
mod nominal;
mod number;
mod parse;
mod preferred;
mod print;
#[cfg(test)]
mod properties;
mod size;
#[cfg(test)]
mod tests;
mod trouble;
mod unit;

pub use apart::{WrittenNumber, hand_written, written_numbers};
pub use dimension::Dimension;
pub use preferred::Series;
pub use print::{format_like, format_rounded, format_value};

pub(crate) use money::amount;
pub(crate) use parse::quantity;
pub(crate) use size::edges;
pub(crate) use trouble::{BadNumber, BadTolerance, BadUnit, Trouble, TroubleKind};
pub(crate) use unit::symbols;
