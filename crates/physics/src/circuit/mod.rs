//! Linear networks at steady sinusoidal state, by modified nodal analysis.
//!
//! Electrical, mechanical and acoustical elements share one network in the
//! impedance analogy: force and pressure are potentials, velocity and volume
//! velocity are flows. A force factor is a gyrator, a cone area a transformer.
//! Phasors go as exp(+jωt) and are rms values.
//!
//! A [`Circuit`] holds names, structure and values. A [`Solver`] is planned
//! once for a structure (`markowitz-1957`: sparse elimination whose order keeps
//! fill-in low, with a threshold test on the pivots) and then reused for other
//! frequencies and other values. It treats [`LANES`] frequencies at a time and
//! checks every solution by its backward error; a frequency band that fails is
//! solved once more by dense elimination with partial pivoting.
//!
//! ```
//! use boxwright_physics::circuit::{Circuit, GROUND, Grid, Solver, Value};
//!
//! let mut circuit = Circuit::new();
//! let (top, middle) = (circuit.node("top"), circuit.node("middle"));
//! circuit.add("source", [top, GROUND], Value::VoltageSource(1.0));
//! circuit.resistor("r", [top, middle], 1_000.0);
//! circuit.capacitor("c", [middle, GROUND], 1e-6);
//! let corner = 1.0 / (2.0 * std::f64::consts::PI * 1e-3);
//! let solution = Solver::new(&circuit).solve(&circuit, &Grid::new(&[corner]))?;
//! assert!((solution.potential(0, middle).norm_sqr() - 0.5).abs() < 1e-12);
//! # Ok::<(), boxwright_physics::circuit::Singular>(())
//! ```

mod band;
mod dense;
mod element;
mod lanes;
mod layout;
mod network;
mod numeric;
mod plan;
mod solution;
mod spice;
#[cfg(test)]
mod tests;

pub use band::{Band, Grid};
pub use element::{Admittance, Impedance, OnePort, SemiInductance, TwoPort, Value};
pub use lanes::{LANES, Lanes, Reals};
pub use network::{Circuit, Element, ElementId, GROUND, Node};
pub use numeric::{Singular, Solver};
pub use solution::Solution;
pub use spice::Analysis;
