//! A low-battery indicator: a comparator holds a share of the battery's voltage
//! against a reference and lights a lamp when it falls below.
//!
//! One circuit. The divider of `top` and `bottom` feeds the non-inverting input;
//! the reference, fed through a resistor, stands at the inverting one. The lamp
//! hangs between battery and output and lights when the output is low. A
//! resistor from the output back to the divider pulls the threshold down while
//! the lamp is lit (hysteresis), and a capacitor across `bottom` makes dips of
//! the supply pass unseen. An output that only pulls low has a resistor that
//! pulls it up.
//!
//! Every network is linear in each state of the output, so thresholds are
//! closed forms; what is left out is the comparator's finite gain, the ripple of
//! its offset with the supply, and the curvature of the lamp's diode.

mod arm;
mod circuit;
mod current;
mod node;
mod parts;
pub mod search;
mod stack;
mod state;
mod trim;

pub use arm::{Arm, Resistor};
pub use circuit::{Indicator, Thresholds};
pub use current::Currents;
pub use node::node_voltage;
pub use parts::{Capacitor, Comparator, Light, Reference};
pub use stack::{Share, Stack};
pub use state::State;
pub use trim::{Trim, parallel_for};
