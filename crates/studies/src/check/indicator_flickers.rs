//! The low-battery light with bass and pauses.

use super::{Candidate, Check, Evidence, Verdict};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "indicator-flickers",
    title: "Low-battery light with the beat",
    what: "Whether the hysteresis is larger than what the voltage rises when the music pauses, and \
whether the delay lets the peaks pass.",
    why: "Every bass note pulls the battery down by its current times its resistance. Without delay and \
hysteresis the light blinks with the music for an hour before the battery is low, and goes out in \
every pause.",
    limits: "Takes the beat of music at one a second; the battery's slow recovery at rest is counted as \
a hundredth of its voltage in the usual hysteresis.",
    bad: "delay = \"0 s\" and hysteresis = \"1 mV\"",
    good: "a delay of 3 s and a hysteresis of half as much again as the sag",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(indicator) = evidence.indicator() else {
        return Vec::new();
    };
    let Some(built) = &indicator.built else {
        return Vec::new();
    };
    let place = evidence.design().indicator.as_ref().map(|used| used.place);
    let sag = &indicator.sag;
    let hysteresis = built.rising.volts - built.falling.volts;
    let needed = sag.mean + sag.ripple;
    let volts = |value: f64| format!("{value:.2} V");
    let cause = format!(
        "Playing takes {} off the battery on the mean and {} at the peaks, of which {} is left after a delay of {}; the hysteresis is {}.",
        volts(sag.mean),
        volts(sag.peak),
        volts(sag.ripple),
        number(built.delay, "s"),
        volts(hysteresis)
    );
    if hysteresis >= needed {
        return vec![
            Verdict::good("Low-battery light stays steady", cause)
                .measured(hysteresis, needed, "V"),
        ];
    }
    vec![
        Verdict::caution("Low-battery light flickers with the music", cause)
            .measured(hysteresis, needed, "V")
            .advice("leave hysteresis and delay to the program, or raise both")
            .at(place)
            .mends(usual(evidence)),
    ]
}

/// What was said, taken back: the program then takes what is usual.
fn usual(evidence: &Evidence<'_>) -> Vec<Candidate> {
    let Some(used) = &evidence.design().indicator else {
        return Vec::new();
    };
    let hysteresis = used
        .hysteresis
        .map(|_| super::Edit::remove("indicator.hysteresis"));
    let delay = used
        .delay
        .map(|_| super::Edit::set("indicator.delay", "3 s"));
    let one =
        |words: &str, edit: Option<super::Edit>| edit.map(|edit| Candidate::new(words, [edit]));
    let both = hysteresis.clone().zip(delay.clone());
    let both = both.map(|(a, b)| Candidate::new("the usual hysteresis and a delay of 3 s", [a, b]));
    one("the usual hysteresis", hysteresis)
        .into_iter()
        .chain(one("a delay of 3 s", delay))
        .chain(both)
        .collect()
}
