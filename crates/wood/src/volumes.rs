//! Volumes in closed form, for thousands of boxes that differ a little.
//!
//! Cut parallel to itself, a wall shows a rectangle, or between leaning front and back a
//! trapezoid, whose sides move evenly with height; its area is a parabola between
//! steps, which Simpson's rule integrates exactly. It knows nothing of the solid
//! model, and the tests hold one against the other.

use crate::body::Body;
use crate::corner::{Reach, reach};
use crate::hole::{Cut, starts};
use crate::ledger::Ledger;
use crate::math;
use crate::plan::{Block, Plan, Wall};
use crate::{batten, edging};

/// Volumes of a box, named as in [`Ledger`].
#[derive(Clone, Debug, PartialEq)]
pub struct Volumes {
    /// The room between the walls, boards not taken off, in m³.
    pub room: f64,
    /// Wood of each wall in the order of [`Wall::ALL`], holes not taken off, in m³.
    pub walls: [f64; 6],
    /// Wood that holes take off each wall, in m³.
    pub holes: [f64; 6],
    /// Wood of each board in the order of the plan, windows taken off, in m³.
    pub boards: Vec<f64>,
}

impl Volumes {
    /// The volumes of a plan without fatal faults; other plans give numbers without meaning.
    ///
    /// Exact to rounding, but for formed edges: where two or three of them meet at a corner,
    /// right-angled corners and one size are taken for granted.
    #[must_use]
    pub fn of(plan: &Plan) -> Self {
        let mut walls = Wall::ALL.map(|wall| wood(plan, wall));
        edging::take_off(plan, &mut walls);
        Self {
            room: Inside::of(plan).volume(),
            walls,
            holes: Wall::ALL.map(|wall| holes(plan, wall)),
            boards: batten::volumes(plan).unwrap_or_else(|| {
                Body::new(plan).map_or_else(|_| Vec::new(), |body| Ledger::of(&body).boards)
            }),
        }
    }

    /// All wood, holes and windows taken off, in m³.
    #[must_use]
    pub fn wood(&self) -> f64 {
        let walls = self.walls.iter().sum::<f64>() - self.holes.iter().sum::<f64>();
        walls + self.boards.iter().sum::<f64>()
    }

    /// The room less the boards in it, in m³.
    #[must_use]
    pub fn air(&self) -> f64 {
        self.room - self.boards.iter().sum::<f64>()
    }
}

/// A block within the block: its sides moved inwards, front and back along their normals.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Inside {
    /// Lowest and highest x.
    pub(crate) x: [f64; 2],
    /// Lowest and highest z.
    pub(crate) z: [f64; 2],
    /// y of the front and of the back at z = 0.
    pub(crate) foot: [f64; 2],
    /// How much y of the front and of the back grows with z.
    pub(crate) slope: [f64; 2],
}

impl Inside {
    /// Of the sides of a block moved inwards so far, in the order of [`Wall::ALL`].
    fn moved(block: &Block, by: [f64; 6]) -> Self {
        let of = |wall: Wall| by[wall.index()];
        Self {
            x: [of(Wall::Left), block.width - of(Wall::Right)],
            z: [of(Wall::Bottom), block.height - of(Wall::Top)],
            foot: [
                of(Wall::Front) / math::cos(block.front_lean),
                block.depth - of(Wall::Back) / math::cos(block.back_lean),
            ],
            slope: [math::tan(block.front_lean), -math::tan(block.back_lean)],
        }
    }

    /// The room of a plan.
    pub(crate) fn of(plan: &Plan) -> Self {
        Self::moved(
            &plan.block,
            plan.walls.map(|wall| wall.setback + wall.thickness),
        )
    }

    /// Distance from front to back at a height, in m.
    pub(crate) fn depth(&self, z: f64) -> f64 {
        self.foot[1] - self.foot[0] + z * (self.slope[1] - self.slope[0])
    }

    pub(crate) fn width(&self) -> f64 {
        self.x[1] - self.x[0]
    }

    pub(crate) fn height(&self) -> f64 {
        self.z[1] - self.z[0]
    }

    fn volume(&self) -> f64 {
        self.width() * self.side()
    }

    /// Area as seen from the side.
    fn side(&self) -> f64 {
        self.height() * self.depth(0.5 * (self.z[0] + self.z[1]))
    }
}

/// Wood of a wall, its outer edges sharp.
fn wood(plan: &Plan, wall: Wall) -> f64 {
    let thickness = plan.walls[wall.index()].thickness;
    let mut levels = [0.0, thickness, thickness, thickness, thickness, thickness];
    for (level, other) in levels[2..].iter_mut().zip(wall.neighbours()) {
        if let Reach::Step(depth) = reach(plan, wall, other) {
            *level = depth.min(thickness);
        }
    }
    levels.sort_by(f64::total_cmp);
    let layer = |low: f64, high: f64| {
        let area = |height: f64| section(plan, wall, height, high);
        (high - low) / 6.0 * (area(low) + 4.0 * area(0.5 * (low + high)) + area(high))
    };
    levels
        .windows(2)
        .filter(|pair| pair[1] > pair[0])
        .map(|pair| layer(pair[0], pair[1]))
        .sum()
}

/// Area of a wall at a height above its inner face, within the layer that ends at `top`.
fn section(plan: &Plan, wall: Wall, height: f64, top: f64) -> f64 {
    let mut by = [0.0; 6];
    for other in wall.neighbours() {
        let across = plan.walls[other.index()];
        let inner = across.setback + across.thickness;
        by[other.index()] = match reach(plan, wall, other) {
            Reach::Through => 0.0,
            Reach::To(reached) => inner - reached,
            Reach::Mitre => inner - height * across.thickness / plan.walls[wall.index()].thickness,
            Reach::Step(depth) if top <= depth => inner,
            Reach::Step(_) => 0.0,
        };
    }
    let own = plan.walls[wall.index()];
    let below = own.setback + own.thickness - height;
    let block = &plan.block;
    let inside = Inside::moved(block, by);
    match wall {
        Wall::Front => inside.width() * inside.height() / math::cos(block.front_lean),
        Wall::Back => inside.width() * inside.height() / math::cos(block.back_lean),
        Wall::Left | Wall::Right => inside.side(),
        Wall::Top => inside.width() * inside.depth(block.height - below),
        Wall::Bottom => inside.width() * inside.depth(below),
    }
}

/// Wood that holes take off a wall.
fn holes(plan: &Plan, wall: Wall) -> f64 {
    let thickness = plan.walls[wall.index()].thickness;
    let cuts: Vec<Cut> = plan
        .holes
        .iter()
        .filter(|hole| hole.wall == wall)
        .map(|hole| Cut::new(hole.at, hole.outline, hole.pocket, thickness))
        .collect();
    let taken = |(cut, start): (&Cut, f64)| cut.outline.area() * (cut.depth - start);
    cuts.iter().zip(starts(&cuts)).map(taken).sum()
}
