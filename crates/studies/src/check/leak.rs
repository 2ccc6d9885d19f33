//! Leaks.

use super::{Candidate, Check, Evidence, Verdict};
use design::Leak;

pub(super) const CHECK: Check = Check {
    id: "leak",
    title: "Leaks",
    what: "How tight the box is meant to be.",
    why: "Jack, pot shafts, switch and cable holes leak: the bass gets weaker, a vent or radiator \
loses its grip on the cone, and the leak whistles.",
    limits: "Taken from the word in the design, as a Q of 30, 15 or 5; nobody knows before it is built.",
    bad: "leak = \"leaky\": holes left open around jack and shafts",
    good: "leak = \"usual\", or \"tight\" when every hole is sealed and tested",
    sources: &["small-1973", "common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    match evidence.design().enclosure.leak.value {
        Leak::Tight => vec![Verdict::good(
            "Box is meant to be tight",
            "Seal every hole, then test: push the cone in slowly, let go, and it should take seconds to come back.",
        )],
        Leak::Usual => vec![Verdict::good(
            "Box is as tight as careful makers build",
            "Seal jack, shafts, switch and cable holes with putty or tape before the first test.",
        )],
        Leak::Leaky => vec![
            Verdict::caution(
                "Box leaks",
                "Holes left open around jack, shafts and switch weaken the bass and whistle.",
            )
            .advice("seal every hole from inside with putty, gaskets under the drivers, tape over the backs of switches")
            .mends([Candidate::set(
                "seal the holes (leak = usual)",
                "box.leak",
                "usual",
            )]),
        ],
    }
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn open_holes_are_sealed() {
        check(CHECK.id, &[], &[Good]);
        check(CHECK.id, &[("box.leak", "usual")], &[Good]);
        let found = check(CHECK.id, &[("box.leak", "leaky")], &[Caution]);
        assert_eq!(found[0].mend.as_ref().unwrap().edits[0].key, "box.leak");
    }
}
