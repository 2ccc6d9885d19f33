//! How warm things get in a closed box: what carries heat, and a network of
//! bodies solved steady and in time.

mod carry;
mod convection;
mod course;
mod linear;
mod network;
mod steady;
mod sun;

pub use carry::{Path, STEFAN_BOLTZMANN, radiation_film, wood_conductivity};
pub use convection::{
    Facing, film, nusselt_horizontal, nusselt_vertical, nusselt_vertical_laminar,
};
pub use course::Course;
pub use network::{Link, Network, Node};
pub use sun::{CLEAR_SKY, struck};
