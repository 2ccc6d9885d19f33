//! Files for machines: panels, the control plate and sawing layouts at full
//! size, on layers by what is done along a line.
//!
//! A file's lower left corner is the datum corner of the piece as seen from
//! outside; the exporters in [`crate::export`] write it as DXF or SVG.

mod canvas;
mod outline;
mod panel;
mod plate;
mod room;
mod sawing;

pub use canvas::Layer;
pub use panel::panel;
pub use plate::{Letters, plate};
pub use sawing::sawing;

pub(crate) use canvas::{hole_shape, mm};
pub(crate) use outline::long_points;
pub(crate) use room::Room;

/// Holes up to this diameter in m are drilled, larger ones cut: what chucks
/// of hand drills take; common practice, no source.
pub const LARGEST_DRILL: f64 = 0.013;
