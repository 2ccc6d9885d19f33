//! Drivers in phase, each on its channel.

use super::circuit::{capital, stops};
use super::{Check, Evidence, Verdict};
use wiring::rules::{Breach, BreachKind};

pub(super) const CHECK: Check = Check {
    id: "driver-phase",
    title: "Phase and sides",
    what: "Whether every driver is driven in its sense, and left and right stay left and right from \
the socket to the cone.",
    why: "One driver reversed, and the bass of both cancels: it sounds thin, and no measurement of \
one side alone shows it.",
    limits: "Finds the sense from the voltage across each coil with its own channel driven; which \
lug of a driver is positive is for a battery test to tell.",
    bad: "the two wires of the left driver exchanged",
    good: "plus to plus on every driver",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let kinds = [
        BreachKind::AgainstPhase,
        BreachKind::OtherChannel,
        BreachKind::CrossedSignal,
    ];
    let say = |names: &[String], breach: &Breach| match breach.kind {
        BreachKind::AgainstPhase => capital(&format!(
            "{} is driven against {}: its wires are exchanged",
            names[0], names[1]
        )),
        BreachKind::OtherChannel => {
            capital(&format!("{} is driven by the other channel", names[0]))
        }
        _ => capital(&format!(
            "{} gets what belongs to the other side from {}",
            names[0], names[1]
        )),
    };
    let found = stops(
        evidence,
        &kinds,
        "Phase or side exchanged",
        say,
        "exchange the wires at the driver, and test with a small battery: the cone moves outwards",
    );
    if found.is_empty() && evidence.electrics().is_some() {
        let cause = "Every driver moves outwards together, and left and right stay apart.";
        return vec![Verdict::good("Drivers are in phase", cause)];
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_reversed_driver_is_found() {
        check(CHECK.id, &[], &[Good]);
        let keys = [
            ("wiring.without.1.from", "amplifier left +"),
            ("wiring.without.1.to", "left driver 1 +"),
            ("wiring.without.2.from", "amplifier left -"),
            ("wiring.without.2.to", "left driver 1 -"),
            ("wiring.wire.1.from", "amplifier left +"),
            ("wiring.wire.1.to", "left driver 1 -"),
            ("wiring.wire.2.from", "amplifier left -"),
            ("wiring.wire.2.to", "left driver 1 +"),
        ];
        with(&keys).check(CHECK.id, &[Stop]);
    }
}
