//! What fits into the box, and what comes out of it.

mod arrange;
mod carry;
mod closest;
mod connect;
mod convex;
mod driver;
mod gap;
mod grove;
mod make;
mod motion;
mod obstacles;
mod opening;
mod overlap;
mod pose;
mod push;
mod reach;
mod roadmap;
mod scene;
mod shadow;
mod timber;

pub use arrange::{Loose, Miss, Stand, Target, Wishes, arrange};
pub use carry::{Carry, Verdict};
pub use driver::{DriverOutline, FRAME_THICKNESS, MAGNET_SHARE, MAGNET_WIDTH, VENT_AIR};
pub use gap::{Gap, Other, gaps};
pub use make::ControlOutline;
pub use opening::Opening;
pub use scene::Scene;
