//! Knobs and levers in a recess: whether fingers reach them, and whether they stand proud.

use super::knobs_apart::part;
use super::timber::{capital, listed, mm};
use super::{Candidate, Check, Evidence, Verdict};
use crate::carpentry::{front, knob_height};
use crate::vary::Draw;
use design::{Control, ControlKind, ControlUse};

pub(super) const CHECK: Check = Check {
    id: "knobs-reached",
    title: "Knobs in a recess",
    what: "Whether fingers reach the knobs and levers of a panel that lies below its wall, and which \
of them stand out of the recess.",
    why: "A recess shields knobs from knocks. One too narrow shields them from fingers as well.",
    limits: "A caution where a knob stands out by less than 8 mm and has not 12 mm free on two opposite \
sides of it. What stands beside it on the panel is told under knobs-apart. Potentiometers and \
switches with a knob, or a stated knob_height, are looked at.",
    bad: "a knob of 20 mm, 15 mm high, in a recess 12 mm deep and 30 mm wide",
    good: "the same knob in a recess 44 mm wide, or 6 mm deep",
    sources: &["common practice, no source"],
    run,
};

/// Free width for a fingertip on either side of a knob, in m: common practice, no source.
const BESIDE: f64 = 0.012;

/// Height of a knob that can be gripped from above, in m: common practice, no source.
const GRIP: f64 = 0.008;

/// Steps below this do not count, in m.
const SLIGHT: f64 = 1e-6;

/// The recess around a panel.
struct Recess {
    /// How far the plate lies below the face of the wall, in m.
    depth: f64,
    /// Margin between the edges of the plate and of the opening before it, in m.
    margin: f64,
}

/// One knob in it.
struct Knob<'a> {
    index: usize,
    used: &'a ControlUse,
    /// How far it stands out of the recess, in m; negative where it lies below the wall.
    proud: f64,
    /// The less of what is free left and right, and below and above, in m.
    free: [f64; 2],
}

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some((control, recess)) = evidence.design().control.as_ref().zip(recess(evidence)) else {
        return Vec::new();
    };
    let all = control.parts.iter().enumerate();
    let knobs: Vec<Knob<'_>> = all
        .filter_map(|(index, used)| knob(control, &recess, index, used))
        .collect();
    if knobs.is_empty() {
        return Vec::new();
    }
    let wrong: Vec<Verdict> = knobs
        .iter()
        .filter(|knob| !is_reached(knob))
        .map(|knob| verdict(control, &recess, knob))
        .collect();
    if wrong.is_empty() {
        vec![good(&knobs)]
    } else {
        wrong
    }
}

fn recess(evidence: &Evidence<'_>) -> Option<Recess> {
    let plan = &evidence.subject.enclosure.plan;
    let thick = plan.sheets.at(&Draw::Nominal);
    let hull = plan.hull(&Draw::Nominal);
    let seat = plan.seat(&hull, &thick)?;
    let depth = seat.below - hull.walls[seat.wall.index()].setback;
    (depth > SLIGHT).then_some(Recess {
        depth,
        margin: if seat.in_pocket { 0.0 } else { seat.ledge },
    })
}

fn knob<'a>(
    control: &Control,
    recess: &Recess,
    index: usize,
    used: &'a ControlUse,
) -> Option<Knob<'a>> {
    let kind = used.part.kind.value;
    if !matches!(kind, ControlKind::Potentiometer | ControlKind::Switch) {
        return None;
    }
    let height = knob_height(&used.part)?;
    let radius = front(&used.part) / 2.0;
    let free = [0, 1].map(|axis| {
        let at = used.at[axis].si;
        let near = at - recess.margin;
        let far = control.size[axis].si - recess.margin - at;
        near.min(far) - radius
    });
    Some(Knob {
        index,
        used,
        proud: height - recess.depth,
        free,
    })
}

fn is_reached(knob: &Knob<'_>) -> bool {
    let wide = knob.free[0].max(knob.free[1]) >= BESIDE - SLIGHT;
    knob.proud >= GRIP - SLIGHT || wide
}

/// "stands 3 mm out of the recess", "lies 2 mm below the wall".
fn stands(knob: &Knob<'_>) -> String {
    if knob.proud > 0.0 {
        format!("stands {} out of the recess", mm(knob.proud))
    } else {
        format!("lies {} below the wall", mm(-knob.proud))
    }
}

fn name(knob: &Knob<'_>) -> String {
    format!("the {}", knob.used.part.common.name.text)
}

fn good(knobs: &[Knob<'_>]) -> Verdict {
    let each = knobs
        .iter()
        .map(|knob| format!("{} {}", name(knob), stands(knob)));
    let cause = format!("{}.", capital(&listed(&each.collect::<Vec<_>>())));
    Verdict::good("Fingers reach the knobs in their recess", cause)
}

fn verdict(control: &Control, recess: &Recess, knob: &Knob<'_>) -> Verdict {
    let free = knob.free[0].max(knob.free[1]);
    let cause = format!(
        "{} {} and has {} free beside it; fingertips want {} on two sides, or {} to grip.",
        capital(&name(knob)),
        stands(knob),
        mm(free.max(0.0)),
        mm(BESIDE),
        mm(GRIP)
    );
    let title = format!("Fingers do not reach {}", name(knob));
    Verdict::caution(title, cause)
        .measured(1e3 * free, 1e3 * BESIDE, "mm")
        .advice("move it away from the edge, make the panel wider, or the recess shallower")
        .at(knob.used.at[0].place)
        .about(
            [format!("control.part.{}", knob.index + 1)],
            1e3 * (BESIDE - free),
        )
        .mends(inwards(control, recess, knob))
        .mends(shallower(control, recess, knob))
}

/// Moved towards the middle of the panel, across or up.
fn inwards(control: &Control, recess: &Recess, knob: &Knob<'_>) -> Vec<Candidate> {
    let moved = |axis: usize| {
        let at = knob.used.at[axis].si;
        let low = at - recess.margin < control.size[axis].si - recess.margin - at;
        let by = BESIDE - knob.free[axis];
        let mut shift = [0.0; 2];
        shift[axis] = if low { by } else { -by };
        part(control, knob.index).moved(shift)
    };
    [0, 1].into_iter().flat_map(moved).collect()
}

/// A recess so shallow that the knob can be gripped from above.
fn shallower(control: &Control, recess: &Recess, knob: &Knob<'_>) -> Option<Candidate> {
    let now = control.recess?.si;
    let to = (1e3 * (recess.depth + knob.proud - GRIP)).floor();
    (to >= 0.0 && to < 1e3 * now - 0.5).then(|| {
        let words = format!("recess of the panel {} → {to:.0} mm", mm(now));
        Candidate::set(words, "control.recess", format!("{to:.0} mm"))
    })
}

#[cfg(test)]
mod tests {
    use super::super::probe::{PANEL, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    #[test]
    fn a_narrow_recess_keeps_fingers_out() {
        with(PANEL).check(CHECK.id, &[]);
        // The panel lies behind the wall of 12 mm, its knob 15 mm high.
        let deep = with(PANEL).with(&[("control.recess", "12 mm"), ("control.ledge", "8 mm")]);
        let found = deep.check(CHECK.id, &[Good]);
        assert!(found[0].cause.contains("out of the recess"), "{found:#?}");
        // 20 mm from both edges: 8 mm of ledge and 10 mm of knob leave 2 mm.
        let edge = deep.with(&[("control.part.1.at", "20 x 20 mm")]);
        let found = edge.check(CHECK.id, &[Caution]);
        assert!(
            (found[0].measured.unwrap() - 2.0).abs() < 0.01,
            "{found:#?}"
        );
        assert!(found[0].mend.is_some(), "{found:#?}");
        let tall = "[[control]]\nname = \"rotary potentiometer, M7\"\nknob_height = \"24 mm\"\n";
        edge.shelf(tall).check(CHECK.id, &[Good]);
    }
}
