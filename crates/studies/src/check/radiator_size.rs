//! Displacement of passive radiators against that of the cones.

use super::{Candidate, Check, Evidence, Verdict, swap};
use crate::words::number;

pub(super) const CHECK: Check = Check {
    id: "radiator-size",
    title: "Size of the passive radiators",
    what: "Whether the passive radiators can move at least twice the air of the cones.",
    why: "At its tuning nearly all sound comes from the radiator, so it has to move more air than \
the cone: one as small as the driver reaches its stops first.",
    limits: "Area times travel, both as stated. How far it moves with the brief's programme is a check \
of its own.",
    bad: "a 4 in woofer with 4.5 mm of travel and a 3 in radiator with 5 mm",
    good: "the same woofer with two 4 in radiators with 6.5 mm",
    sources: &["small-1974", "common practice, no source"],
    run,
};

/// Times the displacement of the cones that a radiator should have: common practice, no source.
const TWICE: f64 = 2.0;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let (Some(used), Some(radiator)) = (evidence.radiator(), evidence.build.radiator) else {
        return Vec::new();
    };
    let groups = evidence
        .design()
        .drivers
        .iter()
        .zip(&evidence.build.drivers);
    let cones: f64 = groups
        .map(|(group, driver)| f64::from(group.count) * driver.driver.area * driver.xmax)
        .sum();
    let own = f64::from(radiator.count) * radiator.area * radiator.xmax;
    let ratio = own / cones;
    let cause = format!(
        "The radiators move {} of air to each side of rest, the cones {}: {} times as much, where twice is wanted.",
        number(1e6 * own, "cm³"),
        number(1e6 * cones, "cm³"),
        number(ratio, "")
    );
    if ratio >= TWICE {
        return vec![
            Verdict::good("Passive radiators are large enough", cause).measured(ratio, TWICE, ""),
        ];
    }
    let needed = TWICE * cones / f64::from(used.count);
    let larger = swap::radiators(evidence, |part| part.area.si * part.xmax.si >= needed);
    vec![
        Verdict::caution("Passive radiators are too small", cause)
            .measured(ratio, TWICE, "")
            .advice("take larger radiators, more of them, or ones with more travel")
            .mends(more(evidence))
            .mends(larger),
    ]
}

/// Twice as many, for boxes with room on other sides.
fn more(evidence: &Evidence<'_>) -> Option<Candidate> {
    let used = evidence.radiator()?;
    let count = 2 * used.count;
    let words = format!("{count} radiators instead of {}", used.count);
    Some(Candidate::set(
        words,
        "box.radiator.count",
        count.to_string(),
    ))
}

#[cfg(test)]
mod tests {
    use super::super::probe::{RADIATOR, check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn twice_the_air_of_the_cones() {
        with(RADIATOR).check(CHECK.id, &[Good]);
        check(CHECK.id, &[], &[]);
        let small = with(RADIATOR).with(&[("box.radiator.part", "radiator 3 in")]);
        let found = small.check(CHECK.id, &[Caution]);
        // 34 cm² × 5 mm against two of 57 cm² × 3 mm.
        assert!((found[0].measured.unwrap() - 34.0 * 5.0 / (2.0 * 57.0 * 3.0)).abs() < 1e-9);
        assert!(found[0].mend.is_some());
    }
}
