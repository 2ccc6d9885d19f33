//! What the box takes and costs: the shopping list, what becomes of the
//! sheets, and what other parts of the shelf would change.

mod model;

pub use model::*;
