//! What stays on when the box is off.

use super::circuit::wire_mends;
use super::{Check, Evidence, Verdict};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "standby-drain",
    title: "What drains the battery when it is off",
    what: "How long the battery lasts with the box switched off, with everything left of the main \
switch still fed.",
    why: "10 mA of a light that stays on empty 7 Ah in a month, and an empty battery that is left \
empty is a dead one.",
    limits: "Self-discharge of the battery and what its protection board draws come on top: some 3 % \
a month for lithium and lead-acid.",
    bad: "the indicator wired to the battery side of the main switch",
    good: "everything behind the main switch",
    sources: &["common practice, no source"],
    run,
};

/// Seconds in a month.
const MONTH: f64 = 30.4 * 86_400.0;

/// Least months it should last: below the first it is a stop.
const MONTHS: [f64; 2] = [1.0, 6.0];

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let Some(off) = electrics.off() else {
        return Vec::new();
    };
    if off.idle <= 0.0 {
        let cause = "With the main switch off, nothing draws from the battery.";
        return vec![Verdict::good("Nothing drains the battery when off", cause)];
    }
    let months = electrics.supply.capacity / off.idle / MONTH;
    let names: Vec<&str> = off
        .live
        .iter()
        .map(|part| electrics.system.parts[*part].name.as_str())
        .collect();
    let cause = format!(
        "Switched off, {} still draw {}: the battery is empty after {}.",
        names.join(", "),
        number(1e3 * off.idle, "mA"),
        number(months, "months")
    );
    let verdict = if months < MONTHS[0] {
        Verdict::stop("Battery drains while the box is off", cause)
    } else if months < MONTHS[1] {
        Verdict::caution("Battery drains while the box is off", cause)
    } else {
        Verdict::good("Little drains the battery when off", cause)
    };
    let with = |verdict: Verdict| {
        verdict
            .measured(months, MONTHS[1], "months")
            .advice("feed it from behind the main switch")
            .mends(wire_mends(evidence))
    };
    vec![with(verdict)]
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_wire_past_the_switch_is_found() {
        check(CHECK.id, &[], &[Good]);
        let keys = [
            ("wiring.wire.1.from", "main switch 1"),
            ("wiring.wire.1.to", "main switch 2"),
        ];
        let found = check(CHECK.id, &keys, &[Stop]);
        assert!(found[0].mend.is_some());
    }
}
