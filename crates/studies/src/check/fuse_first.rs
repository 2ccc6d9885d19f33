//! Nothing but the battery lies before its fuse.

use super::circuit::{capital, stops};
use super::{Check, Evidence, Verdict};
use wiring::rules::BreachKind;

pub(super) const CHECK: Check = Check {
    id: "fuse-first",
    title: "The fuse comes first",
    what: "Whether anything but the battery is joined to the wire before the fuse.",
    why: "What lies before the fuse is not protected by it: a chafed wire there burns.",
    limits: "Batteries in parallel each have a fuse of their own. The inside of the battery is the \
business of its maker.",
    bad: "[[wiring.wire]] from = \"battery +\" to = \"main switch 1\"",
    good: "battery, fuse, and then everything else",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let found = stops(
        evidence,
        &[BreachKind::BeforeFuse],
        "Something lies before the fuse",
        |names, _| {
            capital(&format!(
                "{} hangs on the battery without a fuse between",
                names[0]
            ))
        },
        "join it behind the fuse",
    );
    if found.is_empty() && evidence.electrics().is_some() {
        let cause = "Between the battery and its fuse there is one wire and nothing else.";
        return vec![Verdict::good("The fuse comes first", cause)];
    }
    found
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_wire_past_the_fuse_is_found() {
        check(CHECK.id, &[], &[Good]);
        let keys = [
            ("wiring.wire.1.from", "battery +"),
            ("wiring.wire.1.to", "main switch 1"),
        ];
        let found = with(&keys).findings(CHECK.id);
        assert!(found.iter().all(|finding| finding.severity == Stop));
        assert!(found[0].mend.is_some());
        // One wire is one fault, whatever hangs on its far end.
        assert_eq!(found.len(), 1, "{found:#?}");
    }
}
