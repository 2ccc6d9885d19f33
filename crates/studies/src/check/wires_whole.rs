//! Everything that must be joined is.

use super::circuit::{capital, stops};
use super::{Check, Evidence, Verdict};
use wiring::rules::{Breach, BreachKind};

pub(super) const CHECK: Check = Check {
    id: "wires-whole",
    title: "Every wire there is, and on its terminal",
    what: "Whether everything that draws is fed in every playing mode from its own source, every \
driver and post is driven, and every source reaches the inputs over the level control.",
    why: "A wire that is missing or on the wrong terminal is found after the box is closed, when \
it is silent.",
    limits: "Follows the net list with the changes the design makes to it, in every position of the \
switches; a joint that is bad but there is found with the meter only.",
    bad: "[[wiring.without]] from = \"amplifier left +\" to = \"left driver 1 +\"",
    good: "the net list as proposed",
    sources: &["common practice, no source"],
    run,
};

const KINDS: [BreachKind; 13] = [
    BreachKind::Unfed,
    BreachKind::OwnOutput,
    BreachKind::NotCutOff,
    BreachKind::WrongSource,
    BreachKind::BatteriesApart,
    BreachKind::Silent,
    BreachKind::OtherShare,
    BreachKind::PostLoose,
    BreachKind::NoSignal,
    BreachKind::NoSignalGround,
    BreachKind::LevelControl,
    BreachKind::SignalShorted,
    BreachKind::ReturnAstray,
];

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let found = stops(
        evidence,
        &KINDS,
        "Not joined as it must be",
        say,
        "follow the proposed wire list, or join it to where it belongs",
    );
    if !found.is_empty() {
        return found;
    }
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let wires = electrics.harness.len();
    let cause = format!(
        "{wires} wires feed, drive and lead everything in {} modes.",
        electrics.modes.len()
    );
    vec![Verdict::good("Every wire has its place", cause)]
}

fn say(names: &[String], breach: &Breach) -> String {
    let first = capital(&names[0]);
    match breach.kind {
        BreachKind::Unfed => format!("{first} is not joined to what feeds it"),
        BreachKind::OwnOutput => {
            format!("{first} is fed from behind its own contact: it never closes, or never opens")
        }
        BreachKind::NotCutOff => format!("{first} is fed past the open cut-off"),
        BreachKind::WrongSource => format!("{first} hangs on another source than its own"),
        BreachKind::Silent => format!(
            "Nothing drives the part between {} and {}",
            names[0], names[1]
        ),
        BreachKind::BatteriesApart => format!(
            "{first} and {} belong in parallel and are apart: joined later, one battery rushes \
into the other",
            names[1]
        ),
        BreachKind::OtherShare => format!(
            "Between {} and {} lies another share of the output than the drivers' wiring gives it",
            names[0], names[1]
        ),
        BreachKind::PostLoose => format!("{first} is not joined to its output"),
        BreachKind::NoSignal => format!("No signal passes over {}", names[0]),
        BreachKind::NoSignalGround => {
            format!("{first} does not reach the amplifier's signal ground along signal wires")
        }
        BreachKind::LevelControl => format!("{first} is not where the level control needs it"),
        BreachKind::SignalShorted => format!("{first} lies on {}", names[1]),
        _ => format!("{first} does not lead back along supply wires"),
    }
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_missing_wire_is_found_and_put_back() {
        check(CHECK.id, &[], &[Good]);
        let keys = [
            ("wiring.without.1.from", "amplifier left +"),
            ("wiring.without.1.to", "left driver 1 +"),
        ];
        let found = check(CHECK.id, &keys, &[Stop]);
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].key, "wiring.without.1");
    }
}
