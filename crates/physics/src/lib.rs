//! Laws over plain numbers: circuits, radiation, ducts, cells, heat, air.
//!
//! Everything here is SI `f64`; names and docs carry the unit. Nothing here
//! knows of the design file, of disk, clock, network or terminal.
//! Sources are keys of `bibliography.toml` at the root of the repository.

pub mod air;
pub mod amplifier;
pub mod battery;
pub mod circuit;
pub mod driver;
pub mod fuse;
pub mod heat;
pub mod indicator;
pub mod level;
pub mod loudspeaker;
pub mod math;
pub mod plate;
pub mod programme;
pub mod radiation;
pub mod signal;
pub mod special;
pub mod warmth;
pub mod wire;
