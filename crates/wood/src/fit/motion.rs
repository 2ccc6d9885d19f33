//! Moving a part among obstacles.

use super::closest::{TOUCHING, closest, distance_up_to};
use super::convex::Convex;
use super::gap::CONTACT;
use super::grove::Grove;
use super::obstacles::Obstacles;
use super::overlap::{overlap, overlaps_by};
use crate::vector::{Vector, add, dot, length, scale, sub, unit};
use crate::{Frame, Pose, Solid};

/// Steps of one turning motion at most.
const STEPS: usize = 400;
/// The share of a gap that a motion may use up before the gap is measured again.
const SHARE: f64 = 0.6;
/// Shares of a turning motion at which a first look is taken.
const LOOKS: [f64; 7] = [0.5, 0.25, 0.75, 0.125, 0.375, 0.625, 0.875];
/// Gap gained per length of a move from which on it leads away from something rather than along
/// it (common practice, no source).
const LEADS_AWAY: f64 = 0.5;

/// A part that is moved, and what it must not touch.
#[derive(Clone, Debug)]
pub(crate) struct Mover<'a> {
    solids: &'a [Solid],
    obstacles: Obstacles<'a>,
    /// How far its furthest point lies from the origin of its frame.
    radius: f64,
}

impl<'a> Mover<'a> {
    pub(crate) fn new(solids: &'a [Solid], obstacles: Obstacles<'a>) -> Self {
        Self {
            solids,
            obstacles,
            radius: solids.iter().map(furthest).fold(0.0, f64::max),
        }
    }

    /// How far its furthest point lies from the origin of its frame, in m.
    pub(crate) fn radius(&self) -> f64 {
        self.radius
    }

    pub(crate) fn placed(&self, pose: &Pose) -> Vec<Convex> {
        self.solids
            .iter()
            .map(|s| Convex::placed(s, pose))
            .collect()
    }

    /// How it looks in an attitude: the reach of each solid along the axes of a frame, both
    /// ways, from the middle of the whole.
    pub(crate) fn looks(&self, turn: &[Vector; 3], frame: &Frame) -> Vec<f64> {
        let solids = self.placed(&Pose {
            turn: *turn,
            at: [0.0; 3],
        });
        let mut looks = Vec::with_capacity(6 * solids.len());
        for axis in [frame.across, frame.up, frame.out] {
            let back = scale(axis, -1.0);
            let reach = |along: Vector| {
                let each = solids.iter().map(|s| s.reach(along));
                each.fold(f64::NEG_INFINITY, f64::max)
            };
            let middle = 0.5 * (reach(axis) - reach(back));
            for solid in &solids {
                looks.push(solid.reach(axis) - middle);
                looks.push(solid.reach(back) + middle);
            }
        }
        looks
    }

    /// The gap to what is around it, up to a limit; 0 where something touches.
    pub(crate) fn gap(&self, pose: &Pose, limit: f64) -> f64 {
        self.nearest(&self.placed(pose), limit)
    }

    /// The smallest gap on a straight way without turning, up to a limit: exact, since all
    /// that a convex solid fills on such a way is convex.
    pub(crate) fn straight(&self, from: &Pose, by: Vector, limit: f64) -> f64 {
        self.nearest(&self.swept(from, by), limit)
    }

    /// The smallest gap on a straight way by which it is lifted off what it touches, up to a
    /// limit. A board or wall it touches there, and one the way leads away from, does not count:
    /// that gap only grows.
    pub(crate) fn lifting(&self, from: &Pose, by: Vector, limit: f64) -> f64 {
        let along = unit(by);
        let mut least = limit;
        for solid in self.placed(from) {
            let swept = solid.clone().swept(by);
            let nearer =
                |other: &Convex, least: f64| least.min(distance_up_to(&swept, other, least));
            for part in &self.obstacles.parts {
                if swept.block_distance(part) < least
                    && !is_left(Some(way_between(&solid, part)), along)
                {
                    least = nearer(part, least);
                }
            }
            for wood in &self.obstacles.woods {
                let gap = wood.nearer(&swept, least, nearer);
                if gap < least && !is_left(way_to(wood, &solid, limit), along) {
                    least = gap;
                }
            }
        }
        least.max(0.0)
    }

    /// Whether it runs into something on a straight way, more than it may touch.
    pub(crate) fn runs_into(&self, from: &Pose, by: Vector) -> bool {
        let pressed = |solid: &Convex, obstacle: &Convex| {
            distance_up_to(solid, obstacle, TOUCHING) <= 0.0
                && overlaps_by(solid, obstacle, CONTACT)
        };
        let mut solids = self.swept(from, by).into_iter();
        solids.any(|solid| {
            self.obstacles
                .any(&solid, TOUCHING, |obstacle| pressed(&solid, obstacle))
        })
    }

    /// How deep it runs into something on a straight way; 0 where it touches at most.
    pub(crate) fn depth(&self, from: &Pose, by: Vector) -> f64 {
        let mut depth = 0.0_f64;
        for solid in self.swept(from, by) {
            self.obstacles.nearer(&solid, TOUCHING, |obstacle, limit| {
                if distance_up_to(&solid, obstacle, TOUCHING) <= 0.0
                    && overlaps_by(&solid, obstacle, depth.max(CONTACT))
                {
                    depth = overlap(&solid, obstacle).0;
                }
                limit
            });
        }
        depth
    }

    /// The smallest gap on the way from one pose to another, up to a limit; `None` where it is
    /// below the margin. Never more than the true one: between two places the gap can shrink by
    /// no more than the furthest point moves.
    pub(crate) fn turning(&self, from: &Pose, to: &Pose, margin: f64, limit: f64) -> Option<f64> {
        // Most ways that are not free are blocked where a few looks find it.
        let blocked = |share: &f64| self.gap(&from.toward(to, *share), margin) < margin;
        if LOOKS.iter().any(blocked) {
            return None;
        }
        let way = length(sub(to.at, from.at)) + from.angle_to(to) * self.radius;
        let mut gap = self.gap(from, limit);
        let mut least = gap;
        let mut done = 0.0;
        for _ in 0..STEPS {
            if least < margin {
                return None;
            }
            if done >= way {
                return Some(least);
            }
            let step = (SHARE * gap).min(way - done);
            done += step;
            let next = self.gap(&from.toward(to, done / way), limit);
            least = least.min(0.5 * (gap + next - step));
            gap = next;
        }
        None
    }

    fn swept(&self, from: &Pose, by: Vector) -> Vec<Convex> {
        let solids = self.placed(from).into_iter();
        solids.map(|solid| solid.swept(by)).collect()
    }

    fn nearest(&self, solids: &[Convex], limit: f64) -> f64 {
        let mut least = limit;
        for solid in solids {
            least = self.obstacles.nearer(solid, least, |obstacle, least| {
                least.min(distance_up_to(solid, obstacle, least))
            });
            if least <= 0.0 {
                return 0.0;
            }
        }
        least
    }
}

/// Whether a move leads away from what lies on a way, or what lies there is touched.
fn is_left(way: Option<Vector>, along: Vector) -> bool {
    way.is_some_and(|way| {
        let gap = length(way);
        gap <= CONTACT || dot(way, along) > LEADS_AWAY * gap
    })
}

/// To one solid from another along the shortest way; of no length where they touch.
fn way_between(to: &Convex, from: &Convex) -> Vector {
    closest(to, from).unwrap_or([0.0; 3])
}

/// The shortest of such ways to a solid from the pieces of a board; `None` beyond a limit.
fn way_to(wood: &Grove, solid: &Convex, limit: f64) -> Option<Vector> {
    let mut way = None;
    wood.nearer(solid, limit, |piece, limit| {
        let this = way_between(solid, piece);
        if length(this) < limit {
            way = Some(this);
        }
        limit.min(length(this))
    });
    way
}

fn furthest(solid: &Solid) -> f64 {
    match solid {
        Solid::Hull(points) => points.iter().map(|p| length(*p)).fold(0.0, f64::max),
        Solid::Frustum {
            from,
            to,
            from_radius,
            to_radius,
        } => (length(*from) + from_radius).max(length(*to) + to_radius),
    }
}

/// The same pose, moved.
pub(crate) fn shifted(pose: &Pose, by: Vector) -> Pose {
    Pose {
        turn: pose.turn,
        at: add(pose.at, by),
    }
}

/// The part of a way along one axis only.
pub(crate) fn along_axis(way: Vector, axis: usize) -> Vector {
    let mut only = scale(way, 0.0);
    only[axis] = way[axis];
    only
}
