//! Parts of the control panel against the plate they sit in.

use super::knobs_apart::part;
use super::timber::mm;
use super::{Check, Evidence, Verdict};
use crate::carpentry::{ControlHole, ControlPlan};
use design::Control;
use physics::math::hypot;
use wood::Outline;

pub(super) const CHECK: Check = Check {
    id: "panel-plate",
    title: "Parts and screws of the control panel",
    what: "Whether every part of the control panel lies on its plate, hole, nut and flange, and clear of \
the screws that hold the plate.",
    why: "A hole over the edge is an open notch, and a nut over a screw's head keeps one of the two \
from being turned.",
    limits: "2 mm of plate beside a hole, and screw heads twice as wide as their thread. Nuts and \
flanges as circles as large as the shelf says; knobs may reach over edge and screws, since they \
come off.",
    bad: "a jack at \"58 x 50 mm\" on a plate 60 mm wide",
    good: "the same jack at \"44 x 50 mm\"",
    sources: &["common practice, no source"],
    run,
};

/// Plate left beside a hole, in m: common practice, no source.
const RIM: f64 = 0.002;

/// Head over clearance hole of a screw: twice the thread, which is 0.9 of the hole. Common
/// practice, no source.
const HEAD: f64 = 1.8;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let (Some(control), Some(plan)) = (
        &evidence.design().control,
        evidence.carpentry.and_then(|known| known.control.as_ref()),
    ) else {
        return Vec::new();
    };
    let found: Vec<Verdict> = (0..plan.holes.len())
        .filter_map(|index| {
            over_edge(control, plan, index).or_else(|| on_screw(control, plan, index))
        })
        .collect();
    if found.is_empty() && !plan.holes.is_empty() {
        let cause = "Every part lies on the plate, clear of its edge and its screws.";
        return vec![Verdict::good("Parts lie on their plate", cause)];
    }
    found
}

/// Half of what a hole takes of the plate, across and up, in m.
fn half(hole: &ControlHole) -> [f64; 2] {
    match hole.outline {
        Outline::Circle { diameter } => [diameter / 2.0; 2],
        Outline::Rectangle { width, height, .. } => [width / 2.0, height / 2.0],
    }
}

/// A part of the panel, as edits name it.
fn things(index: usize) -> [String; 2] {
    ["control".into(), format!("control.part.{}", index + 1)]
}

/// Radius of the nut or flange of a part, 0 where none is known.
fn nut(control: &Control, index: usize) -> f64 {
    control.parts[index]
        .part
        .nut
        .map_or(0.0, |nut| nut.si / 2.0)
}

/// Over an edge of the plate, or too near to it.
fn over_edge(control: &Control, plan: &ControlPlan, index: usize) -> Option<Verdict> {
    let hole = &plan.holes[index];
    let half = half(hole);
    let nut = nut(control, index);
    let shift = [0, 1].map(|axis| {
        let wanted = (half[axis] + RIM).max(nut);
        let low = (wanted - hole.at[axis]).max(0.0);
        let high = (hole.at[axis] + wanted - plan.size[axis]).max(0.0);
        low - high
    });
    let by = shift[0].abs().max(shift[1].abs());
    if by < 1e-6 {
        return None;
    }
    let cause = format!(
        "{} needs {} more plate than there is beside it.",
        hole.name,
        mm(by)
    );
    Some(
        Verdict::stop("A part does not lie on the control panel", cause)
            .measured(-1e3 * by, 0.0, "mm")
            .advice("move it inwards, or make the panel larger")
            .about(things(index), 1e3 * by)
            .at(control.parts[index].at[0].place)
            .mends(part(control, index).moved(shift)),
    )
}

/// On one of the screws of the plate.
fn on_screw(control: &Control, plan: &ControlPlan, index: usize) -> Option<Verdict> {
    let hole = &plan.holes[index];
    let half = half(hole);
    let nut = nut(control, index);
    let worst = plan
        .screws
        .iter()
        .map(|(at, diameter)| {
            let off = [0, 1].map(|axis| hole.at[axis] - at[axis]);
            let long = hypot(off[0], off[1]);
            // The hole as it is, the nut as a circle.
            let to_hole = match hole.outline {
                Outline::Circle { .. } => long - half[0],
                Outline::Rectangle { .. } => {
                    let out = [0, 1].map(|axis| (off[axis].abs() - half[axis]).max(0.0));
                    hypot(out[0], out[1])
                }
            };
            let free = to_hole.min(long - nut) - HEAD * diameter / 2.0;
            let way = if long > 1e-9 {
                off.map(|part| part / long)
            } else {
                [0.0, 1.0]
            };
            (free, way)
        })
        .min_by(|a, b| a.0.total_cmp(&b.0))?;
    let (free, way) = worst;
    if free > -1e-6 {
        return None;
    }
    let cause = format!(
        "{} reaches {} over the head of a screw of the panel.",
        hole.name,
        mm(-free)
    );
    Some(
        Verdict::stop("A part sits on a screw of the control panel", cause)
            .measured(1e3 * free, 0.0, "mm")
            .advice("move it away from the corner, or make the panel larger")
            .about(things(index), -1e3 * free)
            .at(control.parts[index].at[0].place)
            .mends(part(control, index).moved(way.map(|part| -free * part))),
    )
}

#[cfg(test)]
mod tests {
    use super::super::probe::{PANEL, check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn parts_lie_on_the_plate_and_off_its_screws() {
        check(CHECK.id, &[], &[]);
        check(CHECK.id, PANEL, &[Good]);
        for (at, said) in [
            ("138 x 35 mm", "more plate"),
            ("160 x 35 mm", "more plate"),
            ("130 x 60 mm", "head of a screw"),
        ] {
            let edge = with(PANEL).with(&[("control.part.3.at", at)]);
            let found = edge.check(CHECK.id, &[Stop]);
            assert!(found[0].cause.contains(said), "{found:#?}");
            assert!(found[0].place.is_some(), "{found:#?}");
        }
    }
}
