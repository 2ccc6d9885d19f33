//! An hour of music, and how warm things are then.

use super::{Testing, test};
use crate::order::model::{Expect, Hold};
use crate::warmth::{Temperatures, Warmth};
use design::Instrument;

/// What thermometers of the kitchen and their place err by, in K: common practice, no source.
const THERMOMETER: f64 = 2.0;

pub(super) fn hold(testing: &Testing<'_>, hidden: bool) -> Hold {
    let hold = test("test-soak", "An hour's soak", &[Instrument::Thermometer])
        .if_not(
            "warmer",
            "the box plays louder than the brief, a loaded output, or no air around the \
board; give its sink the panel",
        )
        .if_not(
            "one thing smells or is too hot to touch",
            "off, fuse out, find out why",
        )
        .if_not(
            "it stops and starts",
            "the board protects itself from heat, or the battery board \
from current",
        )
        .care("Stay with it: the first hour of a battery box is not left alone.");
    let hold = if hidden {
        hold.how("last wall laid on and weighted, not yet glued: what it hides is tested now")
    } else {
        hold.how("box closed")
    };
    let hold = hold.how(
        "music as the brief wants it, for an hour, where the box will stand; note the warmth of the \
room",
    );
    let Some(warmth) = testing.warmth else {
        return hold
            .how("by hand, ten seconds on each")
            .instead(&[])
            .seen("amplifier, battery, panel", "a hand stays on them");
    };
    if testing.has(Instrument::Thermometer) {
        return readings(
            hold.how("probe on the board beside the chip, and on the battery"),
            warmth,
        );
    }
    let mut hold = hold
        .how("open it, and lay a hand on each for ten seconds: above about 55 °C it does not stay")
        .instead(&[]);
    for (name, part) in [
        ("amplifier board", (|t| t.board) as fn(&Temperatures) -> f64),
        ("battery", |t| t.battery),
    ] {
        let warm = hour(warmth, part);
        // What is meant at 20 °C.
        let feels = if 20.0 + warm < 34.0 {
            "hardly warm"
        } else if 20.0 + warm < 50.0 {
            "warm; the hand stays"
        } else {
            "hot; the hand does not stay"
        };
        hold = hold.seen(name, feels);
    }
    hold
}

/// The case of the brief.
fn case(warmth: &Warmth) -> Option<&crate::warmth::Case> {
    warmth.cases.first()
}

/// How much warmer than before an hour of music makes something, in K.
fn hour(warmth: &Warmth, part: impl Fn(&Temperatures) -> f64) -> f64 {
    let before = part(&warmth.silent.nominal);
    case(warmth).map_or(0.0, |case| part(&case.hour) - before)
}

fn readings(mut hold: Hold, warmth: &Warmth) -> Hold {
    let Some(case) = case(warmth) else {
        return hold;
    };
    for (name, part) in [
        ("amplifier board", (|t| t.board) as fn(&Temperatures) -> f64),
        ("battery", |t| t.battery),
        ("air in the box", |t| t.air),
    ] {
        let before = part(&warmth.silent.nominal);
        let nominal = hour(warmth, part);
        let steady = part(&case.steady.nominal) - before;
        // Builds spread at rest as they do after an hour, in proportion.
        let share = |end: Option<Temperatures>| {
            let end = end.map_or(steady, |end| part(&end) - before);
            if steady > 0.1 {
                nominal * end / steady
            } else {
                nominal
            }
        };
        hold = hold.read(
            format!("{name}: warmer than before by"),
            Expect::Band {
                low: (share(case.steady.p10) - THERMOMETER).max(0.0),
                nominal,
                high: share(case.steady.p90) + THERMOMETER,
                unit: "K",
            },
        );
    }
    hold
}
