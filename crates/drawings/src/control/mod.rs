//! The control panel: what is written on it, and its sheet at full size.

pub(crate) mod face;
mod sheet;

pub use sheet::{View, pages};

#[cfg(test)]
mod tests;
