//! The low-battery indicator: thresholds and tolerances against tables, and the
//! whole circuit through a general circuit simulator.

#[path = "../table/mod.rs"]
mod table;

mod parts;
mod simulator;
mod tables;
