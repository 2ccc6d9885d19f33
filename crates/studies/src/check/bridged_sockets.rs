//! Bridged outputs on sockets in metal.

use super::{Candidate, Check, Evidence, Verdict};
use design::ControlUse;

pub(super) const CHECK: Check = Check {
    id: "bridged-sockets",
    title: "Bridged outputs in a metal panel",
    what: "Whether a socket that carries a bridged output is insulated from a metal panel.",
    why: "Neither wire of a bridged output is ground. A sleeve that touches the panel joins it to every \
other sleeve there: the board is overloaded or destroyed.",
    limits: "Goes by what the design says of bridged_output and the shelf of insulated. Wires pinched \
under a screw are found with a meter only.",
    bad: "bridged_output = true on a bare jack in a plate of aluminium",
    good: "an insulated socket, or a plate of plywood",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(control) = &evidence.design().control else {
        return Vec::new();
    };
    let bridged: Vec<(usize, &ControlUse)> = control
        .parts
        .iter()
        .enumerate()
        .filter(|(_, used)| used.bridged_output.value)
        .collect();
    let bare: Vec<&(usize, &ControlUse)> = bridged
        .iter()
        .filter(|(_, used)| control.plate.metal.value && !used.part.insulated.value)
        .collect();
    if bare.is_empty() {
        let cause = "No socket with a bridged output touches metal.";
        let good = Verdict::good("Bridged outputs touch nothing else", cause);
        return (!bridged.is_empty()).then_some(good).into_iter().collect();
    }
    bare.into_iter()
        .map(|(index, used)| {
            let name = &used.part.common.name.text;
            let cause = format!(
                "{name} carries a bridged output and is not insulated from {}.",
                control.plate.common.name.text
            );
            Verdict::stop("A bridged output touches the metal panel", cause)
                .advice(
                    "take an insulated socket, insulating washers, or a panel that is not metal",
                )
                .at(used.place)
                .mends(insulated(evidence, *index, used))
        })
        .collect()
}

/// Insulated parts of the same kind.
fn insulated(evidence: &Evidence<'_>, index: usize, used: &ControlUse) -> Vec<Candidate> {
    let shelf = evidence.subject.project.shelf.controls.iter();
    let now = &used.part.common.name.text;
    shelf
        .filter(|part| part.insulated.value && part.kind.value == used.part.kind.value)
        .map(|part| {
            let then = &part.common.name.text;
            let key = format!("control.part.{}.part", index + 1);
            Candidate::set(format!("{now} → {then}"), &key, then)
        })
        .take(TRIES)
        .collect()
}

/// Other parts tried.
const TRIES: usize = 3;

#[cfg(test)]
mod tests {
    use super::super::probe::{PANEL, check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_bare_sleeve_in_metal_must_not_carry_a_bridged_output() {
        check(CHECK.id, PANEL, &[]);
        let bridged = with(PANEL).with(&[("control.part.3.bridged_output", "true")]);
        bridged.check(CHECK.id, &[Stop]);
        let wood = [("control.plate", "birch plywood 4 mm")];
        bridged.clone().with(&wood).check(CHECK.id, &[Good]);
        let post = [("control.part.3.part", "binding post, insulated")];
        bridged.with(&post).check(CHECK.id, &[Good]);
    }

    #[test]
    fn an_insulated_part_of_the_same_kind_mends_it() {
        let bare = "[[control]]\nname = \"bare post\"\nkind = \"terminal\"\nhole = \"8 mm\"\n";
        let keys = [
            ("control.part.3.part", "bare post"),
            ("control.part.3.bridged_output", "true"),
        ];
        let found = with(PANEL).shelf(bare);
        let found = found.with(&keys).check(CHECK.id, &[Stop]);
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(
            mend.edits[0].value.as_deref(),
            Some("binding post, insulated")
        );
    }
}
