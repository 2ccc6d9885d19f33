//! Frames and openings on the walls they are mounted in.

use super::resize::{self, Axis};
use super::timber::{Middle, mm};
use super::{Check, Evidence, Verdict};
use crate::carpentry::{Opening, extent};
use crate::subject::SpotKind;
use crate::words::wall;
use design::{Design, EnclosureKind, Mounting};
use physics::math::hypot;
use wood::Wall;

pub(super) const CHECK: Check = Check {
    id: "drivers-fit",
    title: "Drivers on their walls",
    what: "Whether all frames and openings find room side by side on the walls they are mounted in.",
    why: "Found out after cutting, it costs the front; after gluing, the box.",
    limits: "Frames as circles. What is not placed is laid out in one row along the longer side of its \
wall, with the same gap everywhere; two rows must be placed by hand. Magnets and baskets inside are \
told under parts-collide, holes over joints under holes-clear.",
    bad: "two 6.5 in drivers on a front 300 mm wide",
    good: "two 6.5 in drivers on a front 400 mm wide and 200 mm high",
    sources: &["common practice, no source"],
    run,
};

/// What counts as touching, in m.
const TOUCHES: f64 = 1e-6;

/// Room beyond the least when a frame is moved, in m.
const SPARE: f64 = 0.001;

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(walls) = faces(evidence) else {
        return Vec::new();
    };
    let openings = openings(evidence);
    let mut verdicts = Vec::new();
    for side in Wall::ALL {
        let wrong: Vec<Clash> = clashes(openings, &walls)
            .into_iter()
            .filter(|clash| openings[clash.first].wall == side)
            .collect();
        let rows = |clash: &Clash| {
            let second = clash.second.unwrap_or(clash.first);
            !openings[clash.first].stated || !openings[second].stated
        };
        if wrong.iter().any(rows) {
            verdicts.push(row(evidence, side));
        }
        let single = wrong.iter().filter(|clash| !rows(clash));
        verdicts.extend(single.map(|clash| placed(evidence, clash)));
    }
    if verdicts.is_empty() && !openings.is_empty() {
        let used = openings.iter().map(|opening| opening.wall);
        let used: Vec<&str> = Wall::ALL
            .into_iter()
            .filter(|side| used.clone().any(|other| other == *side))
            .map(wall)
            .collect();
        let cause = format!(
            "Frames and openings lie side by side on the {}.",
            used.join(" and the ")
        );
        verdicts.push(Verdict::good("Walls have room for every frame", cause));
    }
    verdicts.extend(unknown_depth(evidence));
    verdicts
}

fn openings<'a>(evidence: &'a Evidence<'_>) -> &'a [Opening] {
    &evidence.subject.enclosure.plan.openings
}

/// Lowest and highest corner of the outer face of each wall on its side of the block.
fn faces(evidence: &Evidence<'_>) -> Option<[[[f64; 2]; 2]; 6]> {
    let body = &evidence.carpentry?.body;
    Some(Wall::ALL.map(|side| {
        let panel = body.wall(side);
        let [u, v] = body.plan.block.frame(side).flat(panel.frame.origin);
        let mut low = [f64::INFINITY; 2];
        let mut high = [f64::NEG_INFINITY; 2];
        for point in panel.edges.iter().flat_map(|edge| edge.outer) {
            for (axis, offset) in [u, v].into_iter().enumerate() {
                low[axis] = low[axis].min(point[axis] + offset);
                high[axis] = high[axis].max(point[axis] + offset);
            }
        }
        [low, high]
    }))
}

/// Two frames that overlap, or one that reaches over the edge of its wall.
struct Clash {
    first: usize,
    second: Option<usize>,
    /// By how much, in m.
    by: f64,
    /// How the first, or the second of two, is to be moved, in m.
    shift: [f64; 2],
}

fn clashes(openings: &[Opening], faces: &[[[f64; 2]; 2]; 6]) -> Vec<Clash> {
    let mut found = Vec::new();
    for (index, opening) in openings.iter().enumerate() {
        let [low, high] = faces[opening.wall.index()];
        let radius = opening.diameter / 2.0;
        let shift = [0, 1].map(|axis| {
            let under = (low[axis] - (opening.at[axis] - radius)).max(0.0);
            let over = (opening.at[axis] + radius - high[axis]).max(0.0);
            under - over
        });
        let by = shift[0].abs().max(shift[1].abs());
        if by > TOUCHES {
            found.push(Clash {
                first: index,
                second: None,
                by,
                shift,
            });
        }
        for (earlier, other) in openings[..index].iter().enumerate() {
            let way = [0, 1].map(|axis| opening.at[axis] - other.at[axis]);
            let apart = hypot(way[0], way[1]);
            let by = radius + other.diameter / 2.0 - apart;
            if other.wall == opening.wall && by > TOUCHES {
                let unit = if apart > 0.0 {
                    way.map(|part| part / apart)
                } else {
                    [1.0, 0.0]
                };
                found.push(Clash {
                    first: earlier,
                    second: Some(index),
                    by,
                    shift: unit.map(|part| part * by),
                });
            }
        }
    }
    found
}

/// Wall and middle of every opening whose frame has no room.
pub(super) fn at_fault(evidence: &Evidence<'_>) -> Vec<(Wall, [f64; 2])> {
    let Some(faces) = faces(evidence) else {
        return Vec::new();
    };
    let openings = openings(evidence);
    let clashes = clashes(openings, &faces);
    let indices = clashes
        .iter()
        .flat_map(|clash| [Some(clash.first), clash.second])
        .flatten();
    indices
        .map(|index| (openings[index].wall, openings[index].at))
        .collect()
}

/// What is laid out in a row finds no room in it.
fn row(evidence: &Evidence<'_>, side: Wall) -> Verdict {
    let plan = &evidence.subject.enclosure.plan;
    let block = plan.hull(&crate::vary::Draw::Nominal).block;
    let [width, height] = extent(&block, side);
    let (along, across) = (width.max(height), width.min(height));
    let own: Vec<&Opening> = openings(evidence)
        .iter()
        .filter(|opening| opening.wall == side)
        .collect();
    let sum = |drivers_only: bool| -> f64 {
        let is_driver = |opening: &Opening| matches!(opening.kind, SpotKind::Driver(_));
        own.iter()
            .filter(|opening| !drivers_only || is_driver(opening))
            .map(|opening| opening.diameter)
            .sum()
    };
    let widest = own
        .iter()
        .map(|opening| opening.diameter)
        .fold(0.0, f64::max);
    let cause = format!(
        "Frames and openings in a row on the {} take {} of {}, the widest {} of {}.",
        wall(side),
        mm(sum(false)),
        mm(along),
        mm(widest),
        mm(across)
    );
    let (measured, limit) = if widest >= across {
        (widest, across)
    } else {
        (sum(false), along)
    };
    let only_openings = sum(true) < along && widest < across && sum(true) > 0.0;
    let name = super::timber::capital(wall(side));
    let said = if only_openings {
        Verdict::caution(format!("{name} has no room beside the drivers"), cause)
            .advice("put vent or radiator on another wall, place everything by hand, or make the box larger")
    } else {
        Verdict::stop(format!("{name} has no room for what sits in it"), cause)
            .advice("make the box larger, take smaller drivers, or place them by hand")
    };
    let axes = match side {
        Wall::Front | Wall::Back => [Axis::Width, Axis::Height],
        Wall::Left | Wall::Right => [Axis::Depth, Axis::Height],
        Wall::Top | Wall::Bottom => [Axis::Width, Axis::Depth],
    };
    said.measured(1e3 * measured, 1e3 * limit, "mm")
        .ladders(axes.map(|axis| resize::larger(evidence, axis)))
}

/// What was placed by hand overlaps, or reaches over the edge.
fn placed(evidence: &Evidence<'_>, clash: &Clash) -> Verdict {
    let (design, openings) = (evidence.design(), openings(evidence));
    let first = &openings[clash.first];
    let name = name(design, first);
    let spare = |shift: [f64; 2]| {
        let long = hypot(shift[0], shift[1]).max(1e-9);
        shift.map(|part| part * (1.0 + SPARE / long))
    };
    let (title, cause, last) = match clash.second {
        None => (
            "A frame reaches over the edge",
            format!(
                "{name} reaches {} over the edge of the {}.",
                mm(clash.by),
                wall(first.wall)
            ),
            first,
        ),
        Some(second) => {
            let second = &openings[second];
            let cause = format!(
                "{name} and {} overlap by {} on the {}.",
                self::name(design, second),
                mm(clash.by),
                wall(first.wall)
            );
            ("Two frames overlap", cause, second)
        }
    };
    let said = Verdict::stop(title, cause)
        .measured(-1e3 * clash.by, 0.0, "mm")
        .advice("move it, take a smaller one, or make the box larger");
    let Some(moves) = middle(design, last) else {
        return said;
    };
    let back = clash.second.and_then(|_| middle(design, first));
    let shift = spare(clash.shift);
    said.at(moves.place).mends(moves.moved(shift)).mends(
        back.into_iter()
            .flat_map(|middle| middle.moved(shift.map(|part| -part))),
    )
}

/// The table of an opening and what the design says of its mounting.
fn mounting<'a>(design: &'a Design, opening: &Opening) -> Option<(String, &'a Mounting)> {
    match (opening.kind, &design.enclosure.kind) {
        (SpotKind::Driver(group), _) => {
            let used = &design.drivers[group];
            Some((format!("drivers.{}", group + 1), &used.mounting))
        }
        (SpotKind::Vent, EnclosureKind::Vented(vent)) => Some(("box.vent".into(), &vent.mounting)),
        (SpotKind::Radiator, EnclosureKind::PassiveRadiator(used)) => {
            Some(("box.radiator".into(), &used.mounting))
        }
        _ => None,
    }
}

fn name(design: &Design, opening: &Opening) -> String {
    match opening.kind {
        SpotKind::Driver(group) => design.drivers[group].part.common.name.text.clone(),
        SpotKind::Vent => "The vent".into(),
        SpotKind::Radiator => "The passive radiator".into(),
    }
}

fn middle(design: &Design, opening: &Opening) -> Option<Middle> {
    let (table, mounting) = mounting(design, opening)?;
    let at = mounting.at.get(opening.index)?;
    Some(Middle::of(
        &name(design, opening),
        &table,
        opening.index,
        at,
    ))
}

/// Where no driver's depth is known, nothing can be said of what is behind it.
fn unknown_depth(evidence: &Evidence<'_>) -> Option<Verdict> {
    let groups = &evidence.design().drivers;
    let unknown = groups.iter().find(|group| group.part.depth.is_none())?;
    let cause = format!(
        "How deep {} is is not on the shelf; it is drawn half as deep as its hole is wide.",
        unknown.part.common.name.text
    );
    Some(
        Verdict::caution("Depth of a driver not known", cause)
            .advice("measure from the back of the frame to the back of the magnet and write it on the shelf as depth")
            .at(unknown.place),
    )
}

#[cfg(test)]
mod tests {
    use super::super::probe::{RADIATOR, check, with};
    use super::CHECK;
    use crate::check::Severity;
    use crate::check::Severity::{Caution, Good, Stop};

    #[test]
    fn frames_stay_on_the_front() {
        check(CHECK.id, &[], &[Good]);
        let narrow = [("box.outside", "210 x 240 x 230 mm")];
        let found = with(&narrow).findings(CHECK.id);
        assert_eq!(
            found[0].severity,
            Severity::Good,
            "stands upright: {found:#?}"
        );
        let small = [("box.outside", "150 x 200 x 230 mm")];
        let found = check(CHECK.id, &small, &[Stop]);
        assert!(found[0].mend.is_some(), "{found:#?}");
    }

    #[test]
    fn openings_may_go_elsewhere() {
        let row = with(RADIATOR).with(&[
            ("box.radiator.part", "radiator 6.5 in"),
            ("box.outside", "360 x 240 x 200 mm"),
        ]);
        row.check(CHECK.id, &[Caution]);
    }
}
