//! The newest edit wins.

use crate::bench::{Bench, Scratch};
use serde_json::{Value, json};
use std::time::{Duration, Instant};

#[test]
fn fifty_quick_edits_end_with_the_last() {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    let bench = Bench::with_builds(&scratch);
    let events = bench.events();
    let mut last = 0;
    for n in 0..50 {
        last = bench.set("brief.loudness", &format!("{}.{} dB", 70 + n / 10, n % 10));
    }
    let mut seen = Vec::new();
    for event in events {
        let number = event["number"].as_u64().unwrap();
        let stage = event["stage"].as_str().unwrap().to_owned();
        seen.push((number, stage));
        if number == last && event["busy"] == false {
            break;
        }
    }
    let rank = |stage: &str| {
        ["broken", "nominal", "bands", "whole"]
            .iter()
            .position(|s| *s == stage)
    };
    let ranks: Vec<_> = seen
        .iter()
        .map(|(number, stage)| (*number, rank(stage)))
        .collect();
    assert!(
        ranks.is_sorted(),
        "a stale result came after a newer one: {seen:?}"
    );
    assert_eq!(ranks.last(), Some(&(last, rank("whole"))));
    let check = bench.get("/cut/check.json").json();
    let promises = check["promises"].as_array().unwrap();
    let loud = promises
        .iter()
        .find(|promise| promise["id"] == "loud")
        .unwrap();
    assert_eq!(loud["target"], 74.9);
}

/// A page that asks while its edit is being studied gets the new state. Only on a
/// machine that is too busy for a first look it gets the old one, whole, and late.
#[test]
fn an_edit_is_seen_by_whoever_asks_next() {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    let bench = Bench::open(&scratch);
    for n in 0..5 {
        let number = bench.set("brief.loudness", &format!("7{n}.37 dB"));
        loop {
            let begun = Instant::now();
            let parts = bench.get("/parts");
            let state = parts.header("X-State").unwrap();
            let (shown, _) = state.split_once('-').unwrap();
            let is_new = parts
                .text()
                .contains(&format!("loudness = &quot;7{n}.37 dB&quot;"));
            assert_eq!(shown.parse::<u64>().unwrap() == number, is_new, "{state}");
            if is_new {
                break;
            }
            assert!(
                begun.elapsed() > Duration::from_secs(2),
                "{state} came early"
            );
        }
    }
}

#[test]
fn long_work_can_be_stopped() {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    let bench = Bench::with_builds(&scratch);
    bench.wait(|event| event["stage"] == "bands");
    bench.act(&json!({"what": "stop"}));
    let event = bench.wait(|event| event["busy"] == false);
    assert_ne!(event["stage"], "broken");
    // And goes on with the next change.
    let number = bench.set("brief.loudness", "77 dB");
    bench.wait(|event: &Value| event["number"] == number && event["stage"] == "bands");
}

#[test]
fn drawn_builds_are_counted() {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    let bench = Bench::with_builds(&scratch);
    let counted: Vec<Value> = bench
        .events()
        .take_while(|event| event["stage"] != "whole")
        .filter(|event| event["of"] == 2000)
        .collect();
    let drawn: Vec<u64> = counted
        .iter()
        .map(|event| event["drawn"].as_u64().unwrap())
        .collect();
    assert!(
        drawn.is_sorted() && drawn.iter().all(|drawn| *drawn <= 2000),
        "{drawn:?}"
    );
    assert!(!drawn.is_empty());
}

/// A trial changes nothing, and of many only the newest is answered.
#[test]
fn trials_keep_nothing() {
    let scratch = Scratch::new();
    scratch.copy("bathing-beach");
    let bench = Bench::open(&scratch);
    bench.wait(|event| event["busy"] == false);
    let before = scratch.text();
    let page = bench.get("/parts").text();
    let edit = json!({"what": "set", "key": "brief.loudness", "value": "70 dB"});
    let answer = bench.post("/try", &edit);
    assert_eq!(answer.status(), 200);
    assert_eq!(scratch.text(), before);
    assert_eq!(bench.get("/parts").text(), page);
}
