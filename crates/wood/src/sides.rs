//! The block seen from its six sides: planes, frames and who is whose neighbour.

use crate::math;
use crate::panel::Frame;
use crate::plan::{Block, Plan, Wall};
use crate::polytope::{Plane, Polytope};
use crate::vector::{Vector, add, cross, dot, scale, sub};

/// The three planes of a wall, all facing out of the box.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Side {
    /// Of the block.
    pub(crate) block: Plane,
    /// Of the outer face, behind the block's by the setback.
    pub(crate) outer: Plane,
    /// Of the inner face.
    pub(crate) inner: Plane,
    /// Thickness in m.
    pub(crate) thickness: f64,
}

impl Wall {
    /// The walls at its lower, right, upper and left edge as seen from outside; top and
    /// bottom are seen with the front edge down.
    #[must_use]
    pub const fn neighbours(self) -> [Self; 4] {
        use Wall::{Back, Bottom, Front, Left, Right, Top};
        match self {
            Front => [Bottom, Right, Top, Left],
            Back => [Bottom, Left, Top, Right],
            Left => [Bottom, Front, Top, Back],
            Right => [Bottom, Back, Top, Front],
            Top => [Front, Right, Back, Left],
            Bottom => [Front, Left, Back, Right],
        }
    }
}

impl Block {
    /// The plane of one of its sides, facing out.
    #[must_use]
    pub fn plane(&self, wall: Wall) -> Plane {
        let facing = |normal: Vector, offset: f64| Plane { normal, offset };
        let (sin_front, cos_front) = (math::sin(self.front_lean), math::cos(self.front_lean));
        let (sin_back, cos_back) = (math::sin(self.back_lean), math::cos(self.back_lean));
        match wall {
            Wall::Front => facing([0.0, -cos_front, sin_front], 0.0),
            Wall::Back => facing([0.0, cos_back, sin_back], self.depth * cos_back),
            Wall::Left => facing([-1.0, 0.0, 0.0], 0.0),
            Wall::Right => facing([1.0, 0.0, 0.0], self.width),
            Wall::Top => facing([0.0, 0.0, 1.0], self.height),
            Wall::Bottom => facing([0.0, 0.0, -1.0], 0.0),
        }
    }

    /// The block as a solid; `None` where its sides close nothing.
    #[must_use]
    pub fn solid(&self) -> Option<Polytope> {
        Polytope::from_planes(&Wall::ALL.map(|wall| self.plane(wall)))
    }

    /// Depth between front and back at a height above the foot, in m.
    #[must_use]
    pub fn depth_at(&self, height: f64) -> f64 {
        self.depth - height * (math::tan(self.front_lean) + math::tan(self.back_lean))
    }

    /// The frame of one of its sides, in which [`crate::Hole::at`] is meant: from the left
    /// end of the side's lower edge as seen from outside.
    #[must_use]
    pub fn frame(&self, wall: Wall) -> Frame {
        let foot = |lean: f64| self.height * math::tan(lean);
        let origin = match wall {
            Wall::Front => [0.0, 0.0, 0.0],
            Wall::Back => [self.width, self.depth, 0.0],
            Wall::Left => [0.0, self.depth, 0.0],
            Wall::Right => [self.width, 0.0, 0.0],
            Wall::Top => [0.0, foot(self.front_lean), self.height],
            Wall::Bottom => [self.width, 0.0, 0.0],
        };
        let across = match wall {
            Wall::Front | Wall::Top => [1.0, 0.0, 0.0],
            Wall::Back | Wall::Bottom => [-1.0, 0.0, 0.0],
            Wall::Left => [0.0, -1.0, 0.0],
            Wall::Right => [0.0, 1.0, 0.0],
        };
        let out = self.plane(wall).normal;
        Frame {
            origin,
            across,
            up: cross(out, across),
            out,
        }
    }
}

impl Frame {
    /// A point so far across, up and out, in space.
    #[must_use]
    pub fn point(&self, at: [f64; 2], out: f64) -> Vector {
        let along = add(scale(self.across, at[0]), scale(self.up, at[1]));
        add(self.origin, add(along, scale(self.out, out)))
    }

    /// How far across and up a point lies.
    #[must_use]
    pub fn flat(&self, point: Vector) -> [f64; 2] {
        let arm = sub(point, self.origin);
        [dot(arm, self.across), dot(arm, self.up)]
    }

    /// How far out of the outer face a point lies; negative within the wood.
    #[must_use]
    pub fn height(&self, point: Vector) -> f64 {
        dot(sub(point, self.origin), self.out)
    }
}

/// The sides of a plan, in the order of [`Wall::ALL`].
pub(crate) fn sides(plan: &Plan) -> [Side; 6] {
    Wall::ALL.map(|wall| {
        let block = plan.block.plane(wall);
        let what = plan.walls[wall.index()];
        let outer = block.moved(-what.setback);
        Side {
            block,
            outer,
            inner: outer.moved(-what.thickness),
            thickness: what.thickness,
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const LEANING: Block = Block {
        width: 0.3,
        height: 0.4,
        depth: 0.25,
        front_lean: 0.2,
        back_lean: 0.1,
    };

    #[test]
    fn frames_are_right_handed_and_lie_in_their_sides() {
        for wall in Wall::ALL {
            let frame = LEANING.frame(wall);
            let out = cross(frame.across, frame.up);
            for (found, wanted) in out.into_iter().zip(frame.out) {
                assert!((found - wanted).abs() < 1e-15);
            }
            for at in [[0.0, 0.0], [0.1, 0.2]] {
                let height = LEANING.plane(wall).distance(frame.point(at, 0.0));
                assert!(height.abs() < 1e-15, "{wall:?}: {height}");
            }
        }
    }

    #[test]
    fn upright_walls_point_up_and_flat_ones_to_the_back() {
        for wall in [Wall::Front, Wall::Back, Wall::Left, Wall::Right] {
            assert!(LEANING.frame(wall).up[2] > 0.9, "{wall:?}");
        }
        for wall in [Wall::Top, Wall::Bottom] {
            assert!(LEANING.frame(wall).up[1] > 0.9, "{wall:?}");
        }
    }

    #[test]
    fn neighbours_lie_where_they_are_said_to() {
        let block = LEANING.solid().unwrap();
        for wall in Wall::ALL {
            let frame = LEANING.frame(wall);
            let middle = block.centroid();
            let ways = [[0.0, -1.0], [1.0, 0.0], [0.0, 1.0], [-1.0, 0.0]];
            for (way, neighbour) in ways.into_iter().zip(wall.neighbours()) {
                let far = add(middle, sub(frame.point(way, 0.0), frame.origin));
                let beyond = LEANING.plane(neighbour).distance(far);
                assert!(beyond > 0.0, "{wall:?} {neighbour:?}");
            }
        }
    }
}
