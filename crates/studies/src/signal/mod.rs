//! The signal's way from each source to the drivers: levels and headroom at
//! every stage, the law of the volume control under its load, coupling
//! capacitors, and the output filter into the computed impedance.

mod coupling;
mod filter;
mod model;
mod path;
mod sources;
mod study;

pub use model::{Bend, Coupled, Damped, Filtered, Signal, SourcePath, Stage};

pub(crate) use coupling::{input, output};
pub(crate) use filter::{AUDIBLE, filter};
pub(crate) use path::{Path, volume};
pub(crate) use sources::{radio_level, sources};
pub(crate) use study::{bend, levels, study};
