//! How long a diagram takes: `cargo bench -p boxwright-wiring`.
//!
//! A generated stereo box of 25 parts, on one drawing and on A4 pages. Each row is the
//! median of several rounds; the aim is 200 ms at most.

#![allow(clippy::print_stdout, reason = "a benchmark prints its result")]

#[path = "../tests/diagram/systems.rs"]
#[allow(dead_code, reason = "the tests use all of it")]
mod systems;

use boxwright_wiring::diagram::{Rules, lay_out, pages};
use std::hint::black_box;
use std::time::Instant;

const ROUNDS: usize = 15;

fn median(name: &str, mut work: impl FnMut()) {
    work();
    let mut times: Vec<f64> = (0..ROUNDS)
        .map(|_| {
            let start = Instant::now();
            work();
            1e3 * start.elapsed().as_secs_f64()
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{name:44} {:9.3} ms", times[ROUNDS / 2]);
}

fn main() {
    let circuit = systems::twenty_five();
    let rules = Rules::default();
    median("diagram of 25 parts, one drawing", || {
        black_box(lay_out(black_box(&circuit), &rules));
    });
    median("diagram of 25 parts, A4 pages", || {
        black_box(pages(black_box(&circuit), &rules, [20.0, 5.0]));
    });
}
