//! The outer block and its walls: from sizes outside or inside.

use physics::math::{cos, tan};
use wood::vector::{Vector, add, scale};
use wood::{Block, Frame, Wall, WallPlan};

/// The middle of a side of the block: from its left and bottom edge, in m.
pub(crate) fn middle(block: &Block, wall: Wall) -> [f64; 2] {
    let [width, height] = extent(block, wall);
    let half_up = block.height / 2.0;
    let from_front = half_up * tan(block.front_lean);
    let from_back = half_up * tan(block.back_lean);
    match wall {
        Wall::Left => [(block.depth + from_back - from_front) / 2.0, height / 2.0],
        Wall::Right => [(block.depth + from_front - from_back) / 2.0, height / 2.0],
        Wall::Front | Wall::Back | Wall::Top | Wall::Bottom => [width / 2.0, height / 2.0],
    }
}

/// Width and height of a side of the block as seen from outside, in m: of one whose
/// edges lean, at half its height.
pub(crate) fn extent(block: &Block, wall: Wall) -> [f64; 2] {
    let lean = tan(block.front_lean) + tan(block.back_lean);
    match wall {
        Wall::Front => [block.width, block.height / cos(block.front_lean)],
        Wall::Back => [block.width, block.height / cos(block.back_lean)],
        Wall::Left | Wall::Right => [block.depth - lean * block.height / 2.0, block.height],
        Wall::Top => [block.width, block.depth - lean * block.height],
        Wall::Bottom => [block.width, block.depth],
    }
}

/// The outer block and its walls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Hull {
    pub(crate) block: Block,
    pub(crate) walls: [WallPlan; 6],
}

impl Hull {
    /// From width, height and depth outside, or between the walls: there the depth is
    /// that on the floor.
    pub(crate) fn new(
        size: [f64; 3],
        outside: bool,
        leans: [f64; 2],
        walls: [WallPlan; 6],
    ) -> Self {
        let [front_lean, back_lean] = leans;
        let behind = |wall: Wall| {
            let wall = walls[wall.index()];
            wall.thickness + wall.setback
        };
        let [mut width, mut height, mut depth] = size;
        if !outside {
            width += behind(Wall::Left) + behind(Wall::Right);
            height += behind(Wall::Bottom) + behind(Wall::Top);
            depth += behind(Wall::Front) / cos(front_lean) + behind(Wall::Back) / cos(back_lean);
            depth += behind(Wall::Bottom) * (tan(front_lean) + tan(back_lean));
        }
        Self {
            block: Block {
                width,
                height,
                depth,
                front_lean,
                back_lean,
            },
            walls,
        }
    }

    /// The frame in which parts on a wall are placed: that of the block's side, moved onto
    /// the wall's outer face.
    pub(crate) fn face(&self, wall: Wall) -> Frame {
        let frame = self.block.frame(wall);
        let setback = self.walls[wall.index()].setback;
        Frame {
            origin: add(frame.origin, scale(frame.out, -setback)),
            ..frame
        }
    }

    /// From the outer face of the block to the inner face of a wall, in m.
    pub(crate) fn behind(&self, wall: Wall) -> f64 {
        let wall = self.walls[wall.index()];
        wall.thickness + wall.setback
    }

    /// Lowest and highest x and z, and y on the floor, between the walls.
    pub(crate) fn inside(&self) -> (Vector, Vector) {
        let block = &self.block;
        let floor = self.behind(Wall::Bottom);
        (
            [self.behind(Wall::Left), self.front_at(floor), floor],
            [
                block.width - self.behind(Wall::Right),
                self.back_at(floor),
                block.height - self.behind(Wall::Top),
            ],
        )
    }

    /// Width, height, and depth on the floor between the walls, in m.
    pub(crate) fn inside_size(&self) -> [f64; 3] {
        let (low, high) = self.inside();
        [high[0] - low[0], high[2] - low[2], high[1] - low[1]]
    }

    /// The inner face of the front at a height, in m along y.
    pub(crate) fn front_at(&self, height: f64) -> f64 {
        let lean = self.block.front_lean;
        height * tan(lean) + self.behind(Wall::Front) / cos(lean)
    }

    /// The inner face of the back at a height, in m along y.
    pub(crate) fn back_at(&self, height: f64) -> f64 {
        let lean = self.block.back_lean;
        self.block.depth - height * tan(lean) - self.behind(Wall::Back) / cos(lean)
    }

    /// Volume of an upright block that lies between the walls, in m³.
    pub(crate) fn shared(&self, (low, high): (Vector, Vector)) -> f64 {
        let (inner_low, inner_high) = self.inside();
        let side = |axis: usize| high[axis].min(inner_high[axis]) - low[axis].max(inner_low[axis]);
        (0..3).map(|axis| side(axis).max(0.0)).product()
    }

    /// Whether there is something between the walls at all.
    pub(crate) fn has_inside(&self) -> bool {
        let (low, high) = self.inside();
        let top = high[2];
        (0..3).all(|axis| high[axis] > low[axis]) && self.back_at(top) > self.front_at(top)
    }

    /// The upright block around a region on a wall, from `out[0]` to `out[1]` out of the
    /// outer face of the block: its lowest and highest corner.
    pub(crate) fn region(
        &self,
        wall: Wall,
        low: [f64; 2],
        high: [f64; 2],
        out: [f64; 2],
    ) -> (Vector, Vector) {
        let side = self.block.frame(wall);
        let mut ends = ([f64::INFINITY; 3], [f64::NEG_INFINITY; 3]);
        for corner in 0..8_usize {
            let pick = |axis: usize, of: [f64; 2]| of[(corner >> axis) & 1];
            let at = [pick(0, [low[0], high[0]]), pick(1, [low[1], high[1]])];
            let point = side.point(at, pick(2, out));
            for (axis, at) in point.into_iter().enumerate() {
                ends.0[axis] = ends.0[axis].min(at);
                ends.1[axis] = ends.1[axis].max(at);
            }
        }
        ends
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn walls(thickness: f64) -> [WallPlan; 6] {
        [WallPlan {
            thickness,
            setback: 0.0,
        }; 6]
    }

    #[test]
    fn inside_and_outside_agree() {
        let mut thick = walls(0.012);
        thick[Wall::Front.index()] = WallPlan {
            thickness: 0.018,
            setback: 0.004,
        };
        let inside = [0.36, 0.25, 0.2];
        let hull = Hull::new(inside, false, [0.12, 0.05], thick);
        for (got, want) in hull.inside_size().into_iter().zip(inside) {
            assert!((got - want).abs() < 1e-12);
        }
        let block = hull.block;
        let again = Hull::new(
            [block.width, block.height, block.depth],
            true,
            [0.12, 0.05],
            thick,
        );
        assert_eq!(again, hull);
    }
}
