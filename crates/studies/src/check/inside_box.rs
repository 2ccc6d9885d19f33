//! Parts that reach out of the box.

use super::timber::{anywhere, capital, larger_along, longest, mm, moved, place, placement, the};
use super::{Check, Evidence, Verdict};
use crate::carpentry::{Carpentry, GapLine, Near};
use crate::words::wall;
use wood::vector::{add, scale};

pub(super) const CHECK: Check = Check {
    id: "inside-box",
    title: "Parts inside the box",
    what: "Whether every part whose place is stated lies between the inner faces of the walls.",
    why: "A place measured from the outer edge, or a box made smaller afterwards, puts a part into \
the wood.",
    limits: "Parts that sit in a hole of a wall are looked at elsewhere. A part may touch a wall.",
    bad: "at = \"200 x 10 x 10 mm\" for a battery 151 mm wide in a box 340 mm wide inside",
    good: "the same battery at = \"150 x 10 x 10 mm\"",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let design = evidence.design();
    let stated = |index: usize| {
        let part = &carpentry.parts[index];
        part.part.sits_in.is_none()
            && placement(design, &part.table).is_some_and(|said| said.at.is_some())
    };
    let mut indices = 0..carpentry.parts.len();
    let wrong: Vec<Verdict> = indices
        .clone()
        .filter(|index| stated(*index))
        .filter_map(|index| outside(evidence, carpentry, index))
        .collect();
    if wrong.is_empty() && indices.any(stated) {
        let cause = "Every part whose place is stated lies between the walls.";
        return vec![Verdict::good("Parts are inside the box", cause)];
    }
    wrong
}

fn outside(evidence: &Evidence<'_>, carpentry: &Carpentry, index: usize) -> Option<Verdict> {
    let beyond: Vec<(&GapLine, wood::Wall)> = carpentry
        .gaps
        .iter()
        .filter(|line| line.part == index && line.gap < 0.0)
        .filter_map(|line| match line.near {
            Near::Outside(wall) => Some((line, wall)),
            Near::Part(_) | Near::Panel(_) => None,
        })
        .collect();
    let (worst, side) = beyond.iter().min_by(|a, b| a.0.gap.total_cmp(&b.0.gap))?;
    let (design, part) = (evidence.design(), &carpentry.parts[index]);
    let (it, side, by) = (the(part), wall(*side), -worst.gap);
    let cause = format!(
        "{} reaches {} beyond the inner face of the {side}.",
        capital(&it),
        mm(by)
    );
    let back = beyond.iter().fold([0.0; 3], |sum, (line, _)| {
        add(sum, scale(line.away, -line.gap))
    });
    Some(
        Verdict::stop(format!("{} reaches into the wall", capital(&it)), cause)
            .measured(-1e3 * by, 0.0, "mm")
            .advice(format!("move it {} away from the {side}", mm(by)))
            .at(place(design, part))
            .mends(moved(design, part, back))
            .mends(anywhere(design, part))
            .ladder(larger_along(evidence, longest(worst.away), by)),
    )
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_part_that_reaches_into_the_wall_is_moved_back() {
        check(CHECK.id, &[], &[]);
        with(&[("battery.at", "100 x 0 x 80 mm")]).check(CHECK.id, &[Good]);
        // 300 mm and 151 mm of battery in 376.2 mm.
        let found = with(&[("battery.at", "300 x 0 x 80 mm")]).check(CHECK.id, &[Stop]);
        assert!(
            (found[0].measured.unwrap() + 74.8).abs() < 0.01,
            "{found:#?}"
        );
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].key, "battery.at");
    }
}
