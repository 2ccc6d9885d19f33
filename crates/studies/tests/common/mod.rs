//! Designs for tests: one plain base, changed where a test says so.

#![allow(dead_code, reason = "each test file uses what it needs")]

use boxwright_studies::check::Edit;
use boxwright_studies::{Options, Report, Texts, apply, run, survey};

/// A sealed stereo box of generic parts in which nothing is out of the ordinary.
pub(crate) const BASE: &str = r#"format = 1
name = "Test box"

[brief]
programme = "music"
distance = "2 m"
loudness = "80 dB"
lowest = "90 Hz"
runtime = "8 h"
weight = "9 kg"
cost = "250 €"

[place]
stands = "ground"

[[drivers]]
part = "full-range 4 in, 4 ohm"
count = 2
side = "both"

[amplifier]
part = "amplifier 2 x 15 W, 12 V"

[battery]
part = "iron phosphate 12.8 V 6 Ah"

[box]
outside = "360 x 200 x 180 mm"
wall = "birch plywood 12 mm"
kind = "sealed"
leak = "usual"
"#;

/// The base with each of these texts replaced; panics where one is not there.
pub(crate) fn base_with(changes: &[(&str, &str)]) -> String {
    changes.iter().fold(BASE.to_owned(), |text, (from, to)| {
        assert!(
            text.contains(from),
            "the base design does not hold {from:?}"
        );
        text.replacen(from, to, 1)
    })
}

/// A text with these keys set.
pub(crate) fn edited(text: &str, keys: &[(&str, &str)]) -> String {
    let edits: Vec<Edit> = keys
        .iter()
        .map(|(key, value)| Edit {
            key: (*key).into(),
            value: Some((*value).into()),
        })
        .collect();
    apply(text, &edits).expect("keys that can be set")
}

/// The nominal build of a design alone, no mends tried.
pub(crate) fn surveyed(design: &str, shelf: Option<&str>) -> Report {
    let options = Options {
        builds: 0,
        spread: 1.0,
        progress: &|_| {},
    };
    survey(Texts { design, shelf }, options).unwrap_or_else(|errors| panic!("{errors:#?}"))
}

/// Studies a design with so many drawn builds and every spread multiplied by `spread`.
pub(crate) fn study(design: &str, builds: usize, spread: f64) -> Report {
    let texts = Texts {
        design,
        shelf: None,
    };
    let options = Options {
        builds,
        spread,
        progress: &|_| {},
    };
    run(texts, options).unwrap_or_else(|errors| panic!("{errors:#?}\n{design}"))
}

/// The value of a figure.
pub(crate) fn figure(report: &Report, id: &str) -> f64 {
    let found = report.figures.iter().find(|figure| figure.id == id);
    found.unwrap_or_else(|| panic!("no figure {id}")).value
}

/// The width of a promise's band.
pub(crate) fn width(report: &Report, id: &str) -> f64 {
    let promise = promise(report, id);
    promise.p90.expect("drawn builds") - promise.p10.expect("drawn builds")
}

/// A promise by name.
pub(crate) fn promise<'a>(report: &'a Report, id: &str) -> &'a boxwright_studies::report::Promise {
    let found = report.promises.iter().find(|promise| promise.id == id);
    found.unwrap_or_else(|| panic!("no promise {id}"))
}
