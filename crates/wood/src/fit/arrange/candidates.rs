//! Places worth trying for a part.

use super::field::Field;
use super::{Loose, Stand};
use crate::Wall;
use crate::fit::convex::Convex;
use crate::fit::pose::transposed;
use crate::shape::Pose;
use crate::vector::{Vector, add, cross, dot, scale};

/// Places of the grid along one axis.
const GRID: usize = 5;
/// Places closer than this are one, in m.
const SAME: f64 = 0.001;

/// A place for a part.
#[derive(Clone, Debug)]
pub(crate) struct Candidate {
    pub(crate) pose: Pose,
    /// The wall it is on.
    pub(crate) wall: Wall,
    /// The axes along that wall.
    pub(crate) axes: [Vector; 2],
    /// The block around it.
    pub(crate) low: Vector,
    pub(crate) high: Vector,
    /// What it costs.
    pub(crate) score: f64,
}

/// Places on the walls a part may be on, the cheapest first.
pub(crate) fn candidates(field: &Field, loose: &Loose) -> Vec<Candidate> {
    let mut found = Vec::new();
    for wall in &loose.walls {
        for turn in turns(field, &loose.stand, *wall) {
            on_wall(field, loose, *wall, turn, &mut found);
        }
    }
    found.sort_by(|a, b| a.score.total_cmp(&b.score));
    found
}

fn turns(field: &Field, stand: &Stand, wall: Wall) -> Vec<[Vector; 3]> {
    match stand {
        Stand::Exchanged(orders) => {
            let turns = orders.iter().map(|order| Pose::exchanged(*order, [0.0; 3]));
            turns.map(|pose| pose.turn).collect()
        }
        Stand::OnFoot => {
            let frame = &field.body.wall(wall).frame;
            let up = scale(frame.out, -1.0);
            let back = |axis: Vector| scale(axis, -1.0);
            let sides = [frame.across, frame.up, back(frame.across), back(frame.up)];
            let turn = |side: Vector| transposed(&[side, cross(up, side), up]);
            sides.into_iter().map(turn).collect()
        }
    }
}

/// Places on one wall in one attitude, pressed against its inner face.
fn on_wall(
    field: &Field,
    loose: &Loose,
    wall: Wall,
    turn: [Vector; 3],
    found: &mut Vec<Candidate>,
) {
    let here = Pose { turn, at: [0.0; 3] };
    let solids = &loose.shape.solids;
    let solids: Vec<Convex> = solids.iter().map(|s| Convex::placed(s, &here)).collect();
    let (low, high) = loose.shape.bounds(&here);
    let frame = &field.body.wall(wall).frame;
    let (out, offset) = field.inner(wall);
    let press = scale(out, offset - span(solids.iter(), out)[1]);
    let axes = [frame.across, frame.up];
    let places = axes.map(|axis| places(field, &solids, axis, loose.clearance));
    for u in &places[0] {
        for v in &places[1] {
            let by = add(press, add(scale(axes[0], *u), scale(axes[1], *v)));
            let (low, high) = (add(low, by), add(high, by));
            found.push(Candidate {
                pose: Pose { turn, at: by },
                wall,
                axes,
                low,
                high,
                score: loose.wishes.score(field, low, high),
            });
        }
    }
}

/// How far to move along an axis: to the ends of the room, beside everything that is there, and
/// over a grid.
fn places(field: &Field, solids: &[Convex], axis: Vector, clearance: f64) -> Vec<f64> {
    let [low, high] = span(solids.iter(), axis);
    let corners = field.body.room.vertices.iter().map(|c| dot(*c, axis));
    let (mut first, mut last) = (f64::INFINITY, f64::NEG_INFINITY);
    for corner in corners {
        first = first.min(corner - low + clearance);
        last = last.max(corner - high - clearance);
    }
    if last < first {
        return vec![0.5 * (first + last)];
    }
    let mut places = vec![first, last];
    for i in 1..=GRID {
        places.push(first + (last - first) * i as f64 / (GRID + 1) as f64);
    }
    for other in field.solids() {
        let [from, to] = span(std::iter::once(other), axis);
        places.extend([from - high - clearance, to - low + clearance]);
    }
    places.retain(|place| *place >= first && *place <= last);
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| *a - *b < SAME);
    places
}

/// How far solids reach along an axis, from and to.
fn span<'a>(solids: impl Iterator<Item = &'a Convex>, axis: Vector) -> [f64; 2] {
    let mut span = [f64::INFINITY, f64::NEG_INFINITY];
    for solid in solids {
        span[0] = span[0].min(-solid.reach(scale(axis, -1.0)));
        span[1] = span[1].max(solid.reach(axis));
    }
    span
}
