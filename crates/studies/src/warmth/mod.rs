//! How warm it gets in the closed box on the hottest day: amplifier, battery,
//! modules, air and walls, with music, squashed music and a full sine.

mod bay;
mod heat;
mod limits;
mod model;
mod modules;
mod rest;
mod room;
mod study;
mod sunlit;
mod words;

#[cfg(test)]
mod tests;

pub use model::{Case, Heat, Limits, Standing, Temperatures, Warmth};

pub(crate) use heat::{Played, Player};
pub(crate) use limits::limits;
pub(crate) use modules::Modules;
pub(crate) use rest::{Rest, at_rest, hottest_day, silent};
pub(crate) use study::study;
