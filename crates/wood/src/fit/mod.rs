//! What fits into the box, and what comes out of it.

mod closest;
mod convex;
mod driver;
mod gap;
mod make;
mod overlap;
mod pose;
mod timber;

pub use driver::{
    BASKET_CLEARANCE, DriverOutline, FRAME_THICKNESS, MAGNET_SHARE, MAGNET_WIDTH, VENT_AIR,
};
pub use gap::{Gap, Other, gaps};
pub use make::ControlOutline;
