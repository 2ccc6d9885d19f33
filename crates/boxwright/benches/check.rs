//! How long a maker waits for `check`: `cargo bench -p boxwright`.
//!
//! The whole process, from starting to having said everything, with the files
//! read from disk. Each row is the median of several runs.

#![allow(clippy::print_stdout, reason = "a benchmark prints its result")]

use std::process::{Command, Stdio};
use std::time::Instant;

const EXAMPLES: [&str; 3] = ["bathing-beach", "salvage-party", "workshop-mono"];
const ROUNDS: usize = 9;

/// Median milliseconds of a run of `check`.
fn median(design: &str, arguments: &[&str], threads: Option<&str>) -> f64 {
    let mut command = Command::new(env!("CARGO_BIN_EXE_boxwright"));
    command.arg("check").arg(design).args(arguments);
    command.stdout(Stdio::null()).stderr(Stdio::null());
    if let Some(threads) = threads {
        command.env("RAYON_NUM_THREADS", threads);
    }
    let mut run = || {
        let start = Instant::now();
        let status = command.status().expect("the binary starts");
        assert!(
            status.code().is_some_and(|code| code < 2),
            "{design} was not answered"
        );
        1e3 * start.elapsed().as_secs_f64()
    };
    run();
    let mut times: Vec<f64> = (0..ROUNDS).map(|_| run()).collect();
    times.sort_by(f64::total_cmp);
    times[ROUNDS / 2]
}

fn main() {
    println!(
        "{:16} {:>12} {:>14} {:>14} {:>14} {:>14}",
        "check, process",
        "nominal",
        "2,000 builds",
        "with --json",
        "10,000 builds",
        "1 thread / all"
    );
    for name in EXAMPLES {
        let design = format!(
            "{}/../../examples/{name}/design.toml",
            env!("CARGO_MANIFEST_DIR")
        );
        let nominal = median(&design, &["--builds=0"], None);
        let usual = median(&design, &[], None);
        let json = median(&design, &["--json"], None);
        let many = median(&design, &["--builds=10000"], None);
        let ratio = median(&design, &[], Some("1")) / usual;
        println!(
            "{name:16} {nominal:>9.0} ms {usual:>11.0} ms {json:>11.0} ms {many:>11.0} ms {ratio:>14.2}"
        );
    }
}
