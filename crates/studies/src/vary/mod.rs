//! What varies from one build to the next: causes, their spreads, and draws.

mod cause;
mod draw;
mod normal;
pub mod spreads;

pub use cause::{Cause, Causes, Origin, Shape, Uncertain};
pub use draw::{Draw, draw};
