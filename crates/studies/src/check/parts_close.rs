//! Parts closer together than they should be.

use super::parts_collide::{is_ours, mends};
use super::timber::{capital, mm, place};
use super::{Check, Evidence, Verdict, things};
use crate::carpentry::{Carpentry, GapLine};

pub(super) const CHECK: Check = Check {
    id: "parts-close",
    title: "Room around parts",
    what: "Whether every part has the room it wants: 3 mm to what it does not stand on, 10 mm of air behind \
the hole in a magnet, 20 mm between amplifier and battery.",
    why: "Parts a hair apart rattle, cannot be gripped, and hand on their warmth, which ages a battery. \
A covered vent in a magnet whistles and lets the coil grow hot.",
    limits: "Distances that are common practice, no source. Parts that are meant to touch, such as a \
battery on the floor and in its cleats, are not counted, and what is bolted to one wall or one plate side \
by side need only not touch. About 5 mm to come out by is held under comes-out.",
    bad: "a driver's magnet 4 mm from the back wall",
    good: "the same driver in a box 10 mm deeper",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let close: Vec<&GapLine> = carpentry
        .gaps
        .iter()
        .filter(|line| is_ours(carpentry, line) && is_close(line))
        .collect();
    if close.is_empty() {
        let any = carpentry.gaps.iter().any(|line| line.wanted > 0.0);
        let cause = "Every part has the room around it that it wants.";
        let good = any.then(|| Verdict::good("Parts have room", cause));
        return good.into_iter().collect();
    }
    close
        .iter()
        .map(|line| {
            let said = verdict(carpentry, line);
            let part = &carpentry.parts[line.part];
            let things = [
                things::key(carpentry, line.part),
                things::near_key(carpentry, line.near),
            ];
            said.at(place(evidence.design(), part))
                .about(things, 1e3 * (line.wanted - line.gap))
                .ladders(mends(evidence, carpentry, &[*line]))
        })
        .collect()
}

/// Touching air is not touching wood: where only air meets, it is close.
fn is_close(line: &GapLine) -> bool {
    let least = if line.air { f64::NEG_INFINITY } else { 0.0 };
    line.gap >= least && line.gap < line.wanted - TOUCHES
}

/// What does not count, in m.
const TOUCHES: f64 = 1e-4;

fn verdict(carpentry: &Carpentry, line: &GapLine) -> Verdict {
    let it = things::name(carpentry, line.part);
    let other = things::near_name(carpentry, line.near);
    let cause = if line.air {
        format!(
            "{} lies {} within the air that must stay free between it and {it}.",
            capital(&other),
            mm(line.wanted - line.gap)
        )
    } else {
        format!(
            "Between {it} and {} there are {}; {} are wanted.",
            other,
            mm(line.gap),
            mm(line.wanted)
        )
    };
    Verdict::caution(format!("{} and {other} are close", capital(&it)), cause)
        .measured(1e3 * line.gap, 1e3 * line.wanted, "mm")
        .advice("move one of the two apart, or make the box larger")
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn a_hair_between_magnet_and_battery_is_too_little() {
        check(CHECK.id, &[], &[Good]);
        let found = with(&[("battery.at", "30 x 60 x 44 mm")]).findings(CHECK.id);
        assert_eq!(found[0].severity, Caution, "{found:#?}");
        assert!(found[0].mend.is_some(), "{found:#?}");
        with(&[("battery.at", "30 x 60 x 60 mm")]).check(CHECK.id, &[Good]);
    }
}
