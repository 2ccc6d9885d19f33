//! Parts that stand in the box: as placed by hand, or where a place is found for them.

use super::super::model::PartKind;
use super::super::plan::bay_room;
use super::{Kind, List, Room, weight};
use crate::subject::battery_guess;
use design::{Placement, Size, Turn};
use wood::vector::{Vector, add, dot, scale};
use wood::{Pose, Shape};

/// Height of the pillars of a board in m where none is stated: common practice, no source.
const STANDOFF: f64 = 0.006;

/// Weight of an amplifier board that states none, in kg: common practice, no source.
pub(crate) const BOARD_WEIGHT: f64 = 0.1;

/// A part whose place is still to be found.
pub(super) struct Waiting {
    /// Index in the list.
    index: usize,
    /// Turns allowed.
    turns: Vec<[Vector; 3]>,
}

/// Width, depth and height of what is stated as width, height and depth.
const fn sides(size: &Size) -> [f64; 3] {
    [size.width.si, size.depth.si, size.height.si]
}

/// Which axis of a part lies along each axis of the box.
const fn order(turn: Turn) -> [usize; 3] {
    match turn {
        Turn::AsStated => [0, 1, 2],
        Turn::OnItsSide => [2, 1, 0],
        Turn::OnItsBack => [0, 2, 1],
        Turn::Sideways => [1, 0, 2],
        Turn::EndUp => [1, 2, 0],
        Turn::EndOut => [2, 0, 1],
    }
}

/// The turns a placement allows: as its words say, its underside to the wall it is fixed to.
fn turns(said: &Placement) -> Vec<[Vector; 3]> {
    let down: Option<Vector> = said.fixed_to.map(|fixed| match fixed.value {
        design::Wall::Front => [0.0, -1.0, 0.0],
        design::Wall::Back => [0.0, 1.0, 0.0],
        design::Wall::Left => [-1.0, 0.0, 0.0],
        design::Wall::Right => [1.0, 0.0, 0.0],
        design::Wall::Top => [0.0, 0.0, 1.0],
        design::Wall::Bottom => [0.0, 0.0, -1.0],
    });
    let along = |turn: &[Vector; 3], order: [usize; 3]| {
        (0..3).all(|axis| turn[axis][order[axis]].abs() > 0.5)
    };
    let mut turns: Vec<[Vector; 3]> = Pose::right_angles()
        .into_iter()
        .filter(|turn| said.turn.is_none_or(|word| along(turn, order(word.value))))
        .filter(|turn| {
            // The underside of a part looks along its −z.
            let under = turn.map(|row| -row[2]);
            down.is_none_or(|down| dot(under, down) > 0.5)
        })
        .collect();
    if turns.is_empty() {
        // A turn and a wall that contradict each other: the turn counts.
        let order = said.turn.map_or([0, 1, 2], |word| order(word.value));
        turns.push(Pose::exchanged(order, [0.0; 3]).turn);
    }
    turns
}

/// Adds equal parts: side by side from a stated place, or waiting for one.
fn put(
    list: &mut List,
    room: &Room<'_>,
    waiting: &mut Vec<Waiting>,
    of: &Kind<'_>,
    shape: &Shape,
    count: u32,
    said: &Placement,
) {
    let turns = turns(said);
    let upright = Pose {
        turn: turns[0],
        at: [0.0; 3],
    };
    let (inner, _) = room.hull.inside();
    let (low, high) = shape.bounds(&upright);
    let beside = [high[0] - low[0], 0.0, 0.0];
    for index in 0..count {
        let Some(at) = &said.at else {
            waiting.push(Waiting {
                index: list.parts.len(),
                turns: turns.clone(),
            });
            let pose = upright.with_low_corner(shape, inner);
            list.add(of, shape.clone(), pose, None, true);
            continue;
        };
        let [right, up, back] = at.map(|value| value.si);
        let corner = add(inner, [right, back, up]);
        let corner = add(corner, scale(beside, f64::from(index)));
        let pose = upright.with_low_corner(shape, corner);
        list.add(of, shape.clone(), pose, None, false);
    }
}

pub(super) fn battery_and_board(list: &mut List, room: &Room<'_>, waiting: &mut Vec<Waiting>) {
    let used = &room.design.battery;
    if let Some(size) = &used.part.size {
        list.next();
        let kind = Kind {
            kind: PartKind::Battery,
            label: &used.part.common.name.text,
            weight: weight(&used.part.common, battery_guess(&used.part)),
            place: used.place,
            table: "battery".into(),
        };
        let shape = Shape::block(sides(size));
        let from = list.parts.len();
        put(
            list,
            room,
            waiting,
            &kind,
            &shape,
            used.count,
            &used.placement,
        );
        into_bay(list, room, waiting, from);
    }
    let used = &room.design.amplifier;
    if let Some(size) = &used.part.size {
        list.next();
        let kind = Kind {
            kind: PartKind::Board,
            label: &used.part.common.name.text,
            weight: weight(&used.part.common, BOARD_WEIGHT),
            place: used.place,
            table: "amplifier".into(),
        };
        let standoff = used.standoff.map_or(STANDOFF, |value| value.si);
        let shape = Shape::board(sides(size), standoff);
        put(list, room, waiting, &kind, &shape, 1, &used.placement);
    }
}

/// Batteries nobody placed stand side by side on the floor of their bay, where there is one.
fn into_bay(list: &mut List, room: &Room<'_>, waiting: &mut Vec<Waiting>, from: usize) {
    let Some(bay) = &room.design.bay else { return };
    let (low, high) = bay_room(bay, &room.hull);
    let own: Vec<usize> = waiting
        .iter()
        .map(|one| one.index)
        .filter(|index| *index >= from)
        .collect();
    let Some(first) = own.first() else { return };
    let turns = waiting.iter().find(|one| one.index == *first);
    let turns = turns.map_or_else(Vec::new, |one| one.turns.clone());
    waiting.retain(|one| one.index < from);
    let shape = list.parts[*first].part.shape.clone();
    let count = own.len() as f64;
    // The turn that leaves the most room around the batteries side by side.
    let spare = |turn: &[Vector; 3]| {
        let pose = Pose {
            turn: *turn,
            at: [0.0; 3],
        };
        let (from, to) = shape.bounds(&pose);
        let size = [0, 1, 2].map(|axis| to[axis] - from[axis]);
        let used = [count * size[0], size[1], size[2]];
        let spare = (0..3).map(|axis| high[axis] - low[axis] - used[axis]);
        (spare.fold(f64::INFINITY, f64::min), size)
    };
    let best = turns
        .iter()
        .fold(None, |best: Option<(f64, [Vector; 3])>, turn| {
            let (room, _) = spare(turn);
            match best {
                Some((most, _)) if room <= most + 1e-9 => best,
                _ => Some((room, *turn)),
            }
        });
    let Some((_, turn)) = best else { return };
    let (_, size) = spare(&turn);
    let middle = [0, 1].map(|axis| (low[axis] + high[axis]) / 2.0);
    for (index, own) in own.into_iter().enumerate() {
        let corner = [
            middle[0] + (index as f64 - count / 2.0) * size[0],
            middle[1] - size[1] / 2.0,
            low[2],
        ];
        let pose = Pose { turn, at: [0.0; 3] };
        list.parts[own].part.pose = pose.with_low_corner(&shape, corner);
    }
}

pub(super) fn things(list: &mut List, room: &Room<'_>, waiting: &mut Vec<Waiting>) {
    for (index, thing) in room.design.inside.iter().enumerate() {
        let shape = match &thing.shape {
            design::Shape::Block(size) => Shape::block(sides(size)),
            design::Shape::Cylinder { diameter, length } => Shape::cylinder(diameter.si, length.si),
            design::Shape::Volume(_) => continue,
        };
        list.next();
        let kind = Kind {
            kind: PartKind::Other,
            label: &thing.name.text,
            weight: thing.weight.map_or(0.0, |weight| weight.si),
            place: thing.name.place,
            table: format!("inside.{}", index + 1),
        };
        put(
            list,
            room,
            waiting,
            &kind,
            &shape,
            thing.count,
            &thing.placement,
        );
    }
}

/// Air left around parts that are placed by the program, in m: common practice, no source.
const CLEARANCE: f64 = 0.005;

/// An upright block.
type Block = (Vector, Vector);

fn overlap(a: &Block, b: &Block, apart: f64) -> bool {
    (0..3).all(|axis| a.0[axis] < b.1[axis] + apart - 1e-9 && b.0[axis] < a.1[axis] + apart - 1e-9)
}

/// Finds a corner for every part that waits, the heaviest first.
pub(super) fn find(list: &mut List, room: &Room<'_>, mut waiting: Vec<Waiting>) {
    let (mut low, mut high) = room.hull.inside();
    let top = high[2];
    low[1] = low[1].max(room.hull.front_at(top));
    high[1] = high[1].min(room.hull.back_at(top));
    let bounds = |list: &List, index: usize| {
        let part = &list.parts[index].part;
        part.shape.bounds(&part.pose)
    };
    let mut taken: Vec<Block> = (0..list.parts.len())
        .filter(|index| waiting.iter().all(|one| one.index != *index))
        .map(|index| bounds(list, index))
        .collect();
    taken.extend(
        room.body
            .plan
            .boards
            .iter()
            .map(|board| (board.low, board.high)),
    );
    waiting.sort_by(|a, b| {
        let weight = |one: &Waiting| list.parts[one.index].weight;
        weight(b).total_cmp(&weight(a))
    });
    for one in waiting {
        let shape = list.parts[one.index].part.shape.clone();
        let mut best: Option<([f64; 2], Pose)> = None;
        for turn in &one.turns {
            let pose = Pose {
                turn: *turn,
                at: [0.0; 3],
            };
            let (from, to) = shape.bounds(&pose);
            let size = [0, 1, 2].map(|axis| to[axis] - from[axis]);
            for corner in corners(&taken, low, high, size) {
                let block = (corner, add(corner, size));
                if taken.iter().any(|other| overlap(&block, other, CLEARANCE)) {
                    continue;
                }
                // Low, and in the middle between left and right.
                let aside = (corner[0] + size[0] / 2.0 - (low[0] + high[0]) / 2.0).abs();
                let merit = [corner[2] + size[2] / 2.0, aside];
                if best.is_none_or(|(least, _)| merit < least) {
                    best = Some((merit, pose.with_low_corner(&shape, corner)));
                }
            }
        }
        if let Some((_, pose)) = best {
            list.parts[one.index].part.pose = pose;
        }
        taken.push(bounds(list, one.index));
    }
}

/// Lowest corners of a block of a size that touches what is taken, or the walls.
fn corners(taken: &[Block], low: Vector, high: Vector, size: Vector) -> Vec<Vector> {
    let along = |axis: usize| {
        let mut at = vec![
            low[axis],
            high[axis] - size[axis],
            (low[axis] + high[axis] - size[axis]) / 2.0,
        ];
        for block in taken {
            at.push(block.1[axis] + CLEARANCE);
            at.push(block.0[axis] - CLEARANCE - size[axis]);
        }
        at.retain(|from| *from >= low[axis] - 1e-9 && from + size[axis] <= high[axis] + 1e-9);
        at.sort_by(f64::total_cmp);
        at.dedup();
        at
    };
    let (x, y, z) = (along(0), along(1), along(2));
    let mut corners = Vec::new();
    for &z in &z {
        for &y in &y {
            corners.extend(x.iter().map(|&x| [x, y, z]));
        }
    }
    corners
}
