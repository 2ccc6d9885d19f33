//! The grille frame against drivers, the control panel, the handle and the ring.

use super::things;
use super::timber::{listed, mm};
use super::{Candidate, Check, Evidence, Verdict};
use crate::carpentry::{Carpentry, Hull, Opening, TUBE_WALL, extent};
use crate::subject::SpotKind;
use crate::vary::Draw;
use design::{Design, Grille};
use wood::{FRAME_THICKNESS, Wall};

pub(super) const CHECK: Check = Check {
    id: "grille-clear",
    title: "The grille frame",
    what: "Whether the grille covers the cones on the front, leaves their frames and their travel and the \
mouths of vents free, and keeps off the control panel, the handle and the ring around a front that is set back.",
    why: "A strip over a cone is heard, cloth that a cone hits buzzes, and a frame that rests on a \
driver's frame never lies flat.",
    limits: "Strips along the four edges of the front, drivers as circles. The cloth lies over the strips \
and is taken as flat; a cone has 2 mm beyond its stated travel; where no travel is \
stated, only the frame counts. Bars across the middle are not known.",
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
    let all = plan.openings.iter();
    let on_front: Vec<&Opening> = all.filter(|of| of.wall == Wall::Front).collect();
    let mut alike: Vec<Vec<Clash>> = Vec::new();
    for opening in &on_front {
        let clash = behind(design, opening).and_then(|behind| over(said, &frame, opening, behind));
        let Some(clash) = clash else { continue };
        match alike.iter_mut().find(|known| known[0].is_like(&clash)) {
            Some(known) => known.push(clash),
            None => alike.push(vec![clash]),
        }
    }
    let mut found: Vec<Verdict> = alike
        .iter()
        .map(|alike| told(evidence.carpentry, said, alike))
        .collect();
    found.extend(ring(said, &hull));
    found.extend(panel(design, said, &frame));
    found.extend(
        plan.handle_at()
            .and_then(|at| handle(design, said, &frame, at)),
    );
    if found.is_empty() {
        let cause = "It covers every cone, and its strips keep off drivers, panel and handle.";
        let untold = untold(design, &on_front);
        let cause = if untold.is_empty() {
            cause.into()
        } else {
            format!(
                "{cause} How far the cone of {} travels is not known: push it in and out by hand \
before the cloth is on.",
                listed(&untold)
            )
        };
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

fn stop(said: &Grille, title: &str, cause: String, by: f64) -> Verdict {
    Verdict::stop(title, cause)
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

/// What the frame may do to something behind it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Wrong {
    /// It does not cover a cone.
    Uncovered,
    /// A strip lies over the frame of a driver, its cone, or the mouth of a vent.
    Strip(&'static str),
    /// The cloth is too near.
    Cloth,
}

/// Something behind the frame that it is in the way of.
struct Clash {
    wrong: Wrong,
    /// What its kind is called.
    label: String,
    /// Its table, and which of its kind it is.
    table: String,
    index: usize,
    /// By how much, in m.
    by: f64,
    /// Whether nobody knows how far it travels.
    untold: bool,
}

impl Clash {
    /// Whether the same is wrong with two equal parts: left and right are one finding.
    fn is_like(&self, other: &Self) -> bool {
        let same = |of: &Self| (of.wrong, of.label.clone(), mm(of.by));
        same(self) == same(other)
    }
}

/// A driver, a radiator or a vent behind the frame.
struct Behind {
    label: String,
    table: String,
    flush: bool,
    thick: f64,
    /// Radius of its cone or mouth in m.
    mouth: f64,
    /// How far its cone travels, in m; a vent has none.
    travel: Option<f64>,
}

fn behind(design: &Design, opening: &Opening) -> Option<Behind> {
    let part = |label: &str, table: &str, travel| Behind {
        label: label.into(),
        table: table.into(),
        flush: false,
        thick: FRAME_THICKNESS,
        mouth: opening.cutout / 2.0,
        travel,
    };
    Some(match opening.kind {
        SpotKind::Driver(group) => {
            let used = &design.drivers[group];
            let travel = used.part.xmax.map(|travel| travel.si);
            let table = format!("drivers.{}", group + 1);
            Behind {
                flush: used.flush.value,
                thick: used.part.frame_thickness.map_or(FRAME_THICKNESS, |t| t.si),
                ..part(&used.part.common.name.text, &table, travel)
            }
        }
        SpotKind::Radiator => {
            let design::EnclosureKind::PassiveRadiator(used) = &design.enclosure.kind else {
                return None;
            };
            let travel = Some(used.part.xmax.si);
            part(&used.part.common.name.text, "box.radiator", travel)
        }
        SpotKind::Vent => Behind {
            mouth: opening.cutout / 2.0 - TUBE_WALL,
            ..part("vent", "box.vent", None)
        },
    })
}

/// What is wrong between the frame and one opening in the front.
fn over(said: &Grille, frame: &Frame, opening: &Opening, behind: Behind) -> Option<Clash> {
    let is_vent = opening.kind == SpotKind::Vent;
    let untold = behind.travel.is_none() && !is_vent;
    let clash = |wrong: Wrong, by: f64| Clash {
        wrong,
        label: behind.label.clone(),
        table: behind.table.clone(),
        index: opening.index,
        by,
        untold,
    };
    let mouth = behind.mouth;
    if is_vent {
        // Beside the frame it blows freely.
        let beside = -out_of(&frame.outer, opening.at, -mouth);
        let by = out_of(&frame.inner, opening.at, mouth).min(beside);
        return (by > 1e-6).then(|| clash(Wrong::Strip("mouth"), by));
    }
    let uncovered = out_of(&frame.outer, opening.at, mouth);
    if uncovered > 1e-6 {
        return Some(clash(Wrong::Uncovered, uncovered));
    }
    // A frame that is not let in stands in the way, one that is only by its cone.
    let (reach, part) = if behind.flush {
        (mouth, "cone")
    } else {
        (opening.diameter / 2.0, "frame")
    };
    let by = out_of(&frame.inner, opening.at, reach);
    if by > 1e-6 {
        return Some(clash(Wrong::Strip(part), by));
    }
    let proud = if behind.flush { 0.0 } else { behind.thick };
    let wanted = proud.max(behind.travel.unwrap_or(0.0) + AIR);
    let short = wanted - said.thickness.si;
    (short > 1e-6).then(|| clash(Wrong::Cloth, short))
}

/// Some equal parts with which the same is wrong.
fn told(carpentry: Option<&Carpentry>, said: &Grille, alike: &[Clash]) -> Verdict {
    let first = &alike[0];
    let by = first.by;
    let name = carpentry.map_or_else(
        || first.label.clone(),
        |carpentry| {
            let parts = alike
                .iter()
                .filter_map(|one| things::part_of(carpentry, &one.table, one.index));
            things::names(carpentry, &parts.collect::<Vec<_>>())
        },
    );
    let plural = if alike.len() > 1 { "s" } else { "" };
    let verdict = match first.wrong {
        Wrong::Uncovered => {
            let reach = if alike.len() > 1 { "reach" } else { "reaches" };
            let cause = format!(
                "The cone{plural} of {name} {reach} {} out of the frame.",
                mm(by)
            );
            let to = (1e3 * (said.gap.si - by - said.strip.si) + 1e-6).floor();
            let words = format!("gap of the grille {} → {to} mm", mm(said.gap.si));
            let further = Candidate::set(words, "grille.gap", format!("{to} mm"));
            stop(said, "The grille does not cover a cone", cause, by)
                .mends((to >= 0.0).then_some(further))
        }
        Wrong::Strip(part) => {
            let cause = format!(
                "A strip of the grille lies {} over the {part}{plural} of {name}.",
                mm(by)
            );
            let title = if part == "mouth" {
                "The grille frame lies over a vent"
            } else {
                "The grille frame lies on a driver"
            };
            stop(said, title, cause, by).mends(wider(said, by))
        }
        Wrong::Cloth => cloth(said, &name, first),
    };
    alike.iter().fold(verdict, |verdict, one| {
        let thing = things::middle_key(&one.table, one.index);
        verdict.about(["grille", thing.as_str()], 1e3 * by)
    })
}

/// Cloth that a cone or a frame would hit.
fn cloth(said: &Grille, name: &str, clash: &Clash) -> Verdict {
    let wanted = said.thickness.si + clash.by;
    let why = if clash.untold {
        "for the frame alone; how far the cone travels is not known"
    } else {
        "for frame and travel"
    };
    let cause = format!(
        "The cloth lies {} before the front; {} are wanted before {name} {why}.",
        mm(said.thickness.si),
        mm(wanted),
    );
    let to = (1e3 * wanted - 1e-6).ceil();
    let words = format!("grille {} → {to} mm thick", mm(said.thickness.si));
    Verdict::stop("A cone would hit the cloth", cause)
        .measured(1e3 * said.thickness.si, 1e3 * wanted, "mm")
        .advice("take thicker strips, or let the driver in")
        .at(said.place)
        .mends([Candidate::set(
            words,
            "grille.thickness",
            format!("{to} mm"),
        )])
}

/// Drivers on the front of which nobody knows how far they travel.
fn untold(design: &Design, on_front: &[&Opening]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for opening in on_front {
        let SpotKind::Driver(group) = opening.kind else {
            continue;
        };
        let part = &design.drivers[group].part;
        if part.xmax.is_none() && !names.contains(&part.common.name.text) {
            names.push(part.common.name.text.clone());
        }
    }
    names
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
            "The grille frame does not go into the ring",
            cause,
            by,
        )
        .about(["grille", "box"], 1e3 * by)
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
        stop(said, "The grille covers the control panel", cause, by)
            .about(["grille", "control"], 1e3 * by)
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
        stop(said, "The grille is in the way of the handle", cause, by)
            .about(["grille", "handle"], 1e3 * by)
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
        let found = grille("70 mm", "12 mm", "4 mm").check(CHECK.id, &[Stop]);
        assert!(found[0].cause.contains("A strip"), "{found:#?}");
        assert!(found[0].place.is_some(), "{found:#?}");
        let found = grille("15 mm", "2 mm", "4 mm").check(CHECK.id, &[Stop]);
        let both = "the left and right full-range 4 in, 4 ohm";
        assert!(found[0].cause.contains("cloth"), "{found:#?}");
        assert!(found[0].cause.contains(both), "{found:#?}");
        let found = grille("10 mm", "12 mm", "90 mm").check(CHECK.id, &[Stop]);
        assert!(found[0].cause.contains("out of the frame"), "{found:#?}");
        grille("60 mm", "12 mm", "80 mm").check(CHECK.id, &[Stop]);
    }

    #[test]
    fn a_driver_of_unknown_travel_has_a_frame_all_the_same() {
        let unknown = ("drivers.1.part", "salvaged full-range 4 in, unknown");
        let salvaged = |thickness| grille("15 mm", thickness, "4 mm").with(&[unknown]);
        let found = salvaged("12 mm").check(CHECK.id, &[Good]);
        assert!(found[0].cause.contains("is not known"), "{found:#?}");
        let found = salvaged("1 mm").check(CHECK.id, &[Stop]);
        assert!(found[0].cause.contains("is not known"), "{found:#?}");
    }

    #[test]
    fn strips_keep_off_the_mouth_of_a_vent() {
        let vent = |at| {
            grille("15 mm", "12 mm", "4 mm")
                .with(super::super::probe::VENT)
                .with(&[("box.vent.on", "front"), ("box.vent.at.1", at)])
        };
        vent("200 x 50 mm").check(CHECK.id, &[Good]);
        // 46 mm wide, 19 mm of grille: 27 mm up it reaches 15 mm under the strip.
        let found = vent("200 x 27 mm").check(CHECK.id, &[Stop]);
        assert!(
            found[0].cause.contains("15 mm over the mouth"),
            "{found:#?}"
        );
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
