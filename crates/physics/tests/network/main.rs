//! The loudspeaker network against published relations, against a general
//! circuit simulator, and against what must hold for any passive network.

mod alignments;
mod limits;
mod netlist;
mod properties;
mod strategies;
mod support;
#[path = "../table/mod.rs"]
mod table;
mod tables;
