//! Where parts stand.

use crate::Frame;
use crate::math::{acos, atan2, cos, sin};
use crate::vector::{Vector, add, cross, dot, length, scale, sub, unit};
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

/// The angle in rad of a rotation, and its axis.
pub(crate) fn angle_of(turn: &[Vector; 3]) -> (f64, Vector) {
    let twist = [
        turn[2][1] - turn[1][2],
        turn[0][2] - turn[2][0],
        turn[1][0] - turn[0][1],
    ];
    let trace = turn[0][0] + turn[1][1] + turn[2][2];
    let sine = length(twist);
    let angle = atan2(sine, trace - 1.0);
    if sine > 1e-6 {
        return (angle, scale(twist, 1.0 / sine));
    }
    if trace > 0.0 {
        return (0.0, [0.0, 0.0, 1.0]);
    }
    // Half a turn: the rotation and its inverse are one, and 1 + R is twice the axis by itself.
    let columns = [0, 1, 2].map(|i| [0, 1, 2].map(|j| turn[j][i] + AS_MADE[j][i]));
    let longest = |a: &&Vector, b: &&Vector| length(**a).total_cmp(&length(**b));
    let axis = columns
        .iter()
        .max_by(longest)
        .map_or(AS_MADE[2], |c| unit(*c));
    (acos(-1.0), axis)
}

/// First one turn, then the other.
pub(crate) fn after(second: &[Vector; 3], first: &[Vector; 3]) -> [Vector; 3] {
    let columns = transposed(first);
    second.map(|row| columns.map(|column| dot(row, column)))
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

    /// On the way from here to there, a share of 0 to 1: the origin of the part's frame moves
    /// straight, and the part turns evenly about an axis that keeps its direction.
    #[must_use]
    pub fn toward(&self, to: &Self, share: f64) -> Self {
        let (angle, axis) = angle_of(&after(&to.turn, &transposed(&self.turn)));
        Self {
            turn: after(&Self::about(axis, share * angle), &self.turn),
            at: add(self.at, scale(sub(to.at, self.at), share)),
        }
    }

    /// The angle in rad through which a part turns between the two.
    #[must_use]
    pub fn angle_to(&self, to: &Self) -> f64 {
        angle_of(&after(&to.turn, &transposed(&self.turn))).0
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

#[cfg(test)]
mod tests {
    use super::*;

    fn close(a: &[Vector; 3], b: &[Vector; 3]) -> bool {
        let off = (0..3).map(|i| length(sub(a[i], b[i]))).fold(0.0, f64::max);
        off < 1e-7
    }

    #[test]
    fn the_right_angles_are_24_rotations() {
        let turns = Pose::right_angles();
        assert_eq!(turns.len(), 24);
        for (i, turn) in turns.iter().enumerate() {
            assert!(dot(cross(turn[0], turn[1]), turn[2]) > 0.0);
            assert!(turns[..i].iter().all(|other| !close(other, turn)));
        }
    }

    #[test]
    fn an_exchange_turns_the_sides_and_does_not_mirror() {
        let shape = Shape::block([0.1, 0.2, 0.3]);
        for order in Pose::ORDERS {
            let pose = Pose::exchanged(order, [0.0; 3]);
            let (low, high) = shape.bounds(&pose);
            for (i, axis) in order.iter().enumerate() {
                let side = [0.1, 0.2, 0.3][*axis];
                assert!((high[i] - low[i] - side).abs() < 1e-12, "{order:?}");
            }
            assert!(dot(cross(pose.turn[0], pose.turn[1]), pose.turn[2]) > 0.0);
        }
    }

    #[test]
    fn half_way_twice_is_there() {
        for first in Pose::right_angles() {
            for second in Pose::right_angles() {
                let from = Pose {
                    turn: first,
                    at: [0.0; 3],
                };
                let to = Pose {
                    turn: second,
                    at: [1.0, 2.0, 3.0],
                };
                let end = from.toward(&to, 1.0);
                assert!(close(&end.turn, &to.turn), "{from:?} {to:?} {end:?}");
                let half = from.toward(&to, 0.5);
                assert!((half.angle_to(&to) - 0.5 * from.angle_to(&to)).abs() < 1e-7);
            }
        }
    }

    #[test]
    fn a_part_in_a_wall_points_inwards_and_up() {
        // The back, seen from behind: u runs to −x.
        let frame = Frame {
            origin: [0.4, 0.3, 0.0],
            across: [-1.0, 0.0, 0.0],
            up: [0.0, 0.0, 1.0],
            out: [0.0, 1.0, 0.0],
        };
        let pose = Pose::in_panel(&frame, [0.1, 0.2]);
        let near = |p: Vector, q: Vector| length(sub(p, q)) < 1e-12;
        assert!(near(pose.point([0.0; 3]), [0.3, 0.3, 0.2]));
        assert!(near(pose.direction([0.0, 1.0, 0.0]), [0.0, -1.0, 0.0]));
        assert!(near(pose.direction([0.0, 0.0, 1.0]), [0.0, 0.0, 1.0]));
        assert!(near(pose.direction([1.0, 0.0, 0.0]), [-1.0, 0.0, 0.0]));
    }
}
