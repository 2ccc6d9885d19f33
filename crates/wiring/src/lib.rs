//! Electrical parts, the wires between them, and what follows from both in
//! every position of the switches.
//!
//! Plain names and numbers: resistances are ohms, currents amperes. A part is
//! known by its place in the list of parts, a terminal by that of its part and
//! its own place in the part's list. Nothing here knows what a fuse blows at or
//! what a wire weighs; it tells which metal is joined to which, what reaches
//! what through what, and how much current flows where.

pub mod diagram;
mod fault;
mod flow;
mod nets;
mod part;
mod reach;
mod system;

pub mod rules;

pub use fault::Fault;
pub use flow::{Draw, Flow, flow};
pub use nets::{Net, Nets};
pub use part::{Inner, Kind, Part, Role, Side, Sign, Terminal, Through};
pub use reach::{Limits, Reach, Step};
pub use system::{Carries, End, Mode, State, System, Wire};
