//! Stated lengths of wires against the way they have to go.

use super::{Candidate, Check, Evidence, Verdict};
use crate::electrics::HarnessWire;
use crate::words::prefixed;
use design::{Dimension, format_rounded};
use wiring::Carries;

pub(super) const CHECK: Check = Check {
    id: "wire-reaches",
    title: "Stated wires reach",
    what: "Whether a wire whose length the design states is as long as the way it has to go in the \
box, from terminal to terminal along the walls, with what is stripped at its ends.",
    why: "A wire cut too short is found when its box is half closed: it is pulled taut across the \
damping, or patched with a joint that fails there.",
    limits: "The way is the program's, from the middle of one part to the middle of the other along \
the walls and round what stands on them; a shorter one through the air may be there. Slack and service loops \
are not asked for: they are the maker's choice.",
    bad: "[[wiring.wire]] from = \"battery +\" to = \"fuse 1\" length = \"30 mm\"",
    good: "no length: the program measures the way and adds slack and loops",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let plan = evidence.design().wiring.wires.iter().enumerate();
    let stated = plan.filter(|(_, said)| said.length.is_some());
    let own = |place| {
        let wires = electrics.harness.iter();
        let mut wires = wires.filter(|wire| wire.carries != Carries::Touch);
        wires.find(|wire: &&HarnessWire| wire.place == Some(place))
    };
    let judged: Vec<(usize, &HarnessWire)> = stated
        .filter_map(|(index, said)| Some((index + 1, own(said.place)?)))
        .collect();
    let short = judged
        .iter()
        .filter(|(_, wire)| wire.length < wire.reaches - 1e-9);
    let found: Vec<Verdict> = short
        .map(|(number, wire)| too_short(*number, wire))
        .collect();
    if found.is_empty() && !judged.is_empty() {
        let cause = "Every wire of a stated length is as long as its way in the box.";
        return vec![Verdict::good("Stated wires reach", cause)];
    }
    found
}

fn too_short(number: usize, wire: &HarnessWire) -> Verdict {
    let cause = format!(
        "{} from {} to {} is stated as {} long; its way in the box takes {}.",
        wire.label,
        wire.from,
        wire.to,
        prefixed(wire.length, "m"),
        prefixed(wire.reaches, "m")
    );
    let length = format_rounded(wire.usual, Dimension::Length, 3);
    Verdict::stop("Wire does not reach", cause)
        .measured(1e3 * wire.length, 1e3 * wire.reaches, "mm")
        .advice("cut it longer, or move its parts together")
        .about(
            [format!("wiring.wire.{number}")],
            wire.reaches - wire.length,
        )
        .at(wire.place)
        .mends([Candidate::set(
            format!("cut it {length} long"),
            &format!("wiring.wire.{number}.length"),
            length,
        )])
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_short_wire_is_found_and_cut_longer() {
        check(CHECK.id, &[], &[]);
        let keys = |length| {
            [
                ("wiring.wire.1.from", "main switch 2"),
                ("wiring.wire.1.to", "amplifier +"),
                ("wiring.wire.1.length", length),
            ]
        };
        with(&keys("0.8 m")).check(CHECK.id, &[Good]);
        let found = with(&keys("60 mm")).check(CHECK.id, &[Stop]);
        let edit = &found[0].mend.as_ref().unwrap().edits[0];
        assert_eq!(edit.key, "wiring.wire.1.length");
        let mended = edit.value.as_deref().unwrap();
        with(&keys(mended)).check(CHECK.id, &[Good]);
    }
}
