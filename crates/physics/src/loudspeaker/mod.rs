//! A loudspeaker as one linear network: amplifier output, cable, voice coil,
//! suspension, air load, box, vent or passive radiator.
//!
//! A [`System`] holds plain numbers, a [`Network`] solves it, a [`Sweep`] is
//! what comes out, for one volt of source.
//!
//! ```
//! use boxwright_physics::air::Air;
//! use boxwright_physics::loudspeaker::*;
//!
//! let driver = Driver {
//!     re: 3.6,
//!     inductance: CoilInductance::Plain(0.3e-3),
//!     bl: 6.1,
//!     mass: 12.5e-3,
//!     compliance: 0.67e-3,
//!     resistance: 1.1,
//!     area: 133e-4,
//! };
//! let closed = System {
//!     air: Air::with(1.2, 343.0),
//!     air_load: AirLoad::InMass,
//!     channels: vec![Channel {
//!         feed: Feed::default(),
//!         drive: 1.0,
//!         groups: vec![DriverGroup { driver, series: 1, parallel: 1, chamber: 0 }],
//!     }],
//!     chambers: vec![Chamber {
//!         volume: 10e-3,
//!         filling: Filling::default(),
//!         leak_resistance: None,
//!         absorption_resistance: 0.0,
//!         outlets: Vec::new(),
//!     }],
//! };
//! let sweep = Network::new(&closed).sweep(&[40.0, 80.0, 160.0]);
//! let travel = |index: usize| {
//!     let omega = 2.0 * std::f64::consts::PI * sweep.frequencies[index];
//!     sweep.channels[0].groups[0].cone_velocity[index].norm() / omega
//! };
//! assert!(travel(0) > travel(1) && travel(1) > travel(2));
//! ```

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
