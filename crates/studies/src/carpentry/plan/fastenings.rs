//! Holes in the walls for what sits in them, and for the screws and bolts that hold it.

use super::super::control::clearance;
use super::boards::bay_room;
use super::hull::Hull;
use super::openings::Opening;
use super::source::Source;
use super::wall;
use crate::subject::SpotKind;
use core::f64::consts::TAU;
use design::{Bay, Design, DriverPart, Feet, Handle};
use physics::math::{cos, sin};
use wood::{FRAME_THICKNESS, Hole, Outline, Purpose, Wall};

/// Pilot hole over screw in plywood: common practice, no source.
pub(crate) const PILOT: f64 = 0.7;

/// Clearance hole over bolt where ISO 273 is not asked: common practice, no source.
const CLEARANCE: f64 = 1.1;

/// Depth of a pilot hole that does not go through, as a share of the wall.
pub(super) const BLIND: f64 = 0.7;

/// All holes for openings, handle, feet and bay, each with what wants it.
pub(super) fn holes(
    design: &Design,
    hull: &Hull,
    openings: &[Opening],
    handle: Option<[f64; 2]>,
) -> Vec<(Source, Hole)> {
    let mut all = Vec::new();
    let mut from = |source: Source, holes: Vec<Hole>| {
        all.extend(holes.into_iter().map(|hole| (source, hole)));
    };
    for opening in openings {
        let source = match opening.kind {
            SpotKind::Driver(group) => Source::Driver(group, opening.index),
            SpotKind::Radiator => Source::Radiator(opening.index),
            SpotKind::Vent => Source::Vent(opening.index),
        };
        from(source, through(design, opening));
    }
    if let (Some(said), Some(at)) = (&design.handle, handle) {
        from(Source::Handle, bolts(said, at));
    }
    if let Some(feet) = &design.feet {
        from(Source::Feet, screws_of_feet(feet, hull));
    }
    if let Some(bay) = &design.bay {
        from(Source::Bay, breathing(bay, hull));
    }
    all
}

fn round(wall: Wall, at: [f64; 2], diameter: f64, purpose: Purpose, label: &str) -> Hole {
    Hole {
        wall,
        at,
        outline: Outline::Circle { diameter },
        pocket: None,
        purpose,
        label: label.into(),
    }
}

fn through(design: &Design, opening: &Opening) -> Vec<Hole> {
    let mut holes = Vec::new();
    let (wall, at) = (opening.wall, opening.at);
    match opening.kind {
        SpotKind::Driver(group) => {
            let used = &design.drivers[group];
            let part = &used.part;
            let name = &part.common.name.text;
            holes.push(round(wall, at, opening.cutout, Purpose::Driver, name));
            if used.flush.value {
                let thickness = part.frame_thickness.map_or(FRAME_THICKNESS, |t| t.si);
                holes.push(Hole {
                    pocket: Some(thickness),
                    ..round(wall, at, opening.diameter, Purpose::Driver, "frame let in")
                });
            }
            for screw in screw_circle(part) {
                let middle = [at[0] + screw[0], at[1] + screw[1]];
                let diameter = PILOT * part.screw.map_or(0.004, |screw| screw.si);
                holes.push(round(
                    wall,
                    middle,
                    diameter,
                    Purpose::Fastening,
                    "driver screw",
                ));
            }
        }
        SpotKind::Radiator => {
            holes.push(round(
                wall,
                at,
                opening.cutout,
                Purpose::Radiator,
                "passive radiator",
            ));
        }
        SpotKind::Vent => holes.push(round(wall, at, opening.cutout, Purpose::Vent, "vent")),
    }
    holes
}

/// Middles of the screws of a driver about its own, as its solid has them: half a step
/// from the horizontal.
fn screw_circle(part: &DriverPart) -> Vec<[f64; 2]> {
    let Some((count, circle)) = part.screws.zip(part.screw_circle) else {
        return Vec::new();
    };
    let radius = circle.si / 2.0;
    (0..count)
        .map(|i| {
            let angle = TAU * (f64::from(i) + 0.5) / f64::from(count);
            [radius * cos(angle), radius * sin(angle)]
        })
        .collect()
}

fn bolts(handle: &Handle, [across, up]: [f64; 2]) -> Vec<Hole> {
    let half = handle.spacing.si / 2.0;
    let diameter = clearance(handle.bolt.si).unwrap_or(CLEARANCE * handle.bolt.si);
    let on = wall(handle.on.value);
    [across - half, across + half]
        .map(|across| {
            round(
                on,
                [across, up],
                diameter,
                Purpose::Fastening,
                "handle bolt",
            )
        })
        .into()
}

/// Middles of the feet on the bottom as seen from below, front edge down.
pub(crate) fn feet_at(feet: &Feet, hull: &Hull) -> Vec<[f64; 2]> {
    let (width, depth) = (hull.block.width, hull.block.depth);
    let inset = feet.inset.si;
    let (left, right, front, back) = (inset, width - inset, inset, depth - inset);
    let mut feet_at = vec![[left, front], [right, front]];
    if feet.count == 3 {
        feet_at.push([width / 2.0, back]);
    } else {
        feet_at.extend([[right, back], [left, back]]);
    }
    feet_at
}

fn screws_of_feet(feet: &Feet, hull: &Hull) -> Vec<Hole> {
    let Some(screw) = feet.screw else {
        return Vec::new();
    };
    let thickness = hull.walls[Wall::Bottom.index()].thickness;
    let pilot = |at| Hole {
        pocket: Some(BLIND * thickness),
        ..round(
            Wall::Bottom,
            at,
            PILOT * screw.si,
            Purpose::Fastening,
            "foot screw",
        )
    };
    feet_at(feet, hull).into_iter().map(pilot).collect()
}

/// Holes of the bay, in rows spread evenly over its room as seen from outside.
fn breathing(bay: &Bay, hull: &Hull) -> Vec<Hole> {
    let on = wall(bay.opens.value);
    let frame = hull.block.frame(on);
    let (low, high) = bay_room(bay, hull);
    let ends = [frame.flat(low), frame.flat(high)];
    let low = [0, 1].map(|axis| ends[0][axis].min(ends[1][axis]));
    let size = [0, 1].map(|axis| (ends[0][axis] - ends[1][axis]).abs());
    let count = bay.holes as usize;
    let per_row = ((count as f64 * size[0] / size[1].max(1e-3)).sqrt().ceil() as usize)
        .clamp(1, count.max(1));
    let rows = count.div_ceil(per_row);
    let hole = |index: usize| {
        let (row, column) = (index / per_row, index % per_row);
        let in_row = per_row.min(count - row * per_row);
        let share = [
            (column as f64 + 0.5) / in_row as f64,
            (row as f64 + 0.5) / rows as f64,
        ];
        let at = [0, 1].map(|axis| low[axis] + size[axis] * share[axis]);
        round(on, at, bay.hole.si, Purpose::Bay, "air for the bay")
    };
    (0..count).map(hole).collect()
}
