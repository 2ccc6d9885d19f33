//! Parts that stand in the box: as placed by hand, or where a place is found for them.

use super::super::gaps::WANTED;
use super::super::model::PartKind;
use super::super::plan::{bay_room, wall};
use super::{Kind, List, Room, openings, weight};
use crate::memo::Memo;
use crate::subject::battery_guess;
use crate::vary::spreads;
use design::{Placement, Size, Tolerance, Turn, Value};
use wood::vector::{Vector, add, dot, scale};
use wood::{Loose, Opening, Part, Plan, Pose, Shape, Stand, Target, Wall, Wishes, arrange};

/// Height of the pillars of a board in m where none is stated: common practice, no source.
const STANDOFF: f64 = 0.006;

/// Weight of an amplifier board that states none, in kg: common practice, no source.
pub(crate) const BOARD_WEIGHT: f64 = 0.1;

/// Weight of a module that states none, in kg: common practice, no source.
pub(crate) const MODULE_WEIGHT: f64 = 0.02;

/// A part whose place is still to be found.
pub(super) struct Waiting {
    /// Index in the list.
    index: usize,
    /// Turns allowed.
    turns: Vec<[Vector; 3]>,
    /// Walls it may stand on or be fixed to.
    walls: Vec<Wall>,
    /// Which way round.
    stand: Stand,
}

/// Of width, depth and height of what is stated as width, height and depth.
fn sides(size: &Size, of: impl Fn(&Value) -> f64) -> [f64; 3] {
    [of(&size.width), of(&size.depth), of(&size.height)]
}

const fn nominal(length: &Value) -> f64 {
    length.si
}

/// By how much a length may differ either way, in m, where the file says so.
fn within(length: &Value) -> f64 {
    match length.tolerance {
        Tolerance::Unstated => 0.0,
        Tolerance::Within(half) => half,
        Tolerance::About => spreads::ABOUT.spread * length.si.abs(),
    }
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
                walls: said
                    .fixed_to
                    .map_or_else(|| Wall::ALL.into(), |fixed| vec![wall(fixed.value)]),
                stand: stand(of.kind, said),
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
            size_within: sides(size, within),
            weight: weight(&used.part.common, battery_guess(&used.part)),
            place: used.place,
            table: "battery".into(),
        };
        let shape = Shape::block(sides(size, nominal));
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
            size_within: sides(size, within),
            weight: weight(&used.part.common, BOARD_WEIGHT),
            place: used.place,
            table: "amplifier".into(),
        };
        let standoff = used.standoff.map_or(STANDOFF, |value| value.si);
        let shape = Shape::board(sides(size, nominal), standoff);
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

pub(super) fn modules(list: &mut List, room: &Room<'_>, waiting: &mut Vec<Waiting>) {
    for (index, used) in room.design.modules.iter().enumerate() {
        let Some(size) = &used.part.size else {
            continue;
        };
        list.next();
        let common = &used.part.common;
        let kind = Kind {
            kind: PartKind::Other,
            label: used
                .name
                .as_ref()
                .map_or(&common.name.text, |name| &name.text),
            size_within: sides(size, within),
            weight: weight(common, MODULE_WEIGHT),
            place: used.place,
            table: format!("module.{}", index + 1),
        };
        let shape = Shape::block(sides(size, nominal));
        put(list, room, waiting, &kind, &shape, 1, &used.placement);
    }
}

pub(super) fn things(list: &mut List, room: &Room<'_>, waiting: &mut Vec<Waiting>) {
    for (index, thing) in room.design.inside.iter().enumerate() {
        let (shape, size_within) = match &thing.shape {
            design::Shape::Block(size) => (Shape::block(sides(size, nominal)), sides(size, within)),
            design::Shape::Cylinder { diameter, length } => {
                let around = within(diameter);
                (
                    Shape::cylinder(diameter.si, length.si),
                    [around, around, within(length)],
                )
            }
            design::Shape::Volume(_) => continue,
        };
        list.next();
        let kind = Kind {
            kind: PartKind::Other,
            label: &thing.name.text,
            size_within,
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

/// Which way round a part may stand that nobody placed: a board on its pillars.
fn stand(kind: PartKind, said: &Placement) -> Stand {
    match (said.turn, kind) {
        (Some(word), _) => Stand::Exchanged(vec![order(word.value)]),
        (None, PartKind::Board) => Stand::OnFoot,
        (None, _) => Stand::Exchanged(Pose::ORDERS.into()),
    }
}

/// What is asked when places are to be found.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Question {
    plan: Plan,
    fixed: Vec<Part>,
    loose: Vec<Loose>,
    openings: Vec<Opening>,
}

/// Places found so far, in the order of the loose parts.
pub(crate) type Places = Memo<Question, Vec<Pose>>;

/// Finds a place for every part that waits; one that fits nowhere is put where it misses least.
pub(super) fn find(list: &mut List, room: &Room<'_>, waiting: &[Waiting]) {
    if waiting.is_empty() {
        return;
    }
    let waits = |index: usize| waiting.iter().position(|one| one.index == index);
    // Fixed parts first, then loose ones: the order in which wishes and openings count them.
    let (loose, fixed): (Vec<usize>, Vec<usize>) =
        (0..list.parts.len()).partition(|index| waits(*index).is_some());
    let renamed = |index: usize| {
        let among = |list: &[usize]| list.iter().position(|other| *other == index);
        among(&fixed).unwrap_or_else(|| fixed.len() + among(&loose).unwrap_or(0))
    };
    let target = |index: usize| {
        let among = |list: &[usize]| list.iter().position(|other| *other == index);
        among(&fixed).map_or_else(|| Target::Loose(among(&loose).unwrap_or(0)), Target::Fixed)
    };
    let mut openings = openings::closed(room.design, room.body, &list.parts);
    // A wall that comes off lets out whatever any hole would.
    if openings
        .first()
        .is_some_and(|opening| opening.hole.is_none())
    {
        openings.truncate(1);
    }
    for opening in &mut openings {
        for part in &mut opening.taken_out {
            *part = renamed(*part);
        }
    }
    let question = Question {
        plan: room.body.plan.clone(),
        fixed: fixed
            .iter()
            .map(|index| list.parts[*index].part.clone())
            .collect(),
        loose: waiting
            .iter()
            .map(|one| Loose {
                name: list.parts[one.index].label.clone(),
                shape: list.parts[one.index].part.shape.clone(),
                walls: one.walls.clone(),
                stand: one.stand.clone(),
                clearance: WANTED,
                wishes: wishes(list, one.index, target),
            })
            .collect(),
        openings,
    };
    let poses = room.places.of(question, |asked| {
        let found = arrange(room.body, &asked.fixed, &asked.loose, &asked.openings);
        let start = |index: usize| list.parts[waiting[index].index].part.pose;
        found
            .into_iter()
            .enumerate()
            .map(|(index, found)| match found {
                Ok(pose) => pose,
                Err(miss) => miss.map_or_else(|| start(index), |miss| miss.pose),
            })
            .collect()
    });
    for (one, pose) in waiting.iter().zip(poses.iter()) {
        list.parts[one.index].part.pose = *pose;
    }
}

/// What makes a place good for a part.
fn wishes(list: &List, index: usize, target: impl Fn(usize) -> Target) -> Wishes {
    let of = |kind: PartKind| {
        let parts = list.parts.iter().enumerate();
        parts
            .filter(move |(_, part)| part.kind == kind)
            .map(|(index, _)| index)
    };
    match list.parts[index].kind {
        PartKind::Battery => Wishes::battery(),
        PartKind::Board => {
            let cables: Vec<Target> = of(PartKind::Driver).map(&target).collect();
            let battery = of(PartKind::Battery).next();
            battery.map_or_else(
                || Wishes {
                    near: cables.iter().map(|to| (*to, 1.0)).collect(),
                    comes_out: true,
                    ..Wishes::default()
                },
                |battery| Wishes::amplifier(target(battery), cables.clone()),
            )
        }
        _ => Wishes {
            low: 1.0,
            central: 0.5,
            ..Wishes::default()
        },
    }
}
