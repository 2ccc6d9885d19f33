//! Ways for a part between two places inside the box.

use super::carry::{FAR, MARGIN, WIDE};
use super::motion::{Mover, along_axis, shifted};
use super::pose::turned;
use super::roadmap::roadmap;
use crate::vector::{Vector, add, length, scale, sub};
use crate::{Body, Pose};

/// Orders in which the three axes are moved along.
const ORDERS: [[usize; 3]; 6] = Pose::ORDERS;

/// Shares of the room's sides at which a part may be turned.
const TURNING: [f64; 3] = [0.5, 0.3, 0.7];

/// What is known of the room before the search begins.
#[derive(Clone, Debug)]
pub(crate) struct Links {
    /// Lowest and highest corner of the room.
    pub(crate) room: [Vector; 2],
    /// Places where the middle of the part may be turned.
    spots: Vec<Vector>,
    /// The middle of the part in its own frame.
    middle: Vector,
    /// Bound of the roadmap.
    pub(crate) nodes: usize,
}

impl Links {
    pub(crate) fn new(body: &Body, mover: &Mover, nodes: usize) -> Self {
        Self::over(room(body), mover, nodes)
    }

    /// Over a room between two corners.
    pub(crate) fn over(room: [Vector; 2], mover: &Mover, nodes: usize) -> Self {
        let as_made = mover.placed(&Pose::at([0.0; 3]));
        let middle = [0, 1, 2].map(|i| {
            let low = as_made
                .iter()
                .map(|s| s.low[i])
                .fold(f64::INFINITY, f64::min);
            let high = as_made
                .iter()
                .map(|s| s.high[i])
                .fold(f64::NEG_INFINITY, f64::max);
            0.5 * (low + high)
        });
        Self {
            room,
            spots: spots(&room, &TURNING),
            middle,
            nodes,
        }
    }

    /// The pose with a turn and its middle in a place.
    pub(crate) fn centred(&self, turn: &[Vector; 3], middle: Vector) -> Pose {
        Pose {
            turn: *turn,
            at: sub(middle, turned(turn, self.middle)),
        }
    }

    fn middle_of(&self, pose: &Pose) -> Vector {
        pose.point(self.middle)
    }
}

/// Poses from one place to another, both included, or none where no way was found.
pub(crate) fn link(
    mover: &Mover,
    links: &Links,
    from: &Pose,
    to: &Pose,
    grow: bool,
) -> Option<Vec<Pose>> {
    if mover.gap(to, 2.0 * MARGIN) <= MARGIN {
        return None;
    }
    if grow {
        return roadmap(mover, links, from, to);
    }
    if from.angle_to(to) < 1e-9 {
        return slide(mover, from, to);
    }
    turn_somewhere(mover, links, from, to)
}

/// Without turning: straight, or along the axes one after the other in any order.
pub(crate) fn slide(mover: &Mover, from: &Pose, to: &Pose) -> Option<Vec<Pose>> {
    let way = sub(to.at, from.at);
    let free = |pose: &Pose, by: Vector| mover.straight(pose, by, 2.0 * MARGIN) > MARGIN;
    if free(from, way) {
        return Some(vec![*from, *to]);
    }
    ORDERS.iter().find_map(|order| {
        let mut path = vec![*from];
        for axis in order {
            let by = along_axis(way, *axis);
            if length(by) > 0.0 {
                let last = path[path.len() - 1];
                if !free(&last, by) {
                    return None;
                }
                path.push(shifted(&last, by));
            }
        }
        Some(path)
    })
}

/// To a place with room, turn there, and on. Of the places that will do, the widest of the
/// first few.
fn turn_somewhere(mover: &Mover, links: &Links, from: &Pose, to: &Pose) -> Option<Vec<Pose>> {
    let mut best: Option<(f64, Vec<Pose>)> = None;
    let here = [links.middle_of(from), links.middle_of(to)];
    for spot in here.iter().chain(&links.spots) {
        let before = links.centred(&from.turn, *spot);
        let behind = links.centred(&to.turn, *spot);
        let tight = |pose: &Pose| mover.gap(pose, 2.0 * MARGIN) <= MARGIN;
        if tight(&before) || tight(&behind) {
            continue;
        }
        let Some(mut path) = slide(mover, from, &before) else {
            continue;
        };
        let Some(rest) = slide(mover, &behind, to) else {
            continue;
        };
        let Some(gap) = mover.turning(&before, &behind, MARGIN, FAR) else {
            continue;
        };
        path.extend(rest);
        path.dedup();
        if gap >= WIDE {
            return Some(path);
        }
        if best.as_ref().is_none_or(|best| gap > best.0) {
            best = Some((gap, path));
        }
    }
    best.map(|(_, path)| path)
}

/// The smallest gap on a way, up to the far one; `None` where it is not free.
pub(crate) fn least_gap(mover: &Mover, path: &[Pose]) -> Option<f64> {
    let mut least = FAR;
    for pair in path.windows(2) {
        let gap = if pair[0].angle_to(&pair[1]) < 1e-9 {
            mover.straight(&pair[0], sub(pair[1].at, pair[0].at), least)
        } else {
            mover.turning(&pair[0], &pair[1], 0.0, least)?
        };
        least = least.min(gap);
    }
    (least > 0.0).then_some(least)
}

/// Lowest and highest corner of the room.
pub(crate) fn room(body: &Body) -> [Vector; 2] {
    let corners = &body.room.vertices;
    let extreme = |pick: fn(f64, f64) -> f64, start: f64| {
        [0, 1, 2].map(|i| corners.iter().map(|c| c[i]).fold(start, pick))
    };
    [
        extreme(f64::min, f64::INFINITY),
        extreme(f64::max, f64::NEG_INFINITY),
    ]
}

/// Places all over the room at shares of its three sides, the middle first.
pub(crate) fn spots(room: &[Vector; 2], shares: &[f64]) -> Vec<Vector> {
    let size = sub(room[1], room[0]);
    let mut spots = Vec::new();
    for x in shares {
        for y in shares {
            for z in shares {
                let off = [x * size[0], y * size[1], z * size[2]];
                spots.push(add(room[0], off));
            }
        }
    }
    let centre = add(room[0], scale(size, 0.5));
    let far = |spot: &Vector| length(sub(*spot, centre));
    spots.sort_by(|a, b| far(a).total_cmp(&far(b)));
    spots
}
