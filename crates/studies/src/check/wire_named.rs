//! What the design says of its wires can be understood.

use super::{Candidate, Check, Edit, Evidence, Verdict};
use crate::electrics::Trouble;

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
    let verdict = |trouble: &Trouble| {
        let wire = trouble.key.starts_with("wiring.");
        let verdict = if wire {
            Verdict::stop("Wire not understood", trouble.words.as_str())
        } else {
            Verdict::caution("Part without its purpose", trouble.words.as_str())
        };
        let mends = if wire { mends(trouble) } else { Vec::new() };
        verdict
            .advice(trouble.advice.as_str())
            .at(trouble.place)
            .about([trouble.key.as_str()], 1.0)
            .mends(mends)
    };
    electrics.troubles.iter().map(verdict).collect()
}

/// What it may have meant; the entry taken out only where no name comes near. Never both: who
/// misspelt a wire wants it.
fn mends(trouble: &Trouble) -> Vec<Candidate> {
    let near = trouble.near.iter().map(|name| {
        let words = format!("write {name}");
        Candidate::set(words, &trouble.key, name.as_str())
    });
    let renamed: Vec<Candidate> = near.collect();
    let entry = trouble.key.rsplit_once('.').map(|(entry, _)| entry);
    match entry {
        Some(entry) if renamed.is_empty() => {
            vec![Candidate::new("take the entry out", [Edit::remove(entry)])]
        }
        _ => renamed,
    }
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
        assert_eq!(edit.key, "wiring.wire.1.from");
        assert_eq!(edit.value.as_deref(), Some("battery +"));
    }

    #[test]
    fn a_wire_that_is_not_there_is_not_left_out() {
        let keys = [
            ("wiring.without.1.from", "battery +"),
            ("wiring.without.1.to", "amplifier +"),
        ];
        let found = check(CHECK.id, &keys, &[Stop]);
        assert!(found[0].advice.as_ref().unwrap().contains("fuse 1"));
        let edit = &found[0].mend.as_ref().unwrap().edits[0];
        assert_eq!(
            (edit.key.as_str(), &edit.value),
            ("wiring.without.1", &None)
        );
    }
}
