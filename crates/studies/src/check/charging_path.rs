//! The way of the charger.

use super::circuit::{capital, stops};
use super::{Check, Evidence, Verdict};
use crate::words::number;
use wiring::State;
use wiring::rules::BreachKind;

pub(super) const CHECK: Check = Check {
    id: "charging-path",
    title: "The charger's way to the battery",
    what: "Whether the charger reaches the battery in the charging mode, and whether what plays \
then takes so much that the charger never comes to its end.",
    why: "A charger ends when its current falls to a small rest. Whatever plays meanwhile looks to \
it like a battery that is not full: it goes on, for hours at the highest voltage.",
    limits: "The end is taken to be a twentieth of the capacity per hour. A charger with a timer of its \
own, or a path controller, behaves better.",
    bad: "[[wiring.without]] from = \"charging socket +\"",
    good: "a selector that plays or charges, but not both",
    sources: &["common practice, no source"],
    run,
};

/// Current at which a charger ends, per capacity, in 1/s: C/20.
const END_RATE: f64 = 1.0 / 20.0 / 3600.0;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let found = stops(
        evidence,
        &[BreachKind::NotCharging],
        "Charger does not reach the battery",
        |names, _| capital(&format!("{} leads to no pole of the battery", names[0])),
        "join the socket to the battery behind its fuse",
    );
    if !found.is_empty() {
        return found;
    }
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let mut modes = electrics.modes.iter();
    let Some(both) = modes.find(|state| state.mode.state == State::Both) else {
        return Vec::new();
    };
    // What reaches it the wrong way round is no way to tell of; the check of polarity does.
    let reversed = &[BreachKind::ChargedReversed];
    if super::circuit::of_kinds(electrics, reversed)
        .next()
        .is_some()
    {
        return Vec::new();
    }
    let ends = END_RATE * electrics.supply.capacity;
    if !both.charges || both.live.is_empty() {
        let cause = "While it charges, nothing plays; while it plays, the charger is apart.";
        return vec![Verdict::good("Charging and playing are apart", cause)];
    }
    let cause = format!(
        "Charging while playing, up to {} go to the music; the charger would end at some {}.",
        number(both.continuous, "A"),
        number(ends, "A")
    );
    let verdict = if both.continuous > ends {
        Verdict::caution("Playing keeps the charger from its end", cause)
            .advice("switch off while it charges, or take a selector that plays or charges")
    } else {
        Verdict::good("Playing hardly disturbs the charger", cause)
    };
    vec![verdict.measured(both.continuous, ends, "A")]
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Stop};

    const INSIDE: &[(&str, &str)] = &[("battery.charged_inside", "true")];

    #[test]
    fn playing_disturbs_the_charger() {
        check(CHECK.id, &[], &[]);
        check(CHECK.id, INSIDE, &[Caution]);
        let cut = [
            ("wiring.without.1.from", "charging socket -"),
            ("wiring.without.1.to", "battery -"),
        ];
        with(INSIDE).with(&cut).check(CHECK.id, &[Stop]);
    }
}
