//! How fast the studies are: `cargo bench -p boxwright-studies`.
//!
//! Machines differ and are noisy, so each row is the median of several rounds,
//! and what is to be compared stands as a ratio within one run.

#![allow(clippy::print_stdout, reason = "a benchmark prints its result")]

use boxwright_studies::{Options, Prepared, Texts, run};
use rayon::prelude::*;
use std::time::Instant;

const EXAMPLES: [(&str, &str, Option<&str>); 3] = [
    (
        "bathing-beach",
        include_str!("../../../examples/bathing-beach/design.toml"),
        None,
    ),
    (
        "workshop-mono",
        include_str!("../../../examples/workshop-mono/design.toml"),
        None,
    ),
    (
        "salvage-party",
        include_str!("../../../examples/salvage-party/design.toml"),
        Some(include_str!("../../../examples/salvage-party/shelf.toml")),
    ),
];

/// Median milliseconds of a few rounds after one that warms up.
fn median(rounds: usize, mut work: impl FnMut()) -> f64 {
    work();
    let mut times: Vec<f64> = (0..rounds)
        .map(|_| {
            let start = Instant::now();
            work();
            1e3 * start.elapsed().as_secs_f64()
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[rounds / 2]
}

fn main() {
    println!(
        "{:16} {:>12} {:>14} {:>14} {:>9}",
        "", "one build,", "2,000 drawn,", "whole report,", "a drawn"
    );
    println!(
        "{:16} {:>12} {:>14} {:>14} {:>9}",
        "", "400 freq.", "112 freq.", "2,000 builds", "/ one"
    );
    for (name, design, shelf) in EXAMPLES {
        let texts = Texts { design, shelf };
        let prepared = Prepared::read(texts).expect("shipped examples are sound");
        let mut fine = prepared.worker(400);
        let one = median(51, || {
            std::hint::black_box(fine.nominal());
        });
        let coarse = prepared.worker(112);
        let drawn = median(7, || {
            let outcomes: Vec<_> = (0..2000_u32)
                .into_par_iter()
                .map_init(|| coarse.clone(), |worker, index| worker.drawn(index))
                .collect();
            std::hint::black_box(outcomes);
        });
        let whole = median(5, || {
            let options = Options {
                builds: 2000,
                spread: 1.0,
                progress: &|_| {},
            };
            std::hint::black_box(run(texts, options)).expect("shipped examples are sound");
        });
        let ratio = drawn / 2000.0 / one;
        println!("{name:16} {one:>9.2} ms {drawn:>11.0} ms {whole:>11.0} ms {ratio:>9.3}");
    }
}
