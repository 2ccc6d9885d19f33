//! Different drivers in one chamber.

use super::{Candidate, Check, Evidence, Verdict};
use design::{Chambers, DriverUse};

pub(super) const CHECK: Check = Check {
    id: "chamber-shared",
    title: "Different drivers in one chamber",
    what: "Whether drivers of different kinds breathe into the same air.",
    why: "The stronger cone pumps the weaker one through the air they share: it moves without being \
told to, and runs out of travel. Equal drivers on equal signals do no such thing; left and right may \
share a chamber, because bass is much the same on both.",
    limits: "Looks at which parts share a chamber; how much the weaker cone is driven is in the \
computed travel.",
    bad: "a 6.5 in woofer and a 3 in full-range in one chamber",
    good: "equal drivers in one chamber, or one chamber for each side",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let design = evidence.design();
    let groups = &design.drivers;
    if groups.iter().map(|group| group.count).sum::<u32>() < 2 {
        return Vec::new();
    }
    let split = design.enclosure.chambers.value == Chambers::OnePerSide;
    let together = |a: &DriverUse, b: &DriverUse| !split || a.side.value == b.side.value;
    let unlike = |a: &&DriverUse, b: &&DriverUse| {
        a.part.common.name.text != b.part.common.name.text && together(a, b)
    };
    let pair = groups.iter().enumerate().find_map(|(i, a)| {
        groups[i + 1..]
            .iter()
            .find(|b| unlike(&a, b))
            .map(|b| (a, b))
    });
    let Some((a, b)) = pair else {
        let cause = if split {
            "Each side has air of its own."
        } else {
            "All drivers are equal; sharing the air does them no harm."
        };
        return vec![Verdict::good("Drivers suit their chamber", cause)];
    };
    let cause = format!(
        "{} and {} breathe into the same air: the stronger pumps the weaker.",
        a.part.common.name.text, b.part.common.name.text
    );
    let sides = (evidence.subject.has_unlike_sides() && !split)
        .then(|| Candidate::set("a chamber for each side", "box.chambers", "one per side"));
    vec![
        Verdict::caution("Different drivers share a chamber", cause)
            .advice("give the smaller driver a closed chamber of its own, listed under inside as a block that takes up air")
            .mends(sides),
    ]
}

#[cfg(test)]
mod tests {
    use super::super::probe::{Probe, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    /// Left and right as given.
    fn sides(left: &str, right: &str) -> Probe {
        with(&[
            ("drivers.1.part", left),
            ("drivers.1.side", "left"),
            ("drivers.1.count", "1"),
            ("drivers.2.part", right),
            ("drivers.2.side", "right"),
            ("drivers.2.count", "1"),
        ])
    }

    #[test]
    fn unlike_drivers_want_air_of_their_own() {
        let (a, b) = ("full-range 4 in, 4 ohm", "full-range 3.5 in, 4 ohm");
        let found = sides(a, b).check(CHECK.id, &[Caution]);
        assert_eq!(found[0].mend.as_ref().unwrap().edits[0].key, "box.chambers");
        sides(a, b)
            .with(&[("box.chambers", "one per side")])
            .check(CHECK.id, &[Good]);
        sides(a, a).check(CHECK.id, &[Good]);
    }

    #[test]
    fn a_single_driver_has_nobody_to_quarrel_with() {
        let mono = [("drivers.1.side", "mono"), ("drivers.1.count", "1")];
        check(CHECK.id, &mono, &[]);
    }
}
