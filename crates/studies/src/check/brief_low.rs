//! How low it plays against the brief.

use super::wish::{self, Wish};
use super::{Check, Evidence, Severity, Verdict, box_q, resize, swap, tune};

pub(super) const CHECK: Check = Check {
    id: "brief-low",
    title: "How low, against the brief",
    what: "Whether the box plays down to the lowest frequency the brief asks for, and in how many \
builds of a hundred.",
    why: "Depth, size and loudness are fixed together: small boxes play low only quietly.",
    limits: "The frequency at which the box's own roll-off has lost 6 dB; face, place and room come \
on top. Kept means in eight builds of ten.",
    bad: "lowest = \"50 Hz\" from two 4 in drivers in four litres",
    good: "lowest = \"90 Hz\" from the same",
    sources: &["small-1972", "small-1973"],
    run,
};

const WISH: Wish = Wish {
    promise: "low",
    kept: "Plays low enough",
    missed: "Does not play low enough",
    does: "plays down to",
    much: 1.3,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(mut verdict) = wish::verdict(evidence, &WISH) else {
        return Vec::new();
    };
    if verdict.severity == Severity::Good {
        return vec![verdict];
    }
    verdict = verdict
        .advice("make the box larger, vent it, or take drivers with a lower resonance")
        .ladder(tune::lower(evidence))
        .ladder(box_q::fuller(evidence))
        .ladders(resize::growth(evidence));
    let drivers = 0..evidence.design().drivers.len();
    vec![
        verdict
            .mends(tune::vented(evidence))
            .mends(drivers.flat_map(|group| lower_drivers(evidence, group)))
            .mends(tune::radiators(evidence)),
    ]
}

fn lower_drivers(evidence: &Evidence<'_>, group: usize) -> Vec<super::Candidate> {
    let now = evidence.build.drivers[group].fs();
    swap::drivers(evidence, group, |part| {
        part.fs.is_some_and(|fs| fs.si < now)
    })
}
