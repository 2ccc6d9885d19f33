//! The box drawn from its solid model: lid lifted, in views and sections, panel
//! by panel, and its corners at full size.

mod balance;
mod balloon;
mod callout;
mod cone;
mod corner;
mod dimension;
mod exploded;
mod inside;
mod lifted;
mod model;
mod motion;
mod ordinate;
mod panel;
mod picture;
mod scale;
mod views;
mod wired;

pub(crate) use balance::balance;
pub(crate) use corner::{Corner, corners};
pub(crate) use exploded::exploded;
pub(crate) use inside::{Fixed, WireEnd, height_wanted, home, inside, scale as wall_scale};
pub use lifted::lifted;
pub(crate) use panel::{panel, purpose, put_name};
pub use picture::{Grip, Look, Measure, Motion, Picture, Said, pictured};
pub(crate) use scale::mm;
pub(crate) use views::views;
pub(crate) use wired::{Run, wired};

#[cfg(test)]
mod tests;
