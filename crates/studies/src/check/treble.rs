//! Whether something plays the treble.

use super::{Check, Evidence, Verdict, swap};

pub(super) const CHECK: Check = Check {
    id: "treble",
    title: "Treble",
    what: "Whether some driver on every channel covers the treble.",
    why: "Woofers and subwoofers alone sound as if from behind a curtain: speech is hard to follow.",
    limits: "Looks at the kind of the drivers, not at a measured response; the model of sound is not \
trusted above the frequency at which a cone no longer moves as one. A crossover with tweeters is not \
modelled.",
    bad: "two woofers and nothing else",
    good: "two full-range or coaxial drivers, with woofers beside them or without",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let groups = &evidence.design().drivers;
    let covered = |side: design::Side| {
        let mut on = groups
            .iter()
            .filter(|group| group.side.value == side || group.side.value == design::Side::Both)
            .peekable();
        on.peek().is_none() || on.any(|group| swap::covers_treble(&group.part))
    };
    use design::Side::{Left, Mono, Right};
    if [Left, Right, Mono].into_iter().all(covered) {
        return vec![Verdict::good(
            "Treble is covered",
            "A full-range or coaxial driver plays on every channel.",
        )];
    }
    let swaps = groups.iter().enumerate().flat_map(|(index, group)| {
        let size = group.part.size.map(|size| size.si);
        swap::drivers_of_any_range(evidence, index, |part| {
            swap::covers_treble(part) && part.size.map(|size| size.si) == size
        })
    });
    vec![
        Verdict::caution(
            "Nothing plays the treble",
            "All drivers of a channel are woofers, whose cones no longer follow in the treble: speech and cymbals will be dull.",
        )
        .advice("take full-range or coaxial drivers, or add tweeters with a crossover, which is not computed here")
        .mends(swaps),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::check;
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn woofers_alone_are_dull() {
        check(CHECK.id, &[], &[Good]);
        let found = check(
            CHECK.id,
            &[("drivers.1.part", "woofer 4 in, 4 ohm")],
            &[Caution],
        );
        assert!(found[0].mend.is_some());
    }
}
