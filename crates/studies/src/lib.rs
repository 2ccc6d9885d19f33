//! Where physics and design meet: builds, figures, curves, findings, promises, mends.
//!
//! A study turns a build, which is numbers for one box, into what that box
//! does. The same studies run on the nominal build and on thousands of drawn
//! ones, so every result comes with a band and with odds.

pub mod carpentry;
pub mod check;
pub mod electrics;
pub mod finish;
pub mod levers;
pub mod money;
pub mod order;
pub mod report;
pub mod signal;
pub mod vary;
pub mod warmth;
pub mod words;

mod baffles;
mod build;
mod data_sheet;
mod finding;
mod follow;
pub mod indicator;
mod maker_units;
mod memo;
mod memory;
mod mend;
mod netlist;
mod odds;
mod outcome;
mod power;
mod run;
mod sound;
mod subject;
mod system;
mod texts;
mod versus;
mod worker;
mod wrongs;

pub use data_sheet::{DataSheet, Datum, data_sheet};
pub use memory::Memory;
pub use mend::apply;
pub use netlist::netlist;
pub use odds::Band;
pub use outcome::{Outcome, Traces};
pub use report::Report;
pub use run::{Options, run, run_with_swaps, survey};
pub use sound::Limit;
pub use subject::{AirLine, DIAGNOSTIC_CODES, Front, Spot, SpotKind, WeightLine};
pub use texts::Texts;
pub use versus::{Versus, Way};
pub use worker::{Prepared, Worker};
