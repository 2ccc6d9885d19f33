//! What the checks of the electrics share: breaches as verdicts, and the mends of wires.

use super::{Candidate, Edit, Evidence, Verdict};
use crate::electrics::Electrics;
use wiring::End;
use wiring::rules::{Breach, BreachKind};

/// Breaches of some kinds.
pub(super) fn of_kinds<'a>(
    electrics: &'a Electrics,
    kinds: &'a [BreachKind],
) -> impl Iterator<Item = &'a Breach> {
    let all = electrics.breaches.iter();
    all.filter(move |breach| kinds.contains(&breach.kind))
}

/// Terminals as they are written.
pub(super) fn written(electrics: &Electrics, ends: &[End]) -> Vec<String> {
    ends.iter().map(|end| electrics.system.name(*end)).collect()
}

/// The modes in which a breach of these kinds is found, from the first.
pub(super) fn in_mode(electrics: &Electrics, breach: &Breach) -> String {
    format!("when {}", electrics.modes[breach.mode].mode.name)
}

/// A stop for every breach of some kinds; nothing where there is none.
pub(super) fn stops(
    evidence: &Evidence<'_>,
    kinds: &[BreachKind],
    title: &str,
    say: impl Fn(&[String], &Breach) -> String,
    advice: &str,
) -> Vec<Verdict> {
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let all = of_kinds(electrics, kinds);
    stops_of((evidence, electrics), all, title, say, advice)
}

/// A stop for each of some breaches.
pub(super) fn stops_of<'a>(
    (evidence, electrics): (&Evidence<'_>, &Electrics),
    breaches: impl Iterator<Item = &'a Breach>,
    title: &str,
    say: impl Fn(&[String], &Breach) -> String,
    advice: &str,
) -> Vec<Verdict> {
    let mends = wire_mends(evidence);
    let verdict = |breach: &Breach| {
        let names = written(electrics, &breach.ends);
        let mode = in_mode(electrics, breach);
        let cause = format!("{} ({mode}).", say(&names, breach));
        Verdict::stop(title, cause)
            .advice(advice)
            .about(names, 1.0)
            .mends(mends.clone())
    };
    breaches.map(verdict).collect()
}

/// Each entry of the design about a wire taken out: what it did wrong goes with it.
pub(super) fn wire_mends(evidence: &Evidence<'_>) -> Vec<Candidate> {
    let plan = &evidence.design().wiring;
    let wires = plan.wires.iter().enumerate().map(|(index, wire)| {
        let words = format!("leave out the wire {} to {}", wire.from.text, wire.to.text);
        let key = format!("wiring.wire.{}", index + 1);
        Candidate::new(words, [Edit::remove(key)])
    });
    let without = plan.without.iter().enumerate().map(|(index, left)| {
        let words = format!("keep the wire {} to {}", left.from.text, left.to.text);
        let key = format!("wiring.without.{}", index + 1);
        Candidate::new(words, [Edit::remove(key)])
    });
    wires.chain(without).collect()
}

/// The first letter made a capital.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
