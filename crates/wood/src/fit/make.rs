//! Parts made from the dimensions a maker measures or reads off a data sheet.

use super::convex::Convex;
use crate::math::{cos, sin};
use crate::vector::{Vector, add, scale, sub, unit};
use crate::{Pose, Screw, Shape, Solid};

/// Diameter of the head of a small screw that holds a board, in m (common practice, no
/// source: M3 pan heads are 5.5 to 6 mm).
const BOARD_SCREW_HEAD: f64 = 0.006;
/// How far the screws of a board sit from its edges, in m (common practice, no source).
const BOARD_SCREW_INSET: f64 = 0.0035;
/// Straight pieces that a bend through a right angle is made of.
const BEND_PIECES: usize = 6;

impl Solid {
    /// A block between two corners in m.
    #[must_use]
    pub fn block(low: Vector, high: Vector) -> Self {
        let corner = |i: usize| {
            [0, 1, 2].map(|axis| {
                if i >> axis & 1 == 1 {
                    high[axis]
                } else {
                    low[axis]
                }
            })
        };
        Self::Hull((0..8).map(corner).collect())
    }

    /// A cylinder between the middles of its ends in m.
    #[must_use]
    pub fn cylinder(from: Vector, to: Vector, radius: f64) -> Self {
        Self::Frustum {
            from,
            to,
            from_radius: radius,
            to_radius: radius,
        }
    }
}

impl Shape {
    /// Of one or more convex solids, without screws and without air to keep free.
    #[must_use]
    pub fn of(solids: Vec<Solid>) -> Self {
        Self {
            solids,
            keep_free: Vec::new(),
            screws: Vec::new(),
        }
    }

    /// A block of width, depth and height in m along x, y and z, about the origin.
    #[must_use]
    pub fn block(size: [f64; 3]) -> Self {
        Self::of(vec![about_origin(size)])
    }

    /// An upright cylinder of diameter and height in m, about the origin.
    #[must_use]
    pub fn cylinder(diameter: f64, height: f64) -> Self {
        let end = [0.0, 0.0, 0.5 * height];
        Self::of(vec![Solid::cylinder(scale(end, -1.0), end, 0.5 * diameter)])
    }

    /// A board on four standoffs: width and depth along x and y and the height of what is on
    /// it along z, its underside that much above z = 0, where the standoffs stand; the origin
    /// is below its middle. Screws in its four corners are turned from above.
    #[must_use]
    pub fn board(size: [f64; 3], standoff: f64) -> Self {
        let half = [0.5 * size[0], 0.5 * size[1]];
        let body = Solid::block(
            [-half[0], -half[1], standoff],
            [half[0], half[1], standoff + size[2]],
        );
        let inset = half.map(|side| (side - BOARD_SCREW_INSET).max(0.0));
        let corners = [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]]
            .map(|side| [side[0] * inset[0], side[1] * inset[1]]);
        let mut solids = vec![body];
        if standoff > 0.0 {
            let post = |at: [f64; 2]| {
                let foot = [at[0], at[1], 0.0];
                Solid::cylinder(
                    foot,
                    add(foot, [0.0, 0.0, standoff]),
                    0.5 * BOARD_SCREW_HEAD,
                )
            };
            solids.extend(corners.map(post));
        }
        let screw = |at: [f64; 2]| Screw {
            head: [at[0], at[1], standoff + size[2]],
            along: [0.0, 0.0, -1.0],
        };
        Self {
            solids,
            keep_free: Vec::new(),
            screws: corners.map(screw).to_vec(),
        }
    }

    /// A tube of inner diameter, wall and length in m that starts at the origin, where it ends
    /// flush with the outer face of a panel, and runs along y into the box. With a bend, the
    /// first leg runs to the middle of the bend and the rest turns towards +z around a quarter
    /// circle; the length is that of its middle line. The air before its inner end stays free
    /// for one inner diameter (common practice, no source).
    #[must_use]
    pub fn duct(diameter: f64, wall: f64, length: f64, first_leg: Option<f64>) -> Self {
        let radius = 0.5 * diameter + wall;
        let line = middle_line(length, first_leg, radius);
        let solids = line
            .windows(2)
            .map(|ends| Solid::cylinder(ends[0], ends[1], radius))
            .collect();
        let end = line[line.len() - 1];
        let out = unit(sub(end, line[line.len() - 2]));
        let free = Solid::cylinder(end, add(end, scale(out, diameter)), 0.5 * diameter);
        Self {
            solids,
            keep_free: vec![free],
            screws: Vec::new(),
        }
    }

    /// A part of a control panel: its hole's middle is the origin, on the outer face of a
    /// plate of the given thickness. Diameter and length of its bush run from the back of the
    /// plate outwards; its body of width, height and depth lies behind the plate, and the
    /// free depth behind that is for a plug, lugs and the bend of wires. All in m.
    #[must_use]
    pub fn control(part: &ControlOutline) -> Self {
        let back = part.plate;
        let [width, height, depth] = part.body;
        let side = [0.5 * width, 0.5 * height];
        let body = Solid::block([-side[0], back, -side[1]], [side[0], back + depth, side[1]]);
        let mut solids = vec![body];
        if part.bush > 0.0 && part.hole > 0.0 {
            solids.push(Solid::cylinder(
                [0.0, back - part.bush, 0.0],
                [0.0, back, 0.0],
                0.5 * part.hole,
            ));
        }
        if part.knob[0] > 0.0 && part.knob[1] > 0.0 {
            solids.push(Solid::cylinder(
                [0.0, -part.knob[1], 0.0],
                [0.0; 3],
                0.5 * part.knob[0],
            ));
        }
        let mut keep_free = Vec::new();
        if part.behind > 0.0 {
            keep_free.push(Solid::block(
                [-side[0], back + depth, -side[1]],
                [side[0], back + depth + part.behind, side[1]],
            ));
        }
        if part.plug > 0.0 {
            keep_free.push(Solid::cylinder(
                [0.0, -part.plug, 0.0],
                [0.0; 3],
                0.5 * part.knob[0].max(part.hole),
            ));
        }
        Self {
            solids,
            keep_free,
            screws: Vec::new(),
        }
    }

    /// Lowest and highest corner of the upright block around it where it stands, air to keep
    /// free not counted, in m.
    #[must_use]
    pub fn bounds(&self, pose: &Pose) -> (Vector, Vector) {
        let mut low = [f64::INFINITY; 3];
        let mut high = [f64::NEG_INFINITY; 3];
        for solid in &self.solids {
            let solid = Convex::placed(solid, pose);
            for i in 0..3 {
                low[i] = low[i].min(solid.low[i]);
                high[i] = high[i].max(solid.high[i]);
            }
        }
        (low, high)
    }
}

/// Dimensions of a part of a control panel, in m.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ControlOutline {
    /// Thickness of the plate it sits in.
    pub plate: f64,
    /// Diameter of its hole, which its bush fills.
    pub hole: f64,
    /// Length of the bush from the back of the plate outwards.
    pub bush: f64,
    /// Width, height and depth of the body behind the plate.
    pub body: [f64; 3],
    /// Depth that stays free behind the body.
    pub behind: f64,
    /// Diameter and height of its knob, nut or flange in front of the plate.
    pub knob: [f64; 2],
    /// Length that a plug wants free in front of the plate.
    pub plug: f64,
}

fn about_origin(size: [f64; 3]) -> Solid {
    let half = size.map(|side| 0.5 * side);
    Solid::block(scale(half, -1.0), half)
}

/// The middle line of a duct as straight pieces; the bend has the smallest radius that keeps
/// its inner side open, one outer radius.
fn middle_line(length: f64, first_leg: Option<f64>, radius: f64) -> Vec<Vector> {
    let quarter = core::f64::consts::FRAC_PI_2;
    let bend = match first_leg {
        Some(leg) if leg > 0.0 && leg < length => leg,
        _ => return vec![[0.0; 3], [0.0, length, 0.0]],
    };
    let arc = quarter * radius;
    let start = (bend - 0.5 * arc).max(0.0);
    let rest = (length - start - arc).max(0.0);
    let mut line = vec![[0.0; 3]];
    for i in 0..=BEND_PIECES {
        let angle = quarter * i as f64 / BEND_PIECES as f64;
        line.push([
            0.0,
            start + radius * sin(angle),
            radius * (1.0 - cos(angle)),
        ]);
    }
    let end = line[line.len() - 1];
    line.push(add(end, [0.0, 0.0, rest]));
    line.dedup();
    line
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vector::length as long;

    #[test]
    fn a_block_stands_about_its_origin() {
        let (low, high) = Shape::block([0.2, 0.4, 0.6]).bounds(&Pose::at([1.0, 2.0, 3.0]));
        for (got, wanted) in [(low, [0.9, 1.8, 2.7]), (high, [1.1, 2.2, 3.3])] {
            assert!(long(sub(got, wanted)) < 1e-12, "{got:?}");
        }
    }

    #[test]
    fn a_bent_duct_keeps_its_length() {
        let line = middle_line(0.3, Some(0.12), 0.03);
        let total: f64 = line.windows(2).map(|w| long(sub(w[1], w[0]))).sum();
        // Six chords of a quarter circle fall short of the arc by 0.3 %.
        assert!((total - 0.3).abs() < 0.003 * 0.05, "{total}");
        let end = line[line.len() - 1];
        assert!(end[2] > 0.1 && end[1] < 0.15, "{end:?}");
    }

    #[test]
    fn a_board_stands_on_its_posts() {
        let board = Shape::board([0.1, 0.08, 0.025], 0.01);
        let (low, high) = board.bounds(&Pose::at([0.0; 3]));
        assert!(low[2].abs() < 1e-12 && (high[2] - 0.035).abs() < 1e-12);
        assert_eq!(board.screws.len(), 4);
    }
}
