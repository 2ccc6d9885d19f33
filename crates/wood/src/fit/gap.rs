//! Gaps between parts, and between parts and wood.

use super::closest::{closest, distance_up_to};
use super::convex::Convex;
use super::overlap::{exit, overlap, overlaps_by};
use super::scene::Scene;
use super::timber::Wood;
use crate::Polytope;
use crate::Wall;
use crate::vector::{Vector, add, dot, length, scale, unit};
use crate::{Body, PanelId};
use crate::{Part, Pose, Shape, Solid};

/// How deep solids may overlap and still count as touching, in m.
pub(crate) const CONTACT: f64 = 1e-7;
/// Moves in one direction, one after the other, until a part is clear of all that was in its
/// way; each ends beyond at least one more convex solid.
const MOVES: usize = 64;
/// The move that tells in which direction what touches gains gap, in m.
const SMALL: f64 = 1e-4;
/// A share of that move gained as gap that no other direction is asked to better.
const NEARLY_ALL: f64 = 0.999;
const AXES: [Vector; 3] = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];

/// What a part has a gap to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Other {
    /// Another part, by its index.
    Part(usize),
    /// A piece of wood.
    Panel(PanelId),
    /// The outside of the box beyond the inner face of a wall.
    Outside(Wall),
}

/// The gap between a part and something else.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// The part, by its index.
    pub a: usize,
    /// The other.
    pub b: Other,
    /// Shortest distance in m; where the two overlap, negative: how far the part must move
    /// along [`Self::away`] to be clear.
    pub gap: f64,
    /// The direction in which the part moves to gain gap, or to get clear; of length 1.
    pub away: Vector,
    /// Whether it is the air that one of the two keeps free, not its solid.
    pub air: bool,
}

/// A signed gap and the direction in which the first gains by moving.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Apart {
    pub(crate) gap: f64,
    pub(crate) away: Vector,
}

/// The signed gap between two convex solids.
pub(crate) fn between(a: &Convex, b: &Convex) -> Apart {
    if let Some(way) = closest(a, b) {
        let gap = length(way);
        return Apart {
            gap,
            away: scale(way, 1.0 / gap),
        };
    }
    let (depth, away) = overlap(a, b);
    Apart { gap: -depth, away }
}

/// The signed gap between two unions of convex solids; `None` where one is empty.
pub(crate) fn between_all(a: &[Convex], b: &[&Convex]) -> Option<Apart> {
    let pairs = a
        .iter()
        .flat_map(|first| b.iter().map(move |second| (first, *second)));
    let mut pairs: Vec<(f64, &Convex, &Convex)> = pairs
        .map(|(first, second)| (first.block_distance(second), first, second))
        .collect();
    // Near blocks first: what is far is then seldom asked.
    pairs.sort_by(|p, q| p.0.total_cmp(&q.0));
    let mut nearest: Option<Apart> = None;
    let mut ways: Vec<Vector> = Vec::new();
    for (blocks, first, second) in pairs {
        if blocks > nearest.map_or(f64::INFINITY, |n| n.gap.max(0.0)) {
            break;
        }
        let apart = between(first, second);
        if apart.gap <= CONTACT {
            ways.push(apart.away);
        }
        if nearest.is_none_or(|n| apart.gap < n.gap) {
            nearest = Some(apart);
        }
    }
    match nearest {
        Some(apart) if apart.gap.abs() <= CONTACT => Some(lifting_off(a, b, &ways, apart)),
        Some(apart) if apart.gap < 0.0 && a.len() * b.len() > 1 => {
            Some(clearing(a, b, &ways, apart))
        }
        other => other,
    }
}

/// Of two that touch: the direction in which a small move gains most gap, out of those of each
/// contact, all contacts together, and the axes. A contact over an edge has many directions
/// that part the two and still slide along a neighbour.
fn lifting_off(a: &[Convex], b: &[&Convex], ways: &[Vector], touching: Apart) -> Apart {
    let gained = |away: Vector| {
        let mut least = SMALL;
        for first in a {
            let moved = first.moved(scale(away, SMALL));
            for second in b {
                least = least.min(distance_up_to(&moved, second, least));
            }
        }
        least
    };
    let together = ways.iter().fold([0.0; 3], |sum, way| add(sum, *way));
    let axes = AXES.iter().flat_map(|axis| [*axis, scale(*axis, -1.0)]);
    let ways = ways.iter().copied().take(MOVES);
    let mut best = (f64::NEG_INFINITY, touching.away);
    for away in ways.chain(axes).chain([unit(together)]) {
        let gain = gained(away);
        if gain > best.0 + CONTACT {
            best = (gain, away);
        }
        if gain >= NEARLY_ALL * SMALL {
            break;
        }
    }
    Apart {
        away: best.1,
        ..touching
    }
}

/// The shortest move found, along the axes and the ways out of each overlap, that clears all.
fn clearing(a: &[Convex], b: &[&Convex], ways: &[Vector], deepest: Apart) -> Apart {
    let mut best = Apart {
        gap: f64::NEG_INFINITY,
        ..deepest
    };
    let axes = AXES.iter().flat_map(|axis| [*axis, scale(*axis, -1.0)]);
    for away in axes.chain(ways.iter().copied().take(MOVES)) {
        if let Some(depth) = clear_along(a, b, away, -best.gap)
            && -depth > best.gap + CONTACT
        {
            best = Apart { gap: -depth, away };
        }
    }
    best
}

/// How far `a` must move in one direction until it overlaps nothing; `None` where that is
/// beyond a limit.
fn clear_along(a: &[Convex], b: &[&Convex], away: Vector, limit: f64) -> Option<f64> {
    let mut by = 0.0_f64;
    for _ in 0..MOVES {
        let mut next = by;
        for first in a {
            let moved = first.moved(scale(away, by));
            for second in b {
                if moved.block_distance(second) > 0.0 {
                    continue;
                }
                let needed = exit(first, second, away);
                if needed > next + CONTACT && overlaps(&moved, second) {
                    next = needed;
                }
            }
        }
        if next <= by {
            return Some(by);
        }
        if next >= limit {
            return None;
        }
        by = next;
    }
    None
}

fn overlaps(a: &Convex, b: &Convex) -> bool {
    distance_up_to(a, b, CONTACT) <= 0.0 && overlaps_by(a, b, CONTACT)
}

/// A part as convex solids in the frame of the box.
#[derive(Clone, Debug)]
pub(crate) struct Placed {
    pub(crate) solids: Vec<Convex>,
    pub(crate) air: Vec<Convex>,
}

impl Placed {
    pub(crate) fn of(part: &Part) -> Self {
        Self::at(&part.shape, &part.pose)
    }

    /// A shape in a place.
    pub(crate) fn at(shape: &Shape, pose: &Pose) -> Self {
        let placed = |solids: &[Solid]| solids.iter().map(|s| Convex::placed(s, pose)).collect();
        Self {
            solids: placed(&shape.solids),
            air: placed(&shape.keep_free),
        }
    }
}

/// All gaps of parts to each other and to the wood, and how far they reach beyond the room of
/// the box; each pair once with its solids, and once more where air that one of them keeps
/// free is nearer. A part is not held against the wall in whose hole it sits.
#[must_use]
pub fn gaps(body: &Body, parts: &[Part]) -> Vec<Gap> {
    Scene::new(body, parts).gaps()
}

impl Scene<'_> {
    /// The same as [`gaps`] of a prepared scene.
    #[must_use]
    pub fn gaps(&self) -> Vec<Gap> {
        let mut found = Vec::new();
        for a in 0..self.parts.len() {
            self.gaps_of(a, a + 1, &mut found);
        }
        found
    }

    /// Gaps of a part to the wood, and to all parts from one on.
    fn gaps_of(&self, a: usize, from: usize, found: &mut Vec<Gap>) {
        let part = &self.parts[a];
        for b in from..self.parts.len() {
            to_part(&self.placed, a, b, found);
        }
        for wood in self.woods.iter() {
            if part
                .sits_in
                .is_none_or(|wall| wood.id != PanelId::Wall(wall))
            {
                to_wood(&self.placed, a, wood, found);
            }
        }
        found.extend(outside(&self.body.room, a, part, &self.placed[a]));
    }
}

fn to_part(placed: &[Placed], a: usize, b: usize, found: &mut Vec<Gap>) {
    let (first, second) = (&placed[a], &placed[b]);
    let solid = between_all(&first.solids, &refs(&second.solids));
    let forth = between_all(&first.air, &refs(&second.solids));
    let back = between_all(&first.solids, &refs(&second.air));
    let air = [forth, back].into_iter().flatten();
    let air = air.min_by(|p, q| p.gap.total_cmp(&q.gap));
    push(found, a, Other::Part(b), solid, air);
}

fn to_wood(placed: &[Placed], a: usize, wood: &Wood, found: &mut Vec<Gap>) {
    let solid = to_pieces(&placed[a].solids, wood);
    let air = to_pieces(&placed[a].air, wood);
    push(found, a, Other::Panel(wood.id), solid, air);
}

/// The gap of solids to a panel.
pub(crate) fn to_pieces(solids: &[Convex], wood: &Wood) -> Option<Apart> {
    between_all(solids, &refs(wood.rest.solids()))
}

fn refs(solids: &[Convex]) -> Vec<&Convex> {
    solids.iter().collect()
}

fn push(found: &mut Vec<Gap>, a: usize, b: Other, solid: Option<Apart>, air: Option<Apart>) {
    let gap = |apart: Apart, air: bool| Gap {
        a,
        b,
        gap: apart.gap,
        away: apart.away,
        air,
    };
    found.extend(solid.map(|apart| gap(apart, false)));
    let nearer = |air: &Apart| solid.is_none_or(|solid| air.gap < solid.gap - CONTACT);
    found.extend(air.filter(nearer).map(|apart| gap(apart, true)));
}

/// How far the solids of a part reach beyond the inner face of each wall, where they do.
fn outside(room: &Polytope, a: usize, part: &Part, placed: &Placed) -> Vec<Gap> {
    let mut found = Vec::new();
    for face in &room.faces {
        let wall = wall_of(face.plane.normal);
        if part.sits_in == Some(wall) {
            continue;
        }
        let normal = face.plane.normal;
        let reach = placed
            .solids
            .iter()
            .map(|s| s.reach(normal) - face.plane.offset);
        let beyond = reach.fold(f64::NEG_INFINITY, f64::max);
        if beyond > CONTACT {
            found.push(Gap {
                a,
                b: Other::Outside(wall),
                gap: -beyond,
                away: scale(normal, -1.0),
                air: false,
            });
        }
    }
    found
}

/// The wall that faces a direction, also where it leans.
fn wall_of(normal: Vector) -> Wall {
    let outward = |wall: Wall| match wall {
        Wall::Front => [0.0, -1.0, 0.0],
        Wall::Back => [0.0, 1.0, 0.0],
        Wall::Left => [-1.0, 0.0, 0.0],
        Wall::Right => [1.0, 0.0, 0.0],
        Wall::Top => [0.0, 0.0, 1.0],
        Wall::Bottom => [0.0, 0.0, -1.0],
    };
    let faces = |wall: &Wall| dot(outward(*wall), normal);
    let nearest = Wall::ALL
        .into_iter()
        .max_by(|a, b| faces(a).total_cmp(&faces(b)));
    nearest.expect("there are six walls")
}

/// The part moved by a gap along its way, so that it is clear.
impl Gap {
    /// Where the origin of the part's frame must go to be clear by a wanted gap in m; as it is
    /// where the gap is already there.
    #[must_use]
    pub fn cleared(&self, at: Vector, wanted: f64) -> Vector {
        add(at, scale(self.away, (wanted - self.gap).max(0.0)))
    }
}
