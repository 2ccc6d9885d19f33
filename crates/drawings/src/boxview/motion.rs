//! Where parts are, and which way they can be moved on a drawing.

use super::picture::{Hold, Motion};
use studies::carpentry::{PartKind, PlacedPart};
use wood::vector::{Vector, dot, sub};
use wood::{Block, Purpose, Wall};

/// The lengths of a place in m, and which of them can be moved.
type Placed = (Vec<f64>, Vec<Motion>);

impl Hold<'_> {
    /// Of a part in or on a wall.
    pub(super) fn on_wall(&self, wall: Wall, part: &PlacedPart, index: usize) -> Placed {
        let plan = &self.carpentry.body.plan;
        let (at, runs) = match part.kind {
            PartKind::Grille => return (Vec::new(), Vec::new()),
            PartKind::Control => self.on_panel(wall, part),
            PartKind::Foot => self.foot(wall, part),
            PartKind::Handle => self.across_and_up(wall, self.of_pose(wall, part), [0.0; 2]),
            _ => {
                let mut holes = self.carpentry.holes.iter().zip(&plan.holes);
                let hole = holes.find(|(origin, hole)| {
                    let own = origin.table == part.table && origin.index == index;
                    own && hole.wall == wall && hole.purpose != Purpose::Fastening
                });
                match hole {
                    Some((_, hole)) => self.across_and_up(wall, hole.at, [0.0; 2]),
                    None => return (Vec::new(), Vec::new()),
                }
            }
        };
        // Feet stand out from under the box, whichever way it is looked at.
        let seen = wall == Wall::Front || part.kind == PartKind::Foot;
        let hidden = self.faces_away(wall) && !seen;
        (at, if hidden { Vec::new() } else { runs })
    }

    /// A place that is said across and up, with what lies around it on every side.
    fn across_and_up(&self, wall: Wall, at: [f64; 2], around: [f64; 2]) -> Placed {
        let block = &self.carpentry.body.plan.block;
        self.within(wall, at, around, sides(block, wall))
    }

    /// The same on a face of some width and height.
    fn within(&self, wall: Wall, at: [f64; 2], around: [f64; 2], size: [f64; 2]) -> Placed {
        let frame = self.carpentry.body.plan.block.frame(wall);
        let runs = [(0, frame.across), (1, frame.up)].map(|(length, along)| Motion {
            length,
            run: self.run(along),
            within: (
                around[length],
                (size[length] - around[length]).max(around[length]),
            ),
        });
        (at.to_vec(), seen(runs))
    }

    /// Of a part of the control panel: from its left and bottom edge, as far as what lies in
    /// front of it stays on the panel.
    fn on_panel(&self, wall: Wall, part: &PlacedPart) -> Placed {
        let number = part.table.rsplit('.').next();
        let index = number.and_then(|number| number.parse::<usize>().ok());
        let panel = self.carpentry.control.as_ref();
        let found = panel.zip(index).and_then(|(panel, index)| {
            let hole = panel.holes.get(index.checked_sub(1)?)?;
            Some((panel, hole))
        });
        let Some((panel, hole)) = found else {
            return (Vec::new(), Vec::new());
        };
        self.within(wall, hole.at, [hole.front / 2.0; 2], panel.size)
    }

    /// Of a foot: how far it is from the edges, which moves it towards the middle.
    fn foot(&self, wall: Wall, part: &PlacedPart) -> Placed {
        let block = &self.carpentry.body.plan.block;
        let frame = block.frame(wall);
        let at = self.of_pose(wall, part);
        let size = sides(block, wall);
        let inwards = [0, 1].map(|axis| {
            let off = size[axis] / 2.0 - at[axis];
            if off.abs() < 1e-6 { 0.0 } else { off.signum() }
        });
        let along =
            core::array::from_fn(|i| inwards[0] * frame.across[i] + inwards[1] * frame.up[i]);
        // The edges it is measured from are those it is nearest to.
        let inset = [0, 1]
            .map(|axis| at[axis].min(size[axis] - at[axis]))
            .into_iter()
            .fold(f64::INFINITY, f64::min);
        let run = Motion {
            length: 0,
            run: self.run(along),
            within: (0.0, size[0].min(size[1]) / 2.0),
        };
        (vec![inset], seen([run]))
    }

    /// Where a part stands on the side of the box it is on.
    fn of_pose(&self, wall: Wall, part: &PlacedPart) -> [f64; 2] {
        let frame = self.carpentry.body.plan.block.frame(wall);
        let from = sub(part.part.pose.at, frame.origin);
        [dot(from, frame.across), dot(from, frame.up)]
    }

    /// Of a part in the box: across, up and back from the inner corner.
    pub(super) fn in_box(&self, low: Vector, high: Vector) -> Placed {
        let plan = &self.carpentry.body.plan;
        let walls = |wall: Wall| {
            let side = &plan.walls[wall.index()];
            side.setback + side.thickness
        };
        let inner = [walls(Wall::Left), walls(Wall::Front), walls(Wall::Bottom)];
        let outer = [
            plan.block.width - walls(Wall::Right),
            plan.block.depth - walls(Wall::Back),
            plan.block.height - walls(Wall::Top),
        ];
        // The file says width, height, depth; the box runs right, back, up.
        let axes = [0, 2, 1];
        let at = axes.map(|axis| low[axis] - inner[axis]);
        let runs: [Motion; 3] = core::array::from_fn(|length| {
            let axis = axes[length];
            let mut along = [0.0; 3];
            along[axis] = 1.0;
            Motion {
                length,
                run: self.run(along),
                within: (
                    0.0,
                    (outer[axis] - inner[axis] - (high[axis] - low[axis])).max(0.0),
                ),
            }
        });
        let mut runs = seen(runs);
        if runs.len() > 2 {
            // In a slanting view things are pushed about on the floor.
            runs.retain(|run| run.length != 1);
        }
        (at.to_vec(), runs)
    }
}

/// Width and height of a side of the box, corners before they are rounded.
const fn sides(block: &Block, wall: Wall) -> [f64; 2] {
    match wall {
        Wall::Front | Wall::Back => [block.width, block.height],
        Wall::Left | Wall::Right => [block.depth, block.height],
        Wall::Top | Wall::Bottom => [block.width, block.depth],
    }
}

/// Those that run far enough on the drawing to be moved there.
fn seen<const N: usize>(runs: [Motion; N]) -> Vec<Motion> {
    runs.into_iter().filter(|run| long(run.run)).collect()
}

/// Whether something that runs so far, in mm for each m, can be seen to move.
pub(super) fn long((x, y): (f64, f64)) -> bool {
    x.abs() + y.abs() > 20.0
}
