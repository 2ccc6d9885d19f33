//! The grille frame against drivers, the control panel, the handle and the ring.

use super::{Candidate, Check, Evidence, Verdict};
use super::{things, timber::mm};
use crate::carpentry::{Hull, Opening, extent};
use crate::subject::SpotKind;
use crate::vary::Draw;
use design::{Design, Grille};
use wood::{FRAME_THICKNESS, Wall};

pub(super) const CHECK: Check = Check {
    id: "grille-clear",
    title: "The grille frame",
    what: "Whether the grille covers the cones on the front, leaves their frames and their travel free, and \
keeps off the control panel, the handle and the ring around a front that is set back.",
    why: "A strip over a cone is heard, cloth that a cone hits buzzes, and a frame that rests on a \
driver's frame never lies flat.",
    limits: "Strips along the four edges of the front, drivers as circles. The cloth lies over the strips \
and is taken as flat; a cone has 2 mm beyond its stated travel. Bars across the middle are not \
known.",
    bad: "strip = \"40 mm\" before a driver whose hole lies 30 mm from the edge",
    good: "strip = \"18 mm\", gap = \"4 mm\" before the same driver",
    sources: &["common practice, no source"],
    run,
};

/// Air before a cone at the end of its travel, in m.
const AIR: f64 = 0.002;

/// Narrowest strip that still holds together, in m.
const NARROW: f64 = 0.008;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let design = evidence.design();
    let Some(said) = &design.grille else {
        return Vec::new();
    };
    let plan = &evidence.subject.enclosure.plan;
    let hull = plan.hull(&Draw::Nominal);
    let frame = Frame::of(said, extent(&hull.block, Wall::Front));
    if frame.inner.iter().any(|[low, high]| high <= low) {
        let cause = "Strips and gaps together are wider than the front.";
        return vec![
            Verdict::stop("The grille frame has no opening", cause)
                .advice("make the strips narrower, or leave the grille out")
                .at(said.place),
        ];
    }
    let on_front = plan.openings.iter().filter(|of| of.wall == Wall::Front);
    let mut found: Vec<Verdict> = on_front
        .filter(|opening| opening.kind != SpotKind::Vent)
        .filter_map(|opening| over(design, said, &frame, opening))
        .collect();
    found.extend(ring(said, &hull));
    found.extend(panel(design, said, &frame));
    found.extend(
        plan.handle_at()
            .and_then(|at| handle(design, said, &frame, at)),
    );
    if found.is_empty() {
        let cause = "It covers every cone, and its strips keep off drivers, panel and handle.";
        found.push(Verdict::good("The grille frame lies free", cause));
    }
    found
}

/// The frame on the front: from and to across and up, in m.
struct Frame {
    outer: [[f64; 2]; 2],
    inner: [[f64; 2]; 2],
}

impl Frame {
    fn of(said: &Grille, size: [f64; 2]) -> Self {
        let within = |off: f64| size.map(|side| [off, side - off]);
        Self {
            outer: within(said.gap.si),
            inner: within(said.gap.si + said.strip.si),
        }
    }
}

/// How far a circle reaches out of a rectangle, in m.
fn out_of(rectangle: &[[f64; 2]; 2], at: [f64; 2], radius: f64) -> f64 {
    let out = |axis: usize| {
        let [low, high] = rectangle[axis];
        (low - at[axis]).max(at[axis] - high) + radius
    };
    out(0).max(out(1))
}

fn stop(said: &Grille, other: &str, title: &str, cause: String, by: f64) -> Verdict {
    Verdict::stop(title, cause)
        .about(["grille", other], 1e3 * by)
        .measured(-1e3 * by, 0.0, "mm")
        .advice("make the strips narrower, or let the frame lie further out")
        .at(said.place)
}

/// Narrower strips, else a smaller gap, so that the opening grows by so much all around.
fn wider(said: &Grille, by: f64) -> Vec<Candidate> {
    let set = |key: &str, word: &str, now: f64, least: f64| {
        let to = (1e3 * (now - by) + 1e-6).floor();
        let words = format!("{word} of the grille {} → {to} mm", mm(now));
        let key = format!("grille.{key}");
        (to >= 1e3 * least).then(|| Candidate::set(words, &key, format!("{to} mm")))
    };
    let strip = set("strip", "strips", said.strip.si, NARROW);
    let gap = set("gap", "gap", said.gap.si, 0.0);
    strip.into_iter().chain(gap).collect()
}

/// What is wrong between the frame and one driver.
fn over(design: &Design, said: &Grille, frame: &Frame, opening: &Opening) -> Option<Verdict> {
    let (name, table, flush, thick, travel) = match opening.kind {
        SpotKind::Driver(group) => {
            let used = &design.drivers[group];
            let thick = used.part.frame_thickness.map_or(FRAME_THICKNESS, |t| t.si);
            let travel = used.part.xmax.map(|travel| travel.si);
            let table = format!("drivers.{}", group + 1);
            let name = &used.part.common.name.text;
            (name, table, used.flush.value, thick, travel)
        }
        SpotKind::Radiator => {
            let design::EnclosureKind::PassiveRadiator(used) = &design.enclosure.kind else {
                return None;
            };
            let travel = Some(used.part.xmax.si);
            let name = &used.part.common.name.text;
            (name, "box.radiator".into(), false, FRAME_THICKNESS, travel)
        }
        SpotKind::Vent => return None,
    };
    let thing = things::middle_key(&table, opening.index);
    let uncovered = out_of(&frame.outer, opening.at, opening.cutout / 2.0);
    if uncovered > 1e-6 {
        let cause = format!(
            "The cone of {name} reaches {} out of the frame.",
            mm(uncovered)
        );
        let covered = stop(
            said,
            &thing,
            "The grille does not cover a cone",
            cause,
            uncovered,
        );
        let to = (1e3 * (said.gap.si - uncovered - said.strip.si) + 1e-6).floor();
        let words = format!("gap of the grille {} → {to} mm", mm(said.gap.si));
        let further = Candidate::set(words, "grille.gap", format!("{to} mm"));
        return Some(covered.mends((to >= 0.0).then_some(further)));
    }
    // A frame that is not let in stands in the way, one that is only by its cone.
    let reach = if flush {
        opening.cutout
    } else {
        opening.diameter
    } / 2.0;
    let by = out_of(&frame.inner, opening.at, reach);
    if by > 1e-6 {
        let part = if flush { "cone" } else { "frame" };
        let cause = format!(
            "A strip of the grille lies {} over the {part} of {name}.",
            mm(by)
        );
        return Some(
            stop(said, &thing, "The grille frame lies on a driver", cause, by)
                .mends(wider(said, by)),
        );
    }
    let proud = if flush { 0.0 } else { thick };
    let wanted = proud.max(travel? + AIR);
    let short = wanted - said.thickness.si;
    (short > 1e-6).then(|| {
        let cause = format!(
            "The cloth lies {} before the front; {name} wants {} for its frame and its travel.",
            mm(said.thickness.si),
            mm(wanted)
        );
        let to = (1e3 * wanted - 1e-6).ceil();
        let words = format!("grille {} → {to} mm thick", mm(said.thickness.si));
        Verdict::stop("A cone would hit the cloth", cause)
            .about(["grille", thing.as_str()], 1e3 * short)
            .measured(1e3 * said.thickness.si, 1e3 * wanted, "mm")
            .advice("take thicker strips, or let the driver in")
            .at(said.place)
            .mends([Candidate::set(
                words,
                "grille.thickness",
                format!("{to} mm"),
            )])
    })
}

/// The ring that stands out around a front that is set back.
fn ring(said: &Grille, hull: &Hull) -> Option<Verdict> {
    let set_back = hull.walls[Wall::Front.index()].setback > 1e-6;
    let around = [Wall::Left, Wall::Right, Wall::Top, Wall::Bottom];
    let thickest = around.map(|wall| hull.walls[wall.index()].thickness);
    let thickest = thickest.into_iter().fold(0.0, f64::max);
    let by = thickest - said.gap.si;
    (set_back && by > 1e-6).then(|| {
        let cause = format!(
            "The frame lies {} over the ring, which stands out around the front.",
            mm(by)
        );
        let to = (1e3 * thickest + 1.0 - 1e-6).ceil();
        let words = format!("gap of the grille {} → {to} mm", mm(said.gap.si));
        stop(
            said,
            "box",
            "The grille frame does not go into the ring",
            cause,
            by,
        )
        .mends([Candidate::set(words, "grille.gap", format!("{to} mm"))])
    })
}

/// A control panel in the front, which the frame must leave free.
fn panel(design: &Design, said: &Grille, frame: &Frame) -> Option<Verdict> {
    let control = design.control.as_ref()?;
    let at = [control.at.across.si, control.at.up.si];
    let half = [control.size[0].si / 2.0, control.size[1].si / 2.0];
    let is_front = control.on.value == design::Wall::Front;
    let by = (0..2)
        .map(|axis| {
            let [low, high] = frame.outer[axis];
            (high - (at[axis] - half[axis])).min(at[axis] + half[axis] - low)
        })
        .fold(f64::INFINITY, f64::min);
    (is_front && by > 1e-6).then(|| {
        let cause = format!("It covers {} of the control panel.", mm(by));
        stop(
            said,
            "control",
            "The grille covers the control panel",
            cause,
            by,
        )
    })
}

/// A handle on the front.
fn handle(design: &Design, said: &Grille, frame: &Frame, at: [f64; 2]) -> Option<Verdict> {
    let handle = design.handle.as_ref()?;
    let half = handle.spacing.si / 2.0;
    let on = |x: f64| {
        let inside = |axis: usize, place: f64| {
            let [low, high] = frame.outer[axis];
            (place - low).min(high - place)
        };
        inside(0, x).min(inside(1, at[1]))
    };
    let by = on(at[0] - half).max(on(at[0] + half));
    (handle.on.value == design::Wall::Front && by > 1e-6).then(|| {
        let cause = format!("A bolt of the handle lies {} within the frame.", mm(by));
        stop(
            said,
            "handle",
            "The grille is in the way of the handle",
            cause,
            by,
        )
    })
}

#[cfg(test)]
mod tests {
    use super::super::probe::{Probe, check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    fn grille(strip: &str, thickness: &str, gap: &str) -> Probe {
        with(&[
            ("grille.strip", strip),
            ("grille.thickness", thickness),
            ("grille.gap", gap),
            ("drivers.1.at.1", "110 x 120 mm"),
            ("drivers.1.at.2", "290 x 120 mm"),
        ])
    }

    #[test]
    fn strips_keep_off_cones_and_cloth_off_their_travel() {
        check(CHECK.id, &[], &[]);
        grille("15 mm", "12 mm", "4 mm").check(CHECK.id, &[Good]);
        let found = grille("70 mm", "12 mm", "4 mm").check(CHECK.id, &[Stop, Stop]);
        assert!(found[0].cause.contains("A strip"), "{found:#?}");
        assert!(found[0].place.is_some(), "{found:#?}");
        let found = grille("15 mm", "2 mm", "4 mm").check(CHECK.id, &[Stop, Stop]);
        assert!(found[0].cause.contains("cloth"), "{found:#?}");
        let found = grille("10 mm", "12 mm", "90 mm").check(CHECK.id, &[Stop, Stop]);
        assert!(found[0].cause.contains("out of the frame"), "{found:#?}");
        grille("60 mm", "12 mm", "80 mm").check(CHECK.id, &[Stop]);
    }

    #[test]
    fn a_frame_goes_into_a_ring_that_stands_out() {
        let ring = |gap| {
            grille("10 mm", "12 mm", gap).with(&[("box.front", "inset"), ("box.setback", "14 mm")])
        };
        ring("13 mm").check(CHECK.id, &[Good]);
        let found = ring("5 mm").check(CHECK.id, &[Stop]);
        assert!(found[0].mend.is_some(), "{found:#?}");
    }

    #[test]
    fn a_panel_or_handle_in_the_front_stays_free() {
        let handle = grille("15 mm", "12 mm", "4 mm").with(&[
            ("handle.on", "front"),
            ("handle.at", "200 x 200 mm"),
            ("handle.spacing", "60 mm"),
            ("handle.bolt", "5 mm"),
        ]);
        let found = handle.check(CHECK.id, &[Stop]);
        assert!(found[0].cause.contains("handle"), "{found:#?}");
    }
}
