//! Carpentry over plain numbers: the box as a solid, what fits into it and
//! comes out again, and how its sheets are sawn.
//!
//! Lengths are metres, angles radians, volumes m³. The box stands in a
//! right-handed frame: x runs to the right as the listener sees it, y backwards,
//! z upwards, from the front, left, bottom corner of the box's outer block.

mod plan;
pub mod vector;

pub use plan::*;
