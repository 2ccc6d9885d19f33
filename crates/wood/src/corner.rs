//! Who owns the wood where walls meet.
//!
//! Beyond the inner faces of two walls lies the wood of their edge, and the joint
//! gives each point of it to one of them. With D the height above a wall's inner
//! face, t its thickness: in a butt joint all goes to the wall that runs through;
//! in a mitre to the one with the larger D/t, parted by the plane through outer and
//! inner edge whatever the thicknesses and the angle between the walls; in a rebate to
//! the wall with the step where its D exceeds the depth of the step. Where three walls
//! meet, a point belongs to the wall that wins against both others. So no two walls
//! overlap; where each loses against another, there is a hole in the corner.

use crate::plan::{Edge, Joint, Plan, Wall};
use crate::polytope::{Plane, Polytope, TOUCH};
use crate::sides::Side;
use crate::vector::{length, scale, sub};

/// How far a wall reaches into an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Reach {
    /// To the face of the block.
    Through,
    /// To the height D of the other wall, in m.
    To(f64),
    /// To the plane of the mitre.
    Mitre,
    /// To the face of the block where its own D exceeds the depth, else to the inner
    /// face of the other.
    Step(f64),
}

/// How far `wall` reaches into its edge with `other`.
pub(crate) fn reach(plan: &Plan, wall: Wall, other: Wall) -> Reach {
    let edge = Edge::between(wall, other).expect("neighbours meet");
    match plan.joints[edge.index()] {
        Joint::Butt { through } if through == wall => Reach::Through,
        Joint::Butt { .. } => Reach::To(0.0),
        Joint::Mitre => Reach::Mitre,
        Joint::Rebate { within, depth } if within == wall && depth > 0.0 => Reach::Step(depth),
        Joint::Rebate { within, .. } if within == wall => Reach::Through,
        Joint::Rebate { depth, .. } => Reach::To(depth.max(0.0)),
    }
}

/// The plane at which a layer of `wall` ends towards `other`; the layer lies below the
/// height `top` of its inner face.
pub(crate) fn end(sides: &[Side; 6], wall: Wall, other: Wall, reach: Reach, top: f64) -> Plane {
    let across = &sides[other.index()];
    match reach {
        Reach::Through => across.block,
        Reach::To(height) => across.inner.moved(height),
        Reach::Mitre => mitre(&sides[wall.index()], across),
        Reach::Step(depth) if top <= depth => across.inner,
        Reach::Step(_) => across.block,
    }
}

/// The plane where D/t of both are the same, facing out of `wall` towards `other`.
fn mitre(wall: &Side, other: &Side) -> Plane {
    let share = |side: &Side| {
        (
            scale(side.inner.normal, 1.0 / side.thickness),
            side.inner.offset / side.thickness,
        )
    };
    let ((n, o), (m, q)) = (share(wall), share(other));
    let normal = sub(m, n);
    let long = length(normal);
    Plane {
        normal: scale(normal, 1.0 / long),
        offset: (q - o) / long,
    }
}

/// Heights above the inner face of `wall` between which its section stays the same:
/// from the inner face over its steps to the outer face.
pub(crate) fn levels(plan: &Plan, wall: Wall) -> Vec<f64> {
    let thickness = plan.walls[wall.index()].thickness;
    let mut levels = vec![0.0, thickness];
    for other in wall.neighbours() {
        if let Reach::Step(depth) = reach(plan, wall, other) {
            levels.push(depth.min(thickness));
        }
    }
    levels.sort_by(f64::total_cmp);
    levels.dedup_by(|a, b| (*a - *b).abs() < TOUCH);
    levels
}

/// The half space in which `x` wins against `y` beyond the inner faces of both; `None`
/// where it never does.
fn wins(plan: &Plan, sides: &[Side; 6], x: Wall, y: Wall) -> Option<Plane> {
    match reach(plan, y, x) {
        Reach::Through => None,
        Reach::To(height) => Some(sides[x.index()].inner.moved(height).flipped()),
        Reach::Mitre => Some(mitre(&sides[y.index()], &sides[x.index()]).flipped()),
        Reach::Step(depth) => Some(sides[y.index()].inner.moved(depth)),
    }
}

/// The eight corners of a box.
pub(crate) const CORNERS: [[Wall; 3]; 8] = {
    use Wall::{Back, Bottom, Front, Left, Right, Top};
    [
        [Front, Left, Top],
        [Front, Left, Bottom],
        [Front, Right, Top],
        [Front, Right, Bottom],
        [Back, Left, Top],
        [Back, Left, Bottom],
        [Back, Right, Top],
        [Back, Right, Bottom],
    ]
};

/// The holes in corners whose joints leave each wall to lose against another.
pub(crate) fn open_corners(
    plan: &Plan,
    sides: &[Side; 6],
    block: &Polytope,
) -> Vec<([Wall; 3], f64)> {
    let volume = |[a, b, c]: [Wall; 3]| -> Option<f64> {
        let beyond = [a, b, c].map(|wall| sides[wall.index()].inner.flipped());
        let won = [(a, b), (b, c), (c, a)].map(|(x, y)| wins(plan, sides, x, y));
        let [Some(first), Some(second), Some(third)] = won else {
            return None;
        };
        let hole = block.clip_all(beyond.iter().chain(&[first, second, third]))?;
        Some(hole.volume())
    };
    let either_way = |[a, b, c]: [Wall; 3]| {
        let sum = volume([a, b, c]).unwrap_or(0.0) + volume([a, c, b]).unwrap_or(0.0);
        ([a, b, c], sum)
    };
    CORNERS
        .into_iter()
        .map(either_way)
        .filter(|(_, volume)| *volume > 0.0)
        .collect()
}
