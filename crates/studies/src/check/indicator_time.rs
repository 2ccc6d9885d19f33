//! The low-battery light against the warning wanted.

use super::{Candidate, Check, Evidence, Verdict};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "indicator-time",
    title: "Music left when the light comes on",
    what: "In how many builds the low-battery light leaves less music than the warning wanted, and in \
how many far more, over battery, parts and temperature.",
    why: "A light that comes too late warns of nothing; one that is on for half of the evening is \
soon ignored.",
    limits: "Counts at the brief's loudness. Cold, a battery that was not full, and cells that rest in \
between shift it further.",
    bad: "a warning of ten hours from a battery that plays for eight",
    good: "half an hour from one that plays for eight hours",
    sources: &["common practice, no source"],
    run,
};

/// Share of builds in which it may be late or early.
const SOME: f64 = 0.25;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(indicator) = evidence.indicator() else {
        return Vec::new();
    };
    let place = evidence.design().indicator.as_ref().map(|used| used.place);
    let minutes = |seconds: f64| number(seconds / 60.0, "min");
    let wanted = indicator.wanted.warning;
    let Some(built) = &indicator.built else {
        return Vec::new();
    };
    let band = format!(
        "It lights at {:.2} V, with {} of music left as designed; eight builds of ten have {} to {}.",
        built.falling.volts,
        minutes(built.left),
        minutes(built.left_band.p10),
        minutes(built.left_band.p90)
    );
    let of_hundred = |share: f64| number(100.0 * share, "of 100");
    let flat = indicator.plateau.is_some();
    if built.too_late > SOME {
        let cause = format!(
            "{band} {} builds have less than the {} wanted.",
            of_hundred(built.too_late),
            minutes(wanted)
        );
        return vec![
            Verdict::caution("Low-battery light comes too late", cause)
                .measured(built.left / 60.0, wanted / 60.0, "min")
                .advice("ask for a shorter warning, or take a larger battery")
                .at(place)
                .ladder(shorter(evidence, wanted)),
        ];
    }
    // A flat curve is another check's matter.
    if built.too_early > SOME && !flat {
        let cause = format!(
            "{band} In {} builds that is more than four times the {} wanted.",
            of_hundred(built.too_early),
            minutes(wanted)
        );
        return vec![
            Verdict::caution("Low-battery light comes too early", cause)
                .measured(built.left / 60.0, wanted / 60.0, "min")
                .advice("set it with a trimmer, take closer parts, or ask for a longer warning")
                .at(place)
                .mends([Candidate::set(
                    "set it with a trimmer",
                    "indicator.trim",
                    "true",
                )]),
        ];
    }
    vec![
        Verdict::good("Low-battery light comes in time", band).measured(
            built.left / 60.0,
            wanted / 60.0,
            "min",
        ),
    ]
}

/// Shorter and shorter warnings, down to a share of the playing time.
fn shorter(evidence: &Evidence<'_>, wanted: f64) -> Vec<Candidate> {
    const USUAL: [f64; 7] = [120.0, 90.0, 60.0, 45.0, 30.0, 20.0, 10.0];
    let fits = |minutes: &f64| 60.0 * minutes < wanted && 60.0 * minutes < evidence.outcome.runtime;
    let say = |minutes: f64| format!("{minutes:.0} min");
    USUAL
        .into_iter()
        .filter(fits)
        .map(|minutes| {
            let words = format!("a warning of {}", say(minutes));
            Candidate::set(words, "indicator.warning", say(minutes))
        })
        .collect()
}
