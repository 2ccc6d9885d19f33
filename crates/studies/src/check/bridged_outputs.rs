//! Output legs touch their own load alone.

use super::circuit::{capital, of_kinds, stops_of};
use super::{Check, Evidence, Verdict};
use wiring::rules::{Breach, BreachKind};

pub(super) const CHECK: Check = Check {
    id: "bridged-outputs",
    title: "Output legs on their own load only",
    what: "Whether any leg of an output touches, in any mode, ground, supply, metal, another \
output, or anything but its own drivers.",
    why: "Both legs of a bridged output are driven. Joined to ground, to a shared sleeve or to the \
other channel, the output stage feeds a short circuit and dies or shuts down.",
    limits: "Follows wires, closed contacts, bare metal on a metal panel, and voice coils.",
    bad: "[[wiring.wire]] from = \"left driver 1 -\" to = \"right driver 1 -\"",
    good: "two wires from each output to its own drivers",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let all: Vec<&Breach> = of_kinds(electrics, &[BreachKind::OutputTouches]).collect();
    // One wrong wire joins a leg to all that hangs on its other end: the nearest is named.
    let leg = |breach: &Breach| breach.ends.first().copied();
    let others = |one: &Breach| all.iter().filter(|own| leg(own) == leg(one)).count() - 1;
    let mut legs = Vec::new();
    let nearest = all.iter().copied().filter(|breach| {
        let new = !legs.contains(&leg(breach));
        legs.push(leg(breach));
        new
    });
    let say = |names: &[String], breach: &Breach| {
        let joined = capital(&format!("{} is joined to {}", names[0], names[1]));
        match others(breach) {
            0 => joined,
            1 => format!("{joined} and one more terminal"),
            more => format!("{joined} and {more} more terminals"),
        }
    };
    let found = stops_of(
        (evidence, electrics),
        nearest,
        "Output joined to what is not its load",
        say,
        "keep both legs of every output apart from everything but their own drivers",
    );
    if found.is_empty() {
        let cause = "Each leg of every output touches its own drivers and posts, nothing else.";
        return vec![Verdict::good("Outputs are on their own", cause)];
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_common_return_of_both_channels_is_found() {
        check(CHECK.id, &[], &[Good]);
        let keys = [
            ("wiring.wire.1.from", "left driver 1 -"),
            ("wiring.wire.1.to", "right driver 1 -"),
        ];
        let found = super::super::probe::with(&keys).findings(CHECK.id);
        assert!(found.iter().all(|finding| finding.severity == Stop));
        assert!(found[0].mend.is_some());
    }

    #[test]
    fn each_leg_is_told_once() {
        let keys = [
            ("wiring.wire.1.from", "left driver 1 -"),
            ("wiring.wire.1.to", "battery -"),
        ];
        let found = super::super::probe::with(&keys).findings(CHECK.id);
        assert!((1..=2).contains(&found.len()), "{found:#?}");
        assert!(found[0].cause.contains("more terminals"), "{found:#?}");
    }
}
