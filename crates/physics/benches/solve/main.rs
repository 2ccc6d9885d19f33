//! The same equations solved three ways: `cargo bench -p boxwright-physics
//! --bench solve`.
//!
//! Machines differ and are noisy, so all ways take turns in every round, each
//! figure is the median of the rounds, and what is to be compared stands as the
//! median of its ratios round by round. `docs/speed.md` says more.

#![allow(clippy::print_stdout, reason = "a benchmark prints its result")]

mod case;
mod lapack;
mod systems;

use boxwright_physics::circuit::Solver;
use boxwright_physics::loudspeaker::Sweep;
use boxwright_physics::math::Complex;
use case::{Case, SOLVABLE, Solve};
use lapack::Lapack;
use std::time::Instant;

const LEGEND: &str = "\
Microseconds for each solve (one frequency of one build), all on one thread:
  planned   ours: values loaded, equations filled in, eliminated by the plan,
            backward error checked
  solving   planned less loading and filling in, which are timed by themselves
  sweep     planned with a system's numbers made into the network's before and
            the currents and motions read out after
  dense     ours to fall back on: loaded, filled in, partial pivoting
  LAPACK    numpy.linalg.solve on the stack of these equations: solving only,
            no filling in, no error check
/planned, /solving: the column before, divided by that one, round by round.
differ: greatest |a - b|/|a| of any unknown, a by the plan, b the other way.
";

/// How often each way runs in a round; its least time counts.
const REPEATS: usize = 3;

fn seconds(mut work: impl FnMut()) -> f64 {
    (0..REPEATS)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64()
        })
        .fold(f64::INFINITY, f64::min)
}

fn median(times: &[f64]) -> f64 {
    let mut times = times.to_vec();
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

/// Two times of the same round, taken together: a slow moment of the machine
/// is in both.
fn paired(a: &[f64], b: &[f64], with: fn(f64, f64) -> f64) -> Vec<f64> {
    a.iter().zip(b).map(|(a, b)| with(*a, *b)).collect()
}

/// Greatest difference of any number relative to itself.
fn difference(ours: &[Complex], others: &[Complex]) -> f64 {
    assert_eq!(ours.len(), others.len(), "every solution has its twin");
    ours.iter()
        .zip(others)
        .filter(|(a, b)| a != b)
        .map(|(a, b)| ((a - b).norm_sqr() / a.norm_sqr()).sqrt())
        .fold(0.0, f64::max)
}

/// The rounds of a case.
#[derive(Default)]
struct Times {
    planned: Vec<f64>,
    filling: Vec<f64>,
    dense: Vec<f64>,
    sweep: Vec<f64>,
    lapack: Vec<f64>,
}

impl Times {
    fn round(&mut self, case: &mut Case, sweep: &mut Sweep) {
        let run = |case: &mut Case, solve: Solve| {
            seconds(|| case.each(|solver, band, _| solve(solver, band).expect(SOLVABLE)))
        };
        self.planned.push(run(case, Solver::solve_band));
        self.filling.push(seconds(|| {
            case.each(|solver, band, _| solver.assemble(band))
        }));
        self.dense.push(run(case, Solver::solve_band_densely));
        self.sweep.push(seconds(|| case.sweep(sweep)));
    }
}

/// Runs a case and prints its row, then what came in LAPACK's way, if anything.
fn run(name: &str, case: &mut Case, rounds: usize) {
    let (stack, planned) = case.stack(Solver::solve_band);
    let (_, dense) = case.stack(Solver::solve_band_densely);
    let mut times = Times::default();
    let mut sweep = Sweep::default();
    let mut lapack = Lapack::start(&stack);
    for _ in 0..rounds {
        times.round(case, &mut sweep);
        lapack = lapack.and_then(|mut lapack| {
            let mut least = f64::INFINITY;
            for _ in 0..REPEATS {
                least = lapack.seconds()?.min(least);
            }
            times.lapack.push(least);
            Ok(lapack)
        });
    }
    let solutions = lapack.and_then(Lapack::solutions);
    let solving = paired(&times.planned, &times.filling, |whole, part| whole - part);
    let each = |times: &[f64]| 1e6 * median(times) / case.solves() as f64;
    let ratio = |times: &[f64], to: &[f64]| median(&paired(times, to, |a, b| a / b));
    print!(
        "{name:16} {:>3} {:>6} {:>8.3} {:>8.3} {:>8.3} {:>8.2} {:>8.1} {:>8.0e}",
        stack.size,
        case.solves(),
        each(&times.planned),
        each(&solving),
        each(&times.sweep),
        each(&times.dense),
        ratio(&times.dense, &times.planned),
        difference(&planned, &dense),
    );
    match solutions {
        Ok(solutions) => println!(
            " {:>8.2} {:>8.1} {:>8.1} {:>8.0e}",
            each(&times.lapack),
            ratio(&times.lapack, &times.planned),
            ratio(&times.lapack, &solving),
            difference(&planned, &solutions),
        ),
        Err(error) => println!("  no LAPACK: {error}"),
    }
}

fn main() {
    println!("{LEGEND}");
    match lapack::version() {
        Ok(version) => println!("LAPACK by NumPy {version}, its threads held to one"),
        Err(error) => println!("no LAPACK column: Python with NumPy did not start ({error})"),
    }
    println!(
        "\n{:16} {:>3} {:>6} {:>8} {:>8} {:>8} {:>8} {:>8} {:>8} {:>8} {:>8} {:>8} {:>8}",
        "",
        "n",
        "solves",
        "planned",
        "solving",
        "sweep",
        "dense",
        "/planned",
        "differ",
        "LAPACK",
        "/planned",
        "/solving",
        "differ"
    );
    for (frequencies, builds, rounds) in [(400, 1, 51), (100, 200, 11)] {
        for (name, system) in systems::kinds() {
            run(name, &mut Case::new(&system, frequencies, builds), rounds);
        }
    }
}
