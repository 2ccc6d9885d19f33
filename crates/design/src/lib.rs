//! The design file and the shelf: text, places, units, tolerances, located
//! errors, and edits that keep comments.

mod model;
mod place;
mod value;

pub use model::*;
pub use place::{FileId, Place};
pub use value::{Tolerance, Value};
