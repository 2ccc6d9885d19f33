//! Whether what must be replaced one day comes out again.

use super::timber::{anywhere, capital, mm, place, the};
use super::{Candidate, Check, Evidence, Verdict};
use crate::carpentry::{AccessLine, Carpentry, Near, PartKind, PlacedPart};
use design::{Closing, Design};

pub(super) const CHECK: Check = Check {
    id: "comes-out",
    title: "What comes out again",
    what: "Whether battery and board can be carried out of the closed box through an \
opening that remains: a driver's hole, the hole behind the control panel, a wall that is screwed on.",
    why: "Batteries age and boards fail. What cannot come out through any opening can only be sawn \
out.",
    limits: "A stop where there is no way, a caution for less than 2 mm to spare on it; 5 mm is \
comfortable. Parts of the control panel come off with its plate. The search moves and turns each part's true outline with all \
others in place; it may miss a way that twists more than it tries. Wires are not looked at.",
    bad: "a battery 98 mm wide in a glued box whose largest hole is 93 mm",
    good: "the same box with last_with = \"screws\", or a battery 65 mm thick",
    sources: &["common practice, no source"],
    run,
};

/// Slack on the way out below which it is said, in m.
const SLACK: f64 = 0.002;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let design = evidence.design();
    let verdicts = carpentry.access.iter().filter_map(|line| {
        let part = &carpentry.parts[line.part];
        if in_the_way(carpentry, line.part) {
            return None;
        }
        let said = verdict(part, line)?;
        Some(said.at(place(design, part)).mends(mends(design, part)))
    });
    verdicts.collect()
}

/// Whether a part meets another as it stands: that has to be mended first.
fn in_the_way(carpentry: &Carpentry, index: usize) -> bool {
    carpentry.gaps.iter().any(|line| {
        let own = line.part == index || line.near == Near::Part(index);
        own && !line.air && line.gap < -TOUCHES
    })
}

/// What counts as touching, in m.
const TOUCHES: f64 = 1e-5;

fn verdict(part: &PlacedPart, line: &AccessLine) -> Option<Verdict> {
    if !matches!(part.kind, PartKind::Battery | PartKind::Board) {
        return None;
    }
    let it = the(part);
    let Some(through) = &line.through else {
        let lacks = if line.slack.is_finite() && line.slack < 0.0 {
            format!(
                " At the one it comes closest to, it lacks {}.",
                mm(-line.slack)
            )
        } else {
            String::new()
        };
        let cause =
            format!("Once the box is closed, {it} passes through no opening that remains.{lacks}");
        let title = format!("{} cannot come out again", capital(&it));
        return Some(Verdict::stop(title, cause).advice(
            "screw one wall on instead of gluing it, with a strip of foam to seal it; or make an \
opening larger, or take a smaller part",
        ));
    };
    let cause = format!(
        "{} comes out through {through}, {}, with {} to spare.",
        capital(&it),
        line.how,
        mm(line.slack)
    );
    let numbers = |said: Verdict| said.measured(1e3 * line.slack, 1e3 * SLACK, "mm");
    if line.slack < SLACK {
        let title = format!("{} comes out with hardly any room", capital(&it));
        let advice = "make the opening larger by a few millimetres, or try it before gluing";
        return Some(numbers(Verdict::caution(title, cause).advice(advice)));
    }
    let title = format!("{} comes out again", capital(&it));
    Some(numbers(Verdict::good(title, cause)))
}

/// The last wall screwed on, or a place nearer to the opening.
fn mends(design: &Design, part: &PlacedPart) -> Vec<Candidate> {
    let glued = design.enclosure.carpentry.last_with.value == Closing::Glue;
    let screwed = glued.then(|| {
        Candidate::set(
            "last wall screwed on instead of glued",
            "box.last_with",
            "screws",
        )
    });
    screwed.into_iter().chain(anywhere(design, part)).collect()
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_glued_box_keeps_what_is_larger_than_its_holes() {
        check(CHECK.id, &[], &[Good, Good]);
        let found = with(&[("box.last_with", "glue")]).findings(CHECK.id);
        assert_eq!(found[0].severity, Stop, "{found:#?}");
        let mend = found[0].mend.as_ref().unwrap();
        assert_eq!(mend.edits[0].key, "box.last_with");
    }
}
