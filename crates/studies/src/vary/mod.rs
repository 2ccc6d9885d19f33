//! What varies from one build to the next: causes, their spreads, and draws.

mod cause;
mod draw;
mod normal;
mod shape;
pub mod spreads;

pub use cause::{Cause, Causes, Origin, Uncertain};
pub use draw::{Draw, draw};
pub use shape::Shape;
