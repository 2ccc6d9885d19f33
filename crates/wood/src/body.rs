//! The solid model: every panel with its bevelled edges, steps and holes.

use crate::board;
use crate::fault::Fault;
use crate::form;
use crate::inspect;
use crate::panel::{Panel, PanelId};
use crate::plan::{Edge, Plan, Wall};
use crate::polytope::{Plane, Polytope};
use crate::sides::{Side, sides};
use crate::wall;

/// The box as it will stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// What it was made from.
    pub plan: Plan,
    /// Walls in the order of [`Wall::ALL`], then boards in the order of the plan.
    pub panels: Vec<Panel>,
    /// The space between the walls, boards not taken off.
    pub room: Polytope,
    /// What is wrong with it although it could be made.
    pub faults: Vec<Fault>,
}

impl Body {
    /// Makes the solid model.
    ///
    /// # Errors
    /// All faults of the plan where one of them leaves no solid to make; else they stand in
    /// [`Body::faults`].
    pub fn new(plan: &Plan) -> Result<Self, Vec<Fault>> {
        let fatal = inspect::fatal(plan);
        if !fatal.is_empty() {
            return Err(fatal);
        }
        let sides = sides(plan);
        let Some((block, room)) = solids(plan, &sides) else {
            return Err(inspect::no_inside(plan));
        };
        let mut panels: Vec<Panel> = Wall::ALL
            .into_iter()
            .map(|wall| wall::panel(plan, &sides, &block, wall))
            .collect();
        board::add_all(&mut panels, plan, &sides, &room);
        let mut body = Self {
            plan: plan.clone(),
            panels,
            room,
            faults: Vec::new(),
        };
        body.faults = inspect::all(&body, &sides, &block);
        Ok(body)
    }

    /// The panel of a wall.
    #[must_use]
    pub fn wall(&self, wall: Wall) -> &Panel {
        &self.panels[wall.index()]
    }

    /// The boards, in the order of the plan.
    #[must_use]
    pub fn boards(&self) -> &[Panel] {
        &self.panels[Wall::ALL.len()..]
    }

    /// A panel by what it is; `None` for a board that the plan does not have.
    #[must_use]
    pub fn panel(&self, id: PanelId) -> Option<&Panel> {
        match id {
            PanelId::Wall(wall) => Some(self.wall(wall)),
            PanelId::Board(board) => self.boards().get(board),
        }
    }
}

/// The outer block with its edges formed, and the room.
fn solids(plan: &Plan, sides: &[Side; 6]) -> Option<(Polytope, Polytope)> {
    let plain = plan.block.solid()?;
    let room = plain.clip_all(&inner_planes(sides))?;
    Some((plain.clip_all(&form_planes(plan, sides))?, room))
}

fn inner_planes(sides: &[Side; 6]) -> [Plane; 6] {
    Wall::ALL.map(|wall| sides[wall.index()].inner)
}

/// The half spaces of all formed edges.
pub(crate) fn form_planes(plan: &Plan, sides: &[Side; 6]) -> Vec<Plane> {
    let on = |edge: &Edge| [edge.first, edge.second].map(|wall| sides[wall.index()].block);
    plan.edges
        .iter()
        .flat_map(|(edge, what)| {
            let [a, b] = on(edge);
            form::planes(*what, &a, &b)
        })
        .collect()
}
