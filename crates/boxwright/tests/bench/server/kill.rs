//! Killed at any moment, the design file is whole.

use crate::bench::{Bench, Scratch};
use serde_json::json;
use std::fs;
use std::time::Duration;

/// Kills of the real binary; a thousand of the code that saves stand beside it,
/// where starting costs less.
const KILLS: u32 = 15;

#[test]
fn a_killed_bench_leaves_a_whole_file() {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    // Large enough that a torn one would show.
    let long = "# a remark that makes the file long\n".repeat(1_000);
    scratch.write(&(scratch.text() + &long));
    let mut saved = 0;
    for round in 0..KILLS {
        let mut bench = Bench::open(&scratch);
        let before = scratch.text();
        let request = |value: &str| {
            let deed = json!({"what": "set", "key": "brief.loudness", "value": value}).to_string();
            format!(
                "POST /do HTTP/1.1\r\nHost: {}\r\nX-Token: {}\r\n\
                 Content-Type: application/json\r\nContent-Length: {}\r\n\r\n{deed}",
                bench.host(),
                bench.token(),
                deed.len()
            )
        };
        let many: String = (0..40)
            .map(|n| request(&format!("{}.{n:02} dB", 70 + round % 20)))
            .collect();
        let mut stream = bench.connect();
        std::io::Write::write_all(&mut stream, many.as_bytes()).unwrap();
        std::thread::sleep(Duration::from_millis(u64::from(20 + round * 17 % 200)));
        bench.kill();
        let after = scratch.text();
        saved += u32::from(after != before);
        assert!(after.ends_with(&long), "round {round}: torn");
        assert_eq!(after.len(), after.trim_end_matches('\0').len());
        let changed = before
            .lines()
            .zip(after.lines())
            .filter(|(a, b)| a != b)
            .count();
        assert!(changed <= 1, "round {round}: {changed} lines differ");
        assert_eq!(before.lines().count(), after.lines().count());
    }
    assert!(
        saved > KILLS / 4,
        "only {saved} of {KILLS} were killed after a save"
    );
    // Undo has not suffered either.
    let bench = Bench::open(&scratch);
    bench.act(&json!({"what": "undo"}));
    let left = fs::read_dir(scratch.path("box")).unwrap().count();
    assert!(left < 6 + KILLS as usize);
}
