//! How soon an edit is answered at the bench: `cargo bench -p boxwright --bench answer`.
//!
//! The real program on a copy of an example, over HTTP as the page asks, and in a real
//! browser from the event to the next painted frame. Each edit gives the key a value met
//! nowhere before, while thorough work on the one before is under way.

#![allow(clippy::print_stdout, reason = "a benchmark prints its result")]
#![allow(
    clippy::unwrap_used,
    reason = "a benchmark may stop where its setting fails"
)]

#[path = "../../tests/bench/server/bench.rs"]
#[expect(dead_code, reason = "the tests of the server use the rest of it")]
mod bench;
#[path = "../../tests/bench/page/browser.rs"]
#[expect(dead_code, reason = "the tests of the page use the rest of it")]
mod browser;

use bench::{Bench, Scratch};
use browser::Page;
use serde_json::{Value, json};
use std::time::Instant;

const EXAMPLES: [&str; 3] = ["bathing-beach", "workshop-mono", "salvage-party"];

/// A key, and what is written there, with `#` where a digit of the round stands.
const EDITS: [(&str, &str); 3] = [
    ("brief.loudness", "84.# dB"),
    ("box.filling", "1#.5 %"),
    ("box.round", "5.# mm"),
];

const ROUNDS: usize = 9;

fn median(mut times: Vec<f64>) -> f64 {
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

fn milliseconds(begun: Instant) -> f64 {
    1e3 * begun.elapsed().as_secs_f64()
}

/// The answers to one edit.
struct Answered {
    /// Written, and its number told.
    written: f64,
    /// The parts of the page with the nominal build have come.
    nominal: f64,
    bands: f64,
    bytes: f64,
}

fn edit(bench: &Bench, events: &mut impl Iterator<Item = Value>, set: &Value) -> Answered {
    let begun = Instant::now();
    let number = bench.act(set);
    let written = milliseconds(begun);
    let parts = bench.get("/parts?sheet=sound");
    let nominal = milliseconds(begun);
    events
        .find(|event| event["number"] == number && event["stage"] == "bands")
        .expect("bands come");
    Answered {
        written,
        nominal,
        bands: milliseconds(begun),
        bytes: parts.body().len() as f64,
    }
}

fn over_http(example: &str) {
    let scratch = Scratch::new();
    scratch.copy(example);
    let bench = Bench::with_builds(&scratch);
    let mut events = bench.events();
    events
        .find(|event| event["stage"] == "whole" && event["busy"] == false)
        .expect("the first studies end");
    for (key, value) in EDITS {
        let rounds: Vec<Answered> = (0..ROUNDS)
            .map(|round| {
                let value = value.replace('#', &round.to_string());
                let set = json!({"what": "set", "key": key, "value": value});
                edit(&bench, &mut events, &set)
            })
            .collect();
        let of = |pick: fn(&Answered) -> f64| median(rounds.iter().map(pick).collect());
        println!(
            "{example:16} {key:16} {:>8.1} ms {:>9.1} ms {:>8.1} ms {:>8.0} kB",
            of(|answered| answered.written),
            of(|answered| answered.nominal),
            of(|answered| answered.bands),
            of(|answered| answered.bytes) / 1e3,
        );
    }
}

/// Bytes of the page and all it loads, as first opened.
fn weight(example: &str) {
    let scratch = Scratch::new();
    scratch.copy(example);
    let bench = Bench::open(&scratch);
    let mut page = Page::new();
    page.open(&format!("http://{}/", bench.host()));
    let loaded = page.eval(
        "performance.getEntries().filter((e) => e.decodedBodySize) \
         .map((e) => [e.name.split('?')[0].split('/').pop() || 'page', e.decodedBodySize])",
    );
    let list: Vec<(String, f64)> = serde_json::from_value(loaded).unwrap();
    let sum: f64 = list.iter().map(|(_, bytes)| bytes).sum();
    print!("{example:16} {:.0} kB in all:", sum / 1e3);
    for (name, bytes) in list.iter().filter(|(_, bytes)| *bytes > 5e3) {
        print!(" {name} {:.0}", bytes / 1e3);
    }
    println!();
}

/// Changes a word of the brief, and waits for the frame that shows the answer.
const PAINTED: &str = r#"(async () => {
    const head = () => Number(document.querySelector('#head').dataset.number);
    const before = head();
    const word = document.querySelector('#brief-brief-loudness');
    const begun = performance.now();
    word.value = "VALUE";
    word.dispatchEvent(new Event("change", { bubbles: true }));
    await new Promise((done) => {
        const seen = new MutationObserver(() => {
            if (head() === before) return;
            seen.disconnect();
            requestAnimationFrame(() => setTimeout(done));
        });
        seen.observe(document.body, { subtree: true, childList: true, attributes: true });
    });
    return performance.now() - begun;
})()"#;

fn in_browser(example: &str) {
    let scratch = Scratch::new();
    scratch.copy(example);
    let bench = Bench::with_builds(&scratch);
    let mut page = Page::new();
    page.size(1280, 900);
    page.open(&format!("http://{}/", bench.host()));
    page.until("document.querySelector('#head').dataset.stage === 'whole'");
    let times: Vec<f64> = (0..ROUNDS)
        .map(|round| {
            let script = PAINTED.replace("VALUE", &format!("83.{round} dB"));
            let took = page.eval(&script).as_f64().unwrap();
            page.until("document.querySelector('#head').dataset.stage === 'bands'");
            took
        })
        .collect();
    println!("{example:16} {:>8.1} ms", median(times));
}

fn main() {
    println!("page as first opened");
    EXAMPLES.into_iter().for_each(weight);
    println!(
        "\n{:16} {:16} {:>11} {:>12} {:>11} {:>11}",
        "over HTTP", "edited", "written", "nominal", "bands", "sent"
    );
    EXAMPLES.into_iter().for_each(over_http);
    println!("\nin the browser, from the event to the frame painted");
    EXAMPLES.into_iter().for_each(in_browser);
}
