//! How moving surfaces radiate, and what the box, the ground and the room make of it.

pub mod baffle;
mod pair;
pub mod piston;
pub mod surroundings;

pub use pair::pair_gain;
