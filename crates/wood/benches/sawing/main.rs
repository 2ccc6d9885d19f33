//! How long layouts take: `cargo bench -p boxwright-wood --bench sawing`.
//!
//! The thirty jobs of `reference/sawing_jobs.csv`, and 30 blanks on 3 sheets.
//! `--json` prints what `tools/sawing.py` sets beside a general solver.

#![allow(clippy::print_stdout, reason = "a benchmark prints its result")]

#[path = "../../tests/sawing/table.rs"]
mod table;

use boxwright_wood::sawing::{Blank, Effort, Layout, lay_out};
use std::time::Instant;
use table::Job;

/// How often each job is done; the least time counts.
const REPEATS: usize = 5;

fn timed(job: &Job, effort: Effort) -> (f64, Layout) {
    let work = || lay_out(&job.blanks, &job.stock, &job.saw, effort);
    let layout = work();
    let times = (0..REPEATS).map(|_| {
        let start = Instant::now();
        std::hint::black_box(work());
        start.elapsed().as_secs_f64()
    });
    (times.fold(f64::INFINITY, f64::min), layout)
}

/// Thirty walls of boxes that need three sheets.
fn thirty_on_three() -> Job {
    let sizes = [
        (0.62, 0.34),
        (0.62, 0.28),
        (0.34, 0.28),
        (0.50, 0.31),
        (0.50, 0.24),
        (0.31, 0.24),
        (0.43, 0.37),
        (0.43, 0.20),
        (0.37, 0.20),
        (0.29, 0.26),
        (0.58, 0.22),
        (0.22, 0.18),
        (0.47, 0.33),
        (0.33, 0.21),
        (0.40, 0.30),
    ];
    let blank = |(length, width)| Blank {
        name: String::new(),
        length,
        width,
        turns: true,
        run: None,
    };
    let blanks = sizes.into_iter().chain(sizes).map(blank).collect();
    let mut job = table::jobs().remove(0);
    job.blanks = blanks;
    (job.stock[0].length, job.stock[0].width) = (1.25, 1.25);
    job
}

fn row(name: &str, job: &Job) {
    let (quick, _) = timed(job, Effort::QUICK);
    let (normal, layout) = timed(job, Effort::NORMAL);
    println!(
        "{name:>12} {:>6} {:>6} {:>6} {:>8.3} {:>8.3} {:>8} {:>10.2} {:>10.2}",
        job.blanks.len(),
        layout.bought,
        layout.fewest,
        layout.area,
        layout.least_area,
        layout.proven,
        quick * 1e3,
        normal * 1e3,
    );
}

fn main() {
    let jobs = table::jobs();
    if std::env::args().any(|word| word == "--json") {
        let rows = jobs.iter().map(|job| {
            let (seconds, layout) = timed(job, Effort::NORMAL);
            let area = (layout.area * 1e6).round();
            let (bought, ms) = (layout.bought, seconds * 1e3);
            format!("{{\"bought\": {bought}, \"area_mm2\": {area}, \"ms\": {ms}}}")
        });
        println!("[{}]", rows.collect::<Vec<_>>().join(", "));
        return;
    }
    println!(
        "{:>12} {:>6} {:>6} {:>6} {:>8} {:>8} {:>8} {:>10} {:>10}",
        "job", "blanks", "bought", "fewest", "area m2", "least", "proven", "quick ms", "normal ms"
    );
    for (index, job) in jobs.iter().enumerate() {
        row(&index.to_string(), job);
    }
    row("30 on 3", &thirty_on_three());
}
