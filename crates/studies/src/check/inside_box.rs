//! Parts that reach out of the box.

use super::outgrown::{Kind, Outgrown};
use super::timber::{anywhere, capital, grown, listed, mm, moved, place, placement};
use super::{Candidate, Check, Evidence, Verdict, movers, swap, things};
use crate::carpentry::{Carpentry, GapLine, Near};
use wood::Wall;
use wood::vector::{Vector, add, scale};

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
    let mut indices = 0..carpentry.parts.len();
    let stated = |index: usize| is_stated(evidence, carpentry, index);
    let wrong = all(evidence, carpentry);
    if !wrong.is_empty() {
        return vec![verdict(evidence, carpentry, &wrong)];
    }
    if indices.any(stated) {
        let cause = "Every part whose place is stated lies between the walls.";
        return vec![Verdict::good("Parts are inside the box", cause)];
    }
    Vec::new()
}

/// Whether the design states where a part stands in the box.
fn is_stated(evidence: &Evidence<'_>, carpentry: &Carpentry, index: usize) -> bool {
    let part = &carpentry.parts[index];
    part.part.sits_in.is_none()
        && placement(evidence.design(), &part.table).is_some_and(|said| said.at.is_some())
}

fn all<'a>(evidence: &Evidence<'_>, carpentry: &'a Carpentry) -> Vec<Outside<'a>> {
    (0..carpentry.parts.len())
        .filter(|index| is_stated(evidence, carpentry, *index))
        .filter_map(|index| outside(carpentry, index))
        .collect()
}

/// Parts for whose places the box is too small.
pub(super) fn outgrown(evidence: &Evidence<'_>, carpentry: &Carpentry) -> Vec<Outgrown> {
    let one = |out: &Outside<'_>| Outgrown {
        kind: Kind::Part,
        thing: things::key(carpentry, out.index),
        name: things::name(carpentry, out.index),
        missing: out.back.map(|part| (-part).max(0.0)),
    };
    all(evidence, carpentry).iter().map(one).collect()
}

/// A part that reaches out of the box.
struct Outside<'a> {
    index: usize,
    /// Beyond which walls, the furthest first.
    beyond: Vec<(&'a GapLine, Wall)>,
    /// How it is to be moved, in m.
    back: Vector,
}

fn outside(carpentry: &Carpentry, index: usize) -> Option<Outside<'_>> {
    let mut beyond: Vec<(&GapLine, Wall)> = carpentry
        .gaps
        .iter()
        .filter(|line| line.part == index && line.gap < 0.0)
        .filter_map(|line| match line.near {
            Near::Outside(wall) => Some((line, wall)),
            Near::Part(_) | Near::Panel(_) => None,
        })
        .collect();
    beyond.sort_by(|a, b| a.0.gap.total_cmp(&b.0.gap));
    let back = beyond.iter().fold([0.0; 3], |sum, (line, _)| {
        add(sum, scale(line.away, -line.gap))
    });
    (!beyond.is_empty()).then_some(Outside {
        index,
        beyond,
        back,
    })
}

impl Outside<'_> {
    /// How far it reaches beyond each wall, in words.
    fn said(&self) -> String {
        let clauses = self.beyond.iter().map(|(line, wall)| {
            let face = things::wall_name(*wall);
            format!("{} beyond the inner face of {face}", mm(-line.gap))
        });
        listed(&clauses.collect::<Vec<_>>())
    }

    fn furthest(&self) -> f64 {
        -self.beyond[0].0.gap
    }
}

fn verdict(evidence: &Evidence<'_>, carpentry: &Carpentry, wrong: &[Outside<'_>]) -> Verdict {
    let design = evidence.design();
    let name = |out: &Outside<'_>| things::name(carpentry, out.index);
    let names: Vec<String> = wrong.iter().map(name).collect();
    let clauses = wrong.iter().map(|out| {
        let (it, by) = (name(out), out.said());
        format!("{it} reaches {by}")
    });
    let cause = capital(&clauses.collect::<Vec<_>>().join("; "));
    let furthest = wrong.iter().map(Outside::furthest).fold(0.0, f64::max);
    let title = format!(
        "{} {} into the wall",
        capital(&listed(&names)),
        if wrong.len() == 1 { "reaches" } else { "reach" }
    );
    let part = |out: &Outside<'_>| &carpentry.parts[out.index];
    let said = Verdict::stop(title, format!("{cause}."))
        .measured(-1e3 * furthest, 0.0, "mm")
        .advice("move it inwards, or make the box larger")
        .at(place(design, part(&wrong[0])));
    let said = wrong.iter().fold(said, |said, out| {
        said.about([things::key(carpentry, out.index)], 1e3 * out.furthest())
    });
    let inwards: Option<Vec<Candidate>> = wrong
        .iter()
        .map(|out| moved(design, part(out), out.back))
        .collect();
    let open: Option<Vec<Candidate>> = wrong
        .iter()
        .map(|out| anywhere(design, part(out)))
        .collect();
    let both = [inwards, open].into_iter().flatten();
    said.mends(both.filter_map(swap::all))
        .ladders(movers::easing(evidence))
        .ladder(larger(evidence, wrong))
}

/// The box larger by what is missing in every direction, then by more.
fn larger(evidence: &Evidence<'_>, wrong: &[Outside<'_>]) -> Vec<Candidate> {
    let mut missing = [0.0_f64; 3];
    for out in wrong {
        for (axis, most) in missing.iter_mut().enumerate() {
            *most = most.max(out.back[axis].abs());
        }
    }
    grown(evidence, missing)
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
