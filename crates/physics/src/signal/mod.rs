//! The signal's way from the source to the drivers: level control, sum of left
//! and right, coupling, and the filter at a switching output.

mod coupling;
mod level;
mod output;
mod sum;

pub use coupling::Coupling;
pub use level::{LevelControl, Track};
pub use output::{Damping, Output, quietest};
pub use sum::Sum;
