//! Jobs that look like those of makers of boxes, drawn at random.

use boxwright_wood::sawing::{Blank, SawLimits, Stock};
use proptest::collection::vec;
use proptest::prelude::*;

pub(crate) fn blank(length: f64, width: f64, turns: bool) -> Blank {
    Blank {
        name: String::new(),
        length,
        width,
        turns,
        run: None,
    }
}

pub(crate) fn sheet(length: f64, width: f64) -> Stock {
    Stock {
        name: "sheet".into(),
        length,
        width,
        count: None,
        whole: true,
    }
}

pub(crate) fn offcut(length: f64, width: f64, count: usize) -> Stock {
    Stock {
        name: "offcut".into(),
        length,
        width,
        count: Some(count),
        whole: false,
    }
}

/// No limits but a kerf and a trim.
pub(crate) fn saw(kerf: f64, trim: f64) -> SawLimits {
    SawLimits {
        kerf,
        trim,
        longest: 10.0,
        narrowest: 0.0,
    }
}

/// Whole millimetres as metres.
fn millimetres(range: std::ops::Range<u32>) -> impl Strategy<Value = f64> {
    range.prop_map(|length| f64::from(length) / 1000.0)
}

/// Some blanks, some in runs.
pub(crate) fn blanks(most: usize) -> impl Strategy<Value = Vec<Blank>> {
    let one = (
        millimetres(15..900),
        millimetres(15..600),
        any::<bool>(),
        0..12usize,
        1..3usize,
    );
    vec(one, 1..most).prop_map(|drawn| {
        let mut blanks = Vec::new();
        for (length, width, turns, run, copies) in drawn {
            for _ in 0..copies {
                blanks.push(Blank {
                    run: (run < 2).then_some(run),
                    ..blank(length, width, turns)
                });
            }
        }
        blanks
    })
}

/// Offcuts, and sheets that may be limited in number.
pub(crate) fn stock() -> impl Strategy<Value = Vec<Stock>> {
    let offcuts = vec(
        (millimetres(100..1000), millimetres(100..800), 1..3usize),
        0..3,
    );
    let sheets = vec(
        (millimetres(900..2500), millimetres(600..1300), 0..4usize),
        0..3,
    );
    (offcuts, sheets).prop_map(|(offcuts, sheets)| {
        let offcuts = offcuts
            .into_iter()
            .map(|(length, width, count)| offcut(length, width, count));
        let sheets = sheets.into_iter().map(|(length, width, count)| Stock {
            count: (count > 0).then_some(count),
            ..sheet(length, width)
        });
        offcuts.chain(sheets).collect()
    })
}

/// Saws, some of which are too small for the sheets.
pub(crate) fn saws() -> impl Strategy<Value = SawLimits> {
    let longest = prop_oneof![millimetres(500..2600), Just(10.0)];
    (
        millimetres(0..5),
        millimetres(0..15),
        longest,
        millimetres(0..60),
    )
        .prop_map(|(kerf, trim, longest, narrowest)| SawLimits {
            kerf,
            trim,
            longest,
            narrowest,
        })
}
