//! Parts that sit in or on a wall.

use super::super::control;
use super::super::cuts::grille_weight;
use super::super::model::PartKind;
use super::super::plan::wall;
use super::super::plan::{TUBE_WALL, fastenings};
use super::{Kind, List, Room, weight};
use crate::subject::{RADIATOR_WEIGHT, SpotKind, driver_guess};
use design::{DriverUse, EnclosureKind};
use wood::vector::{add, dot, scale, sub};
use wood::{
    DriverOutline, FRAME_THICKNESS, Frame, MAGNET_SHARE, MAGNET_WIDTH, Pose, Shape, Solid,
    VENT_AIR, Wall,
};

/// Height of a handle's grip over its wall, thickness of the grip, and how far bolts with
/// nuts reach inside, in m: common practice, no source.
const GRIP: (f64, f64, f64) = (0.04, 0.016, 0.01);

/// Weight of a part of the control panel that states none, in kg: common practice, no source.
pub(crate) const CONTROL_WEIGHT: f64 = 0.02;

fn pose(room: &Room<'_>, wall: Wall, at: [f64; 2]) -> Pose {
    Pose::in_panel(&room.hull.face(wall), at)
}

pub(super) fn drivers(list: &mut List, room: &Room<'_>) {
    for (group, used) in room.design.drivers.iter().enumerate() {
        list.next();
        let kind = Kind {
            kind: PartKind::Driver,
            label: &used.part.common.name.text,
            size_within: [0.0; 3],
            weight: weight(&used.part.common, driver_guess(&used.part)),
            place: used.place,
            table: format!("drivers.{}", group + 1),
        };
        let openings = room.plan.openings.iter();
        let mut own: Vec<_> = openings
            .filter(|opening| opening.kind == SpotKind::Driver(group))
            .collect();
        own.sort_by_key(|opening| opening.index);
        for opening in own {
            let outline = driver_outline(used, opening.diameter, opening.cutout);
            let pose = pose(room, opening.wall, opening.at);
            list.add(
                &kind,
                Shape::driver(&outline),
                pose,
                Some(opening.wall),
                !opening.stated,
            );
        }
    }
}

fn driver_outline(used: &DriverUse, frame: f64, cutout: f64) -> DriverOutline {
    let part = &used.part;
    let depth = part.depth.map_or(0.5 * cutout, |value| value.si);
    let magnet = part.magnet.map_or(MAGNET_WIDTH * cutout, |value| value.si);
    let frame_thickness = part
        .frame_thickness
        .map_or(FRAME_THICKNESS, |value| value.si);
    DriverOutline {
        frame,
        cutout,
        frame_thickness,
        depth,
        magnet: Some([magnet, MAGNET_SHARE * depth]),
        vent_air: part.vented_magnet.value.then_some(VENT_AIR),
        screws: part
            .screws
            .zip(part.screw_circle)
            .map(|(count, circle)| (count, circle.si)),
        let_in: if used.flush.value {
            frame_thickness
        } else {
            0.0
        },
    }
}

/// Radiators and vents.
pub(super) fn outlets(list: &mut List, room: &Room<'_>) {
    match &room.design.enclosure.kind {
        EnclosureKind::Sealed => {}
        EnclosureKind::PassiveRadiator(used) => {
            list.next();
            let added = used.added_mass.map_or(0.0, |mass| mass.si);
            let kind = Kind {
                kind: PartKind::Radiator,
                label: &used.part.common.name.text,
                size_within: [0.0; 3],
                weight: weight(&used.part.common, RADIATOR_WEIGHT) + added,
                place: used.place,
                table: "box.radiator".into(),
            };
            for opening in of_kind(room, SpotKind::Radiator) {
                let depth = used.part.depth.map_or(0.02, |value| value.si);
                let outline = DriverOutline {
                    magnet: None,
                    ..DriverOutline::new(opening.diameter, opening.cutout, depth)
                };
                let pose = pose(room, opening.wall, opening.at);
                list.add(
                    &kind,
                    Shape::driver(&outline),
                    pose,
                    Some(opening.wall),
                    !opening.stated,
                );
            }
        }
        EnclosureKind::Vented(vent) => {
            list.next();
            let kind = Kind {
                kind: PartKind::Vent,
                label: "vent tube",
                size_within: [0.0; 3],
                weight: 0.0,
                place: vent.place,
                table: "box.vent".into(),
            };
            let leg = vent.bent.map(|leg| leg.si);
            let shape = Shape::duct(vent.diameter.si, TUBE_WALL, vent.length.si, leg);
            for opening in of_kind(room, SpotKind::Vent) {
                let pose = if leg.is_some() {
                    most_room(room, opening.wall, opening.at)
                } else {
                    pose(room, opening.wall, opening.at)
                };
                list.add(
                    &kind,
                    shape.clone(),
                    pose,
                    Some(opening.wall),
                    !opening.stated,
                );
            }
        }
    }
}

fn of_kind<'a>(
    room: &'a Room<'_>,
    kind: SpotKind,
) -> impl Iterator<Item = &'a super::super::plan::Opening> {
    room.plan
        .openings
        .iter()
        .filter(move |opening| opening.kind == kind)
}

/// Turned about its hole so that what bends upwards bends to where the box is widest.
fn most_room(room: &Room<'_>, wall: Wall, at: [f64; 2]) -> Pose {
    let frame = room.hull.face(wall);
    let centre = frame.point(at, 0.0);
    let (low, high) = room.hull.inside();
    let reach = |along: [f64; 3]| {
        let ends = [low, high].map(|end| dot(sub(end, centre), along));
        ends[0].max(ends[1])
    };
    let mut turned = frame;
    let mut best = frame;
    for _ in 0..3 {
        turned = Frame {
            across: scale(turned.up, -1.0),
            up: turned.across,
            ..turned
        };
        if reach(turned.up) > reach(best.up) + 1e-6 {
            best = turned;
        }
    }
    best.origin = centre;
    Pose::in_panel(&best, [0.0; 2])
}

pub(super) fn controls(list: &mut List, room: &Room<'_>) {
    let Some(said) = &room.design.control else {
        return;
    };
    let Some(seat) = room.plan.seat(&room.hull, &room.thick) else {
        return;
    };
    let block = room.hull.block.frame(seat.wall);
    let plate = Frame {
        origin: add(block.origin, scale(block.out, -seat.below)),
        ..block
    };
    for (index, used) in said.parts.iter().enumerate() {
        list.next();
        let kind = Kind {
            kind: PartKind::Control,
            label: &used.part.common.name.text,
            size_within: [0.0; 3],
            weight: weight(&used.part.common, CONTROL_WEIGHT),
            place: used.place,
            table: format!("control.part.{}", index + 1),
        };
        let shape = Shape::control(&control::outline(used, seat.plate));
        let at = seat.point(used.at.map(|value| value.si));
        list.add(
            &kind,
            shape,
            Pose::in_panel(&plate, at),
            Some(seat.wall),
            false,
        );
    }
}

pub(super) fn handle(list: &mut List, room: &Room<'_>) {
    let (Some(said), Some(at)) = (&room.design.handle, room.plan.handle_at()) else {
        return;
    };
    list.next();
    let on = wall(said.on.value);
    let half = said.spacing.si / 2.0;
    let thickness = room.hull.walls[on.index()].thickness;
    let (over, grip, inside) = GRIP;
    let side = grip / 2.0;
    let block = |from: f64, to: f64, front: f64, back: f64| {
        Solid::block([from, front, -side], [to, back, side])
    };
    let mut solids = vec![
        block(-half - side, half + side, -over, -over + grip),
        block(-half - side, -half + side, -over, 0.0),
        block(half - side, half + side, -over, 0.0),
    ];
    for x in [-half, half] {
        let end = thickness + inside;
        let radius = said.bolt.si / 2.0;
        solids.push(Solid::cylinder([x, 0.0, 0.0], [x, end, 0.0], radius));
    }
    let kind = Kind {
        kind: PartKind::Handle,
        label: "handle",
        size_within: [0.0; 3],
        weight: said.weight.map_or(0.0, |weight| weight.si),
        place: said.place,
        table: "handle".into(),
    };
    list.add(
        &kind,
        Shape::of(solids),
        pose(room, on, at),
        Some(on),
        said.at.is_none(),
    );
}

pub(super) fn feet(list: &mut List, room: &Room<'_>) {
    let Some(said) = &room.design.feet else {
        return;
    };
    list.next();
    let kind = Kind {
        kind: PartKind::Foot,
        label: "foot",
        size_within: [0.0; 3],
        weight: 0.0,
        place: said.place,
        table: "feet".into(),
    };
    let radius = said.diameter.si / 2.0;
    let solid = Solid::cylinder([0.0, -said.height.si, 0.0], [0.0; 3], radius);
    for at in fastenings::feet_at(said, &room.hull) {
        let pose = pose(room, Wall::Bottom, at);
        list.add(
            &kind,
            Shape::of(vec![solid.clone()]),
            pose,
            Some(Wall::Bottom),
            false,
        );
    }
}

pub(super) fn grille(list: &mut List, room: &Room<'_>) {
    let Some(said) = &room.design.grille else {
        return;
    };
    list.next();
    let kind = Kind {
        kind: PartKind::Grille,
        label: "grille frame",
        size_within: [0.0; 3],
        weight: grille_weight(room.plan, said),
        place: said.place,
        table: "grille".into(),
    };
    let size = super::super::plan::extent(&room.hull.block, Wall::Front);
    let (gap, strip, thickness) = (said.gap.si, said.strip.si, said.thickness.si);
    let [right, top] = size.map(|side| side - gap);
    let piece = |low: [f64; 2], high: [f64; 2]| {
        Solid::block([low[0], -thickness, low[1]], [high[0], 0.0, high[1]])
    };
    let solids = vec![
        piece([gap, gap], [right, gap + strip]),
        piece([gap, top - strip], [right, top]),
        piece([gap, gap + strip], [gap + strip, top - strip]),
        piece([right - strip, gap + strip], [right, top - strip]),
    ];
    // It stands before frames that lie on the front, not in them.
    let pose = pose(room, Wall::Front, [0.0; 2]);
    list.add(&kind, Shape::of(solids), pose, Some(Wall::Front), false);
}
