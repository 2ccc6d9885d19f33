use crate::check::Edit;
use crate::{Options, Texts, apply, run};
use super::Indicator;
use std::sync::Arc;

/// A plain design with an indicator; every part from the built-in shelf.
const PLAIN: &str = r#"
format = 1
name = "Plain"

[brief]
distance = "2 m"
loudness = "84 dB"
lowest = "90 Hz"
runtime = "6 h"

[place]
stands = "wall"

[[drivers]]
part = "full-range 4 in, 4 ohm"
count = 2
side = "both"

[amplifier]
part = "amplifier 2 x 15 W, 12 V"

[source]
level = "0.9 V"
loss = "3 dB"

[battery]
part = "lithium-ion 10.8 V 6.8 Ah"
charged_inside = false

[box]
outside = "400 x 240 x 200 mm"
wall = "birch plywood 12 mm"
kind = "sealed"
filling = "40 %"
last_with = "screws"

[indicator]
warning = "30 min"
delay = "3 s"
"#;

fn studied(keys: &[(&str, &str)]) -> Arc<Indicator> {
    let edits: Vec<Edit> = keys.iter().map(|(key, value)| Edit::set(*key, *value)).collect();
    let design = apply(PLAIN, &edits).expect("keys that can be set");
    let texts = Texts { design: &design, shelf: None };
    let options = Options { builds: 0, spread: 1.0, progress: &|_| {} };
    let report = run(texts, options).unwrap_or_else(|errors| panic!("{errors:#?}"));
    report.indicator.expect("it is wanted")
}

#[test]
fn probe() {
    for (battery, more) in [("lithium-ion 10.8 V 6.8 Ah", ""), ("lead-acid 12 V 7 Ah", ""), ("iron phosphate 12.8 V 6 Ah", ""), ("lead-acid 12 V 7 Ah", "relay"), ("lithium-ion 10.8 V 6.8 Ah", "mosfet")] {
        let mut keys = vec![("battery.part", battery)];
        if !more.is_empty() { keys.push(("indicator.cut_off", more)); keys.push(("indicator.trim", "true")); }
        let start = std::time::Instant::now();
        let found = studied(&keys);
        eprintln!("{battery} {:?}\n{:#?}", start.elapsed(), found.wanted);
        eprintln!("{:?} {:?} {}", found.sag, found.remarks, found.steepness);
        if let Some(b) = &found.built {
            eprintln!("falling {:?} rising {:?}\nleft {} {:?} late {} early {} delay {} dark {} lit {} lamp {}", b.falling, b.rising, b.left/60.0, b.left_band, b.too_late, b.too_early, b.delay, b.dark, b.lit, b.lamp);
            for p in &b.parts { eprintln!("  {} {:?} {} {:?}{} {:?}", p.mark, p.kind, p.does, p.value, p.unit, p.name); }
            for s in &b.steps { eprintln!("  - {} {:?}", s.act, s.reads); }
            eprintln!("{:?}\n{:?}", b.limits, b.trimmer);
            eprintln!("{:?}", b.cut_off.as_ref().map(|c| (&c.switch, c.falling, c.rising, c.dark, c.loss, c.parts.len())));
        }
        eprintln!("{:#?}", found.alternatives);
    }
}
