//! Plus on plus and minus on minus.

use super::circuit::{capital, stops};
use super::{Check, Evidence, Verdict};
use wiring::rules::BreachKind;

pub(super) const CHECK: Check = Check {
    id: "reverse-polarity",
    title: "Polarity",
    what: "Whether anything that draws, or the charger, meets the battery the wrong way round in \
any mode.",
    why: "Most boards die in the moment they are connected in reverse, and a battery charged in \
reverse can burn.",
    limits: "Follows the net list. A plug that fits both ways round is not seen: use one that is keyed.",
    bad: "supply and return of the amplifier exchanged by [[wiring.wire]] and [[wiring.without]]",
    good: "the net list as proposed",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let kinds = [BreachKind::Reversed, BreachKind::ChargedReversed];
    let found = stops(
        evidence,
        &kinds,
        "Connected the wrong way round",
        |names, _| capital(&format!("{} meets the opposite pole", names[0])),
        "exchange the two wires, and test with a meter before the first power-up",
    );
    if found.is_empty() && evidence.electrics().is_some() {
        let cause =
            "Everything that draws, and the charger, meets the battery the right way round.";
        return vec![Verdict::good("Polarity is right", cause)];
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn an_amplifier_in_reverse_is_found() {
        check(CHECK.id, &[], &[Good]);
        let keys = [
            ("wiring.without.1.from", "main switch 2"),
            ("wiring.without.1.to", "amplifier +"),
            ("wiring.without.2.from", "battery -"),
            ("wiring.without.2.to", "amplifier -"),
            ("wiring.wire.1.from", "main switch 2"),
            ("wiring.wire.1.to", "amplifier -"),
            ("wiring.wire.2.from", "battery -"),
            ("wiring.wire.2.to", "amplifier +"),
        ];
        let found = with(&keys).findings(CHECK.id);
        assert!(!found.is_empty());
        assert!(found.iter().all(|finding| finding.severity == Stop));
    }
}
