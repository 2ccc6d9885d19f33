//! How soon an edit is answered: `cargo bench -p boxwright-studies --bench edits`.
//!
//! One design after another, as at the bench: what the edit leaves alone is remembered.
//! Each round gives the key another value, met nowhere before.

#![allow(clippy::print_stdout, reason = "a benchmark prints its result")]

use boxwright_studies::check::Edit;
use boxwright_studies::{Memory, Options, Texts, apply};
use std::time::Instant;

const BEACH: &str = include_str!("../../../examples/bathing-beach/design.toml");
const MONO: &str = include_str!("../../../examples/workshop-mono/design.toml");
const PARTY: &str = include_str!("../../../examples/salvage-party/design.toml");
const PARTY_SHELF: &str = include_str!("../../../examples/salvage-party/shelf.toml");

/// A key, and what is written there, with `#` where a digit of the round stands.
type Change = (&'static str, &'static str);

const DESIGNS: [(&str, &str, Option<&str>, &[Change]); 3] = [
    (
        "bathing beach",
        BEACH,
        None,
        &[
            ("brief.loudness", "84.# dB"),
            ("place.temperature", "2#.5 °C"),
            ("box.filling", "4# %"),
            ("source.level", "0.8# V"),
            ("indicator.warning", "1#.5 min"),
            ("battery.at", "26 x 0 x 65.# mm"),
            ("box.outside", "360 x 200 x 19#.5 mm"),
            ("drivers.1.at.1", "90 x 104.# mm"),
        ],
    ),
    (
        "workshop mono",
        MONO,
        None,
        &[
            ("brief.loudness", "84.# dB"),
            ("box.filling", "1#.5 %"),
            ("box.inside", "150 x 210 x 15#.5 mm"),
        ],
    ),
    (
        "salvage party",
        PARTY,
        Some(PARTY_SHELF),
        &[
            ("brief.loudness", "84.# dB"),
            ("box.filling", "1#.5 %"),
            ("box.outside", "600 x 360 x 32#.5 mm"),
        ],
    ),
];

const ROUNDS: usize = 9;

/// Drawn builds behind the bench's first bands.
const FEW: usize = 200;

fn survey(memory: &Memory, texts: Texts<'_>, builds: usize) -> f64 {
    let options = Options {
        builds,
        spread: 1.0,
        progress: &|_| {},
    };
    let begun = Instant::now();
    std::hint::black_box(memory.survey(texts, options)).expect("a sound design");
    1e3 * begun.elapsed().as_secs_f64()
}

fn median(times: &mut [f64]) -> f64 {
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

fn main() {
    println!(
        "{:16} {:18} {:>12} {:>12}",
        "median of nine", "edited", "nominal", "and bands"
    );
    for (name, design, shelf, changes) in DESIGNS {
        let memory = Memory::default();
        survey(&memory, Texts { design, shelf }, FEW);
        for (key, value) in changes {
            let (mut nominal, mut bands) = (Vec::new(), Vec::new());
            for round in 0..ROUNDS {
                let value = value.replace('#', &round.to_string());
                let edit = Edit {
                    key: (*key).into(),
                    value: Some(value),
                };
                let edited = apply(design, &[edit]).expect("a key that can be set");
                let texts = Texts {
                    design: &edited,
                    shelf,
                };
                nominal.push(survey(&memory, texts, 0));
                bands.push(survey(&memory, texts, FEW));
            }
            let (nominal, bands) = (median(&mut nominal), median(&mut bands));
            println!("{name:16} {key:18} {nominal:>9.1} ms {bands:>9.1} ms");
        }
    }
}
