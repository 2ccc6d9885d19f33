//! Where the volume of a block goes.

use crate::body::Body;
use crate::corner;
use crate::plan::Wall;
use crate::sides::sides;
use crate::wall::layer;

/// The volume of the outer block, split without rest:
/// block = room + walls + taken by setbacks, edges and open corners.
#[derive(Clone, Debug, PartialEq)]
pub struct Ledger {
    /// The outer block with sharp edges, in m³.
    pub block: f64,
    /// The room between the walls, boards not taken off, in m³.
    pub room: f64,
    /// Wood of each wall in the order of [`Wall::ALL`], holes not taken off, in m³.
    pub walls: [f64; 6],
    /// Wood that holes take off each wall, in m³.
    pub holes: [f64; 6],
    /// Wood of each board in the order of the plan, windows taken off: what it takes of
    /// the room, in m³.
    pub boards: Vec<f64>,
    /// Air before walls that are set back, in the order of [`Wall::ALL`], in m³.
    pub setbacks: [f64; 6],
    /// Rounded and chamfered off outer edges, in m³.
    pub edges: f64,
    /// Left open where three joints do not close a corner, in m³.
    pub open: f64,
}

impl Ledger {
    /// From the solid model.
    #[must_use]
    pub fn of(body: &Body) -> Self {
        let plan = &body.plan;
        let sides = sides(plan);
        let block = plan.block.solid().unwrap_or_default();
        let formed = block
            .clip_all(&crate::body::form_planes(plan, &sides))
            .unwrap_or_default();
        let setback = |wall: Wall| {
            let what = plan.walls[wall.index()];
            let levels = [what.thickness, what.thickness + what.setback];
            let recess = (what.setback > 0.0).then(|| layer(plan, &sides, &formed, wall, levels));
            recess.flatten().map_or(0.0, |air| air.volume())
        };
        let open = corner::open_corners(plan, &sides, &formed);
        Self {
            block: block.volume(),
            room: body.room.volume(),
            walls: Wall::ALL.map(|wall| body.wall(wall).solid_volume()),
            holes: Wall::ALL.map(|wall| body.wall(wall).hole_volume()),
            boards: body.boards().iter().map(crate::Panel::volume).collect(),
            setbacks: Wall::ALL.map(setback),
            edges: block.volume() - formed.volume(),
            open: open.iter().map(|(_, volume)| volume).sum(),
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
