//! What the amplifier draws, what it gives, and how long the battery lasts.

mod draw;
mod peak;
mod runtime;

pub(crate) use draw::{Load, Signal, clean_power, supply_power};
pub(crate) use peak::peak_current;
pub(crate) use runtime::{Playing, consumption};
