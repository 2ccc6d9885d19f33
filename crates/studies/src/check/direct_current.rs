//! Boards that are not bridged, and the capacitors they want.

use super::{Candidate, Check, Evidence, Verdict, swap};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "direct-current",
    title: "Direct current through the drivers",
    what: "Whether a board that is not bridged has coupling capacitors.",
    why: "The output of a board that is not bridged rests at half the supply. Without a capacitor \
in series that voltage drives a steady current through the voice coil, pushes the cone to one side \
and burns the coil.",
    limits: "Assumes one supply. Boards with the capacitors already on them need the value in the \
design all the same, because they cut the bass.",
    bad: "a board with bridged = false and no coupling in [amplifier]",
    good: "a bridged board, or coupling = \"2200 µF\"",
    sources: &["common practice, no source"],
    run,
};

/// Coupling capacitor tried, in µF: a usual size for 4 to 8 ohm.
const USUAL: &str = "2200 µF";

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let used = &evidence.design().amplifier;
    if used.part.bridged {
        return Vec::new();
    }
    if used.coupling.is_some() {
        return vec![Verdict::good(
            "Coupling capacitors keep direct current from the drivers",
            "The board is not bridged and each output has a capacitor in series.",
        )];
    }
    let rest = evidence.build.battery.full_voltage() / 2.0;
    let coil = evidence
        .build
        .drivers
        .iter()
        .map(|driver| driver.driver.re)
        .fold(f64::INFINITY, f64::min);
    let cause = format!(
        "This board is not bridged: each output rests at {}, which would drive {} through a coil of {} with no music playing.",
        number(rest, "V"),
        number(rest / coil, "A"),
        number(coil, "Ω")
    );
    let capacitor = Candidate::set(
        format!("coupling capacitors of {USUAL}"),
        "amplifier.coupling",
        USUAL,
    );
    vec![
        Verdict::stop("Direct current would burn the voice coils", cause)
            .advice("put a capacitor in series with each output, or take a bridged board")
            .mends([capacitor])
            .mends(swap::amplifiers(evidence, |board| board.bridged)),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn an_output_that_rests_at_half_the_supply_wants_a_capacitor() {
        check(CHECK.id, &[], &[]);
        let half = (
            "amplifier.part",
            "linear amplifier 2 x 5 W, 12 V, not bridged",
        );
        let found = check(CHECK.id, &[half], &[Stop]);
        assert!(found[0].mend.is_some());
        check(
            CHECK.id,
            &[half, ("amplifier.coupling", "2200 µF")],
            &[Good],
        );
    }
}
