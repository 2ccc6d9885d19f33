//! No source is shorted.

use super::circuit::stops;
use super::{Check, Evidence, Verdict};
use wiring::rules::BreachKind;

pub(super) const CHECK: Check = Check {
    id: "short-circuit",
    title: "Short circuits",
    what: "Whether the poles of a source are joined in any position of the switches, two sources \
are joined, or the charger lies on a signal or an output.",
    why: "A shorted battery gives hundreds of amperes: wires glow before a poor fuse opens.",
    limits: "Metal, contacts and fuses count as joined; what conducts only when it fails is not seen.",
    bad: "[[wiring.wire]] from = \"main switch 2\" to = \"battery -\"",
    good: "the net list as proposed",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let kinds = [BreachKind::Short, BreachKind::ChargeAstray];
    let say = |names: &[String], _: &_| format!("{} and {} are joined", names[0], names[1]);
    let found = stops(
        evidence,
        &kinds,
        "Short circuit",
        |names, breach| super::circuit::capital(&say(names, breach)),
        "take out the wire that joins them before anything is connected",
    );
    if found.is_empty() && evidence.electrics().is_some() {
        let cause = "No position of the switches joins the poles of a source.";
        return vec![Verdict::good("No source is shorted", cause)];
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_wire_across_the_battery_is_found() {
        check(CHECK.id, &[], &[Good]);
        let keys = [
            ("wiring.wire.1.from", "main switch 2"),
            ("wiring.wire.1.to", "battery -"),
        ];
        let found = check(CHECK.id, &keys, &[Stop]);
        assert!(found[0].mend.is_some());
    }
}
