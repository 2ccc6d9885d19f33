//! Where parts stand.

use crate::Frame;
use crate::math::{cos, sin};
use crate::vector::{Vector, add, cross, dot, scale, sub};
use crate::{Pose, Shape};

/// Rows of the rotation that leaves everything as it is.
const AS_MADE: [Vector; 3] = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];

/// A point of a part's frame, in the frame of the box.
pub(crate) fn apply(pose: &Pose, point: Vector) -> Vector {
    add(turned(&pose.turn, point), pose.at)
}

/// A direction, turned.
pub(crate) fn turned(turn: &[Vector; 3], along: Vector) -> Vector {
    turn.map(|row| dot(row, along))
}

pub(crate) fn transposed(turn: &[Vector; 3]) -> [Vector; 3] {
    [0, 1, 2].map(|i| [turn[0][i], turn[1][i], turn[2][i]])
}

impl Pose {
    /// As made, moved only.
    #[must_use]
    pub fn at(at: Vector) -> Self {
        Self { turn: AS_MADE, at }
    }

    /// Turned by right angles so that the part's axis `order[i]` lies along axis `i` of the
    /// box: `[0, 1, 2]` as made, `[2, 1, 0]` width and height exchanged. Where only two are
    /// exchanged the part is turned, not mirrored: one axis is reversed.
    #[must_use]
    pub fn exchanged(order: [usize; 3], at: Vector) -> Self {
        let mut turn = order.map(|axis| AS_MADE[axis]);
        if dot(cross(turn[0], turn[1]), turn[2]) < 0.0 {
            // Reversed is the axis that keeps its place, except the upright one: what stands
            // on its feet stays on its feet.
            let kept = (0..3).find(|i| order[*i] == *i).unwrap_or(1);
            let flipped = if kept == 2 { 1 } else { kept };
            turn[flipped] = scale(turn[flipped], -1.0);
        }
        Self { turn, at }
    }

    /// The six orders that [`Self::exchanged`] takes, as made first.
    pub const ORDERS: [[usize; 3]; 6] = [
        [0, 1, 2],
        [2, 1, 0],
        [0, 2, 1],
        [1, 0, 2],
        [1, 2, 0],
        [2, 0, 1],
    ];

    /// The 24 ways to set a part down with its axes along those of the box, as made first.
    #[must_use]
    pub fn right_angles() -> Vec<[Vector; 3]> {
        let mut turns = Vec::with_capacity(24);
        for order in Self::ORDERS {
            for signs in 0..8_u8 {
                let mut turn = order.map(|axis| AS_MADE[axis]);
                for (i, row) in turn.iter_mut().enumerate() {
                    if signs >> i & 1 == 1 {
                        *row = scale(*row, -1.0);
                    }
                }
                if dot(cross(turn[0], turn[1]), turn[2]) > 0.0 {
                    turns.push(turn);
                }
            }
        }
        turns
    }

    /// Rows of the turn by an angle in rad about an axis of length 1, counter-clockwise as
    /// seen from its tip.
    #[must_use]
    pub fn about(axis: Vector, angle: f64) -> [Vector; 3] {
        let (c, s) = (cos(angle), sin(angle));
        let [x, y, z] = axis;
        let t = 1.0 - c;
        [
            [t * x * x + c, t * x * y - s * z, t * x * z + s * y],
            [t * x * y + s * z, t * y * y + c, t * y * z - s * x],
            [t * x * z - s * y, t * y * z + s * x, t * z * z + c],
        ]
    }

    /// On a panel, as parts that sit in its holes are made: the origin on its outer face, at
    /// a point of the panel's frame in m, y into the box and z up the panel. Holds for all
    /// walls, also leaning ones.
    #[must_use]
    pub fn in_panel(frame: &Frame, at: [f64; 2]) -> Self {
        let columns = [frame.across, scale(frame.out, -1.0), frame.up];
        let along = add(scale(frame.across, at[0]), scale(frame.up, at[1]));
        Self {
            turn: transposed(&columns),
            at: add(frame.origin, along),
        }
    }

    /// The same turn, moved so that the lowest corner of the block around the part comes to
    /// lie at a point.
    #[must_use]
    pub fn with_low_corner(self, shape: &Shape, corner: Vector) -> Self {
        let (low, _) = shape.bounds(&self);
        Self {
            turn: self.turn,
            at: add(self.at, sub(corner, low)),
        }
    }

    /// A point of the part's frame, in the frame of the box.
    #[must_use]
    pub fn point(&self, point: Vector) -> Vector {
        apply(self, point)
    }

    /// A direction of the part's frame, in the frame of the box.
    #[must_use]
    pub fn direction(&self, along: Vector) -> Vector {
        turned(&self.turn, along)
    }
}
