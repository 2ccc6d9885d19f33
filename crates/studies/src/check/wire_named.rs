//! What the design says of its wires can be understood.

use super::circuit::wire_mends;
use super::{Candidate, Check, Evidence, Verdict};

pub(super) const CHECK: Check = Check {
    id: "wire-named",
    title: "Wires and parts the design names",
    what: "Whether the terminals under [wiring] are there, wires to be left out are proposed, and \
every electrical part has a purpose.",
    why: "A wire to a terminal that is not there would silently be no wire.",
    limits: "Names are compared letter by letter; the nearest ones are told.",
    bad: "[[wiring.wire]] from = \"batery +\" to = \"fuse 1\"",
    good: "[[wiring.wire]] from = \"battery +\" to = \"fuse 1\"",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(electrics) = evidence.electrics() else {
        return Vec::new();
    };
    let removals = wire_mends(evidence);
    let verdict = |trouble: &crate::electrics::Trouble| {
        let wire = trouble.key.starts_with("wiring.");
        let verdict = if wire {
            Verdict::stop("Wire not understood", trouble.words.as_str())
        } else {
            Verdict::caution("Part without its purpose", trouble.words.as_str())
        };
        let near = trouble.near.iter().map(|name| {
            let words = format!("write {name}");
            Candidate::set(words, &trouble.key, name.as_str())
        });
        let mends: Vec<Candidate> = if wire {
            near.chain(removals.clone()).collect()
        } else {
            Vec::new()
        };
        verdict
            .advice(trouble.advice.as_str())
            .at(trouble.place)
            .about([trouble.key.as_str()], 1.0)
            .mends(mends)
    };
    electrics.troubles.iter().map(verdict).collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::Stop;

    #[test]
    fn the_nearest_terminal_is_offered() {
        check(CHECK.id, &[], &[]);
        let keys = [
            ("wiring.wire.1.from", "batery +"),
            ("wiring.wire.1.to", "fuse 1"),
        ];
        let found = check(CHECK.id, &keys, &[Stop]);
        assert!(found[0].advice.as_ref().unwrap().contains("battery +"));
        let edit = &found[0].mend.as_ref().unwrap().edits[0];
        assert!(edit.key.starts_with("wiring.wire.1"), "{edit:?}");
    }
}
