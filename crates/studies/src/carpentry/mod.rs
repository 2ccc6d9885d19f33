//! The box as wood: what is cut, what fits, what comes out again, and how
//! sure that is.

mod model;

pub use model::*;
