//! A loudspeaker as one linear network: amplifier output, cable, voice coil,
//! suspension, air load, box, vent or passive radiator.

mod system;

pub use system::{
    AirLoad, Chamber, Channel, CoilInductance, Driver, DriverGroup, Feed, Filling, Outlet,
    OutputFilter, Radiator, System, Vent, VentEnd,
};
