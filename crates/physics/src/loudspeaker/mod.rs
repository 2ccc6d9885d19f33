//! A loudspeaker as one linear network: amplifier output, cable, voice coil,
//! suspension, air load, box, vent or passive radiator.

mod duct;
mod load;
mod netlist;
mod network;
mod parts;
mod power;
mod reference;
mod sweep;
mod system;
mod tuning;

pub use network::{Network, OtherStructure};
pub use power::PowerBalance;
pub use sweep::{ChamberSweep, ChannelSweep, GroupSweep, OutletSweep, Sweep};
pub use system::{
    AirLoad, Chamber, Channel, CoilInductance, Driver, DriverGroup, Feed, Filling, Outlet,
    OutputFilter, Radiator, System, Vent, VentEnd,
};
pub use tuning::{effective_length, leak_resistance, pipe_resonance, vent_length, vent_tuning};
