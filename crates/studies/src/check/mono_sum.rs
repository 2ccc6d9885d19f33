//! Signals are summed through resistors.

use super::circuit::{capital, stops};
use super::{Check, Evidence, Verdict};
use wiring::rules::BreachKind;

pub(super) const CHECK: Check = Check {
    id: "mono-sum",
    title: "Left and right summed through resistors",
    what: "Whether two outputs of sources are joined without a resistor between, in any mode.",
    why: "Joined outputs drive one another: distortion, a lower level, and in the long run a dead \
output. A resistor of 470 Ω to 1 kΩ in each way keeps them apart.",
    limits: "A socket whose contacts are closed without a plug counts as no source then.",
    bad: "[[wiring.wire]] from = \"input tip\" to = \"input ring\"",
    good: "[source] sum = \"resistors\" sum_resistor = \"1 kohm\"",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let found = stops(
        evidence,
        &[BreachKind::SummedBare],
        "Signals joined without resistors",
        |names, _| {
            capital(&format!(
                "{} and {} meet without a resistor of each between",
                names[0], names[1]
            ))
        },
        "put a resistor of 470 Ω to 1 kΩ into the way of each",
    );
    let summed = evidence.electrics().is_some_and(|electrics| {
        let parts = electrics.system.parts.iter();
        parts
            .filter(|part| part.kind == wiring::Kind::Resistor)
            .count()
            > 1
    });
    if found.is_empty() && summed {
        let cause = "Each signal has a resistor of its own before they meet.";
        return vec![Verdict::good("Signals meet through resistors", cause)];
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::Stop;

    #[test]
    fn a_bare_sum_is_found() {
        check(CHECK.id, &[], &[]);
        let keys = [
            ("wiring.wire.1.from", "input tip"),
            ("wiring.wire.1.to", "input ring"),
        ];
        let found = with(&keys).check(CHECK.id, &[Stop]);
        assert!(found[0].mend.is_some());
    }
}
