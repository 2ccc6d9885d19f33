//! The solid model: every panel with its bevelled edges, steps and holes.

use crate::plan::{EdgeForm, Outline, Plan, Purpose, Wall};
use crate::polytope::Polytope;
use crate::vector::Vector;

/// The box as it will stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// What it was made from.
    pub plan: Plan,
    /// Walls in the order of [`Wall::ALL`], then boards in the order of the plan.
    pub panels: Vec<Panel>,
    /// The space between the walls, boards not taken off.
    pub room: Polytope,
}

/// Which panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PanelId {
    /// A wall.
    Wall(Wall),
    /// A board, by its index in the plan.
    Board(usize),
}

/// One piece of wood.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// Which.
    pub id: PanelId,
    /// What it is called.
    pub name: String,
    /// Where its outer face lies.
    pub frame: Frame,
    /// Thickness in m.
    pub thickness: f64,
    /// Convex pieces that fill it without overlap, holes not taken off.
    pub pieces: Vec<Polytope>,
    /// Its edges, counter-clockwise from the lower one as seen from outside.
    pub edges: Vec<PanelEdge>,
    /// Its holes, in its own frame.
    pub holes: Vec<PanelHole>,
    /// Length and width of the blank it is cut from, in m, along and across the frame: the
    /// rectangle around it over all its long points.
    pub blank: [f64; 2],
}

/// The frame of a panel: its datum corner, where the left and the lower edge of the blank meet
/// as seen from outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// The datum corner, on the outer face.
    pub origin: Vector,
    /// To the right as seen from outside; of length 1.
    pub across: Vector,
    /// Upwards as seen from outside; of length 1.
    pub up: Vector,
    /// Out of the outer face; of length 1.
    pub out: Vector,
}

/// One edge of a panel.
#[derive(Clone, Debug, PartialEq)]
pub struct PanelEdge {
    /// Ends on the outer face, in the frame of the panel, in m.
    pub outer: [[f64; 2]; 2],
    /// Ends on the inner face.
    pub inner: [[f64; 2]; 2],
    /// The wall it meets; `None` at a free edge.
    pub meets: Option<Wall>,
    /// Angle by which the saw is tilted out of square, in rad: positive where the inner
    /// face is the shorter.
    pub tilt: f64,
    /// A step along the inner face: its width and depth in m.
    pub step: Option<[f64; 2]>,
    /// What is done to the outer edge.
    pub form: Option<EdgeForm>,
}

/// A hole in the frame of its panel.
#[derive(Clone, Debug, PartialEq)]
pub struct PanelHole {
    /// Its middle on the outer face, from the datum corner, in m.
    pub at: [f64; 2],
    /// Its form.
    pub outline: Outline,
    /// Depth of a pocket from the outer face in m; `None` through the panel.
    pub pocket: Option<f64>,
    /// What it is for; `None` for the window of a board.
    pub purpose: Option<Purpose>,
    /// What is written beside it.
    pub label: String,
}
