//! One kind of box, at some frequencies, in some builds.

use crate::lapack::Stack;
use crate::systems;
use boxwright_physics::circuit::{Band, Circuit, Grid, Singular, Solver};
use boxwright_physics::loudspeaker::{Network, Sweep, System};
use boxwright_physics::math::{Complex, exp, ln};
use std::hint::black_box;

/// A way to solve the equations of a band.
pub(crate) type Solve = fn(&mut Solver, &Band) -> Result<(), Singular>;

pub(crate) const SOLVABLE: &str = "a loudspeaker of finite parts has one solution";

/// What is solved, and what solves it.
pub(crate) struct Case {
    systems: Vec<System>,
    circuits: Vec<Circuit>,
    solver: Solver,
    network: Network,
    grid: Grid,
}

impl Case {
    pub(crate) fn new(nominal: &System, frequencies: usize, builds: usize) -> Self {
        let systems: Vec<System> = (0..builds)
            .map(|index| systems::build(nominal, index))
            .collect();
        let mut network = Network::new(nominal);
        let circuits = systems
            .iter()
            .map(|system| {
                network.set(system).expect("builds share one structure");
                network.circuit().clone()
            })
            .collect();
        Self {
            systems,
            circuits,
            solver: Solver::new(network.circuit()),
            network,
            grid: Grid::new(&spread(frequencies)),
        }
    }

    /// Does the same with every band of every build.
    pub(crate) fn each(&mut self, mut work: impl FnMut(&mut Solver, &Band, usize)) {
        for circuit in &self.circuits {
            self.solver.load(circuit);
            for (_, count, band) in self.grid.bands() {
                work(&mut self.solver, band, count);
                black_box(&self.solver);
            }
        }
    }

    pub(crate) fn sweep(&mut self, sweep: &mut Sweep) {
        for system in &self.systems {
            self.network
                .set(system)
                .expect("builds share one structure");
            self.network.sweep_into(self.grid.frequencies(), sweep);
            black_box(&*sweep);
        }
    }

    pub(crate) fn solves(&self) -> usize {
        self.circuits.len() * self.grid.frequencies().len()
    }

    /// Every system of equations, dense, and how the given way solves it.
    pub(crate) fn stack(&mut self, solve: Solve) -> (Stack, Vec<Complex>) {
        let size = self.solver.size();
        let mut stack = Stack {
            size,
            matrices: vec![Complex::ZERO; self.solves() * size * size],
            right: vec![Complex::ZERO; self.solves() * size],
        };
        let mut solutions = Vec::with_capacity(stack.right.len());
        self.each(|solver, band, count| {
            solve(solver, band).expect(SOLVABLE);
            for lane in 0..count {
                let first = solutions.len();
                for (row, column, value) in solver.equations() {
                    let place = if column == size {
                        &mut stack.right[first + row]
                    } else {
                        &mut stack.matrices[(first + row) * size + column]
                    };
                    *place = value.lane(lane);
                }
                let unknowns = &solver.unknowns()[..size];
                solutions.extend(unknowns.iter().map(|value| value.lane(lane)));
            }
        });
        (stack, solutions)
    }
}

/// Evenly spread on a logarithmic scale from 10 Hz to 20 kHz.
fn spread(count: usize) -> Vec<f64> {
    let (low, high) = (ln(10.0), ln(20e3));
    (0..count)
        .map(|index| exp(low + (high - low) * index as f64 / (count - 1) as f64))
        .collect()
}
