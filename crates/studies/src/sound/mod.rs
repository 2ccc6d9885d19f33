//! How low and how loud: from the network's solution to levels and limits.

mod gains;
mod grid;
mod limits;
mod loud;
mod low;
mod scene;

pub(crate) use gains::Gains;
pub(crate) use grid::Grid;
pub use limits::Limit;
pub(crate) use limits::{Caps, Ceiling, VENT_SPEED};
pub(crate) use loud::{Loudest, loudest, programme_ceilings};
pub(crate) use low::{hump, low_points};
pub(crate) use scene::Scene;

/// Voltage at which responses are shown, in V rms (1 W into 8 Ω).
pub(crate) const SHOWN_VOLTAGE: f64 = 2.83;
