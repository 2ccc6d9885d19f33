//! What is wrong with a plan, in numbers; sentences are made elsewhere.

use crate::panel::PanelId;
use crate::plan::{Edge, Wall};

/// One thing that is wrong with a plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fault {
    /// A measure is no number, or not above zero where it must be.
    Measure {
        /// Which.
        what: Measure,
        /// Its value.
        value: f64,
    },
    /// Front and back lean so far that they meet at or below the top; no solid can be made.
    LeansMeet {
        /// What the depth at the top falls short of zero, in m.
        by: f64,
    },
    /// Nothing is left inside; no solid can be made.
    NoInside {
        /// The two walls that meet or overlap.
        between: [Wall; 2],
        /// By how much they overlap, in m.
        by: f64,
    },
    /// A setback pushes a wall into the one across; no solid can be made.
    Setback {
        /// The wall set back.
        wall: Wall,
        /// By how much it goes too deep, in m.
        by: f64,
    },
    /// A step as deep as its wall is thick, or deeper; no solid can be made.
    Step {
        /// The edge.
        edge: Edge,
        /// The wall with the step.
        within: Wall,
        /// Depth beyond the thickness, in m.
        by: f64,
    },
    /// Joints so mixed at a corner that none of its three walls fills it.
    OpenCorner {
        /// The walls, in the order of [`Wall::ALL`].
        walls: [Wall; 3],
        /// Volume of the hole in m³.
        volume: f64,
    },
    /// An outer edge rounded or chamfered by more than a wall there is thick.
    Form {
        /// Index in the plan's list of edges.
        form: usize,
        /// Most it may take off, in m: the thinner wall.
        most: f64,
        /// By how much it is larger, in m.
        by: f64,
    },
    /// Rounding or chamfering cuts through the whole glue line of an edge.
    GlueLine {
        /// Index in the plan's list of edges.
        form: usize,
        /// Most it may take off before it reaches the inside, in m.
        most: f64,
    },
    /// A hole reaches beyond the flat of its panel: over an edge, a joint or a rounding.
    HoleOff {
        /// Index in the plan's list of holes.
        hole: usize,
        /// The wall towards which it goes too far, most of all.
        towards: Wall,
        /// By how much, in m.
        by: f64,
        /// How far to move its middle so that it lies free, across and up, in m; `None`
        /// where no place on the panel will do.
        shift: Option<[f64; 2]>,
    },
    /// A hole opens onto what lies behind its panel: a wall's end or a board.
    HoleBlocked {
        /// Index in the plan's list of holes.
        hole: usize,
        /// The board or the wall behind.
        by: PanelId,
        /// How far it reaches over the hole, in m.
        depth: f64,
        /// How far to move its middle so that this is gone, across and up, in m; `None`
        /// where no place on the panel will do.
        shift: Option<[f64; 2]>,
    },
    /// Two holes run into one another, or one lies in another that is as deep.
    HolesOverlap {
        /// Indices in the plan's list of holes.
        holes: [usize; 2],
        /// How far they run into one another, in m.
        by: f64,
        /// Direction in which the second moves off, across and up; of length 1.
        away: [f64; 2],
    },
    /// A pocket as deep as its wall is thick, or deeper.
    Pocket {
        /// Index in the plan's list of holes.
        hole: usize,
        /// Depth beyond the thickness, in m.
        by: f64,
    },
    /// A board of which nothing lies between the walls, or nothing is left by earlier boards.
    NoBoard {
        /// Index in the plan's list of boards.
        board: usize,
    },
    /// A board that reaches out of the whole box.
    BoardOff {
        /// Index in the plan's list of boards.
        board: usize,
        /// The wall beyond whose outer face it reaches.
        beyond: Wall,
        /// By how much, in m.
        by: f64,
    },
    /// A board placed so that a wall cuts wood off it.
    BoardInWall {
        /// Index in the plan's list of boards.
        board: usize,
        /// The wall.
        wall: Wall,
        /// How far beyond the wall's inner face it reaches, in m.
        by: f64,
    },
    /// A board that runs into an earlier one without passing through it.
    BoardsRunIn {
        /// Indices in the plan's list of boards: the earlier and the later.
        boards: [usize; 2],
        /// How far, in m: the shortest way that parts them.
        by: f64,
    },
    /// A window that reaches to the edge of its board or beyond.
    Window {
        /// Index in the plan's list of boards.
        board: usize,
        /// Index of the window in the board.
        window: usize,
        /// By how much, in m.
        by: f64,
    },
    /// Two windows of a board run into one another.
    WindowsOverlap {
        /// Index in the plan's list of boards.
        board: usize,
        /// Indices of the windows in the board.
        windows: [usize; 2],
        /// How far they run into one another, in m.
        by: f64,
    },
}

impl Fault {
    /// Whether no solid can be made while it stands.
    #[must_use]
    pub const fn is_fatal(&self) -> bool {
        matches!(
            self,
            Self::Measure { .. }
                | Self::LeansMeet { .. }
                | Self::NoInside { .. }
                | Self::Setback { .. }
                | Self::Step { .. }
        )
    }
}

/// A measure of a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Width of the block.
    Width,
    /// Height of the block.
    Height,
    /// Depth of the block.
    Depth,
    /// Lean of the front, less than a right angle.
    FrontLean,
    /// Lean of the back, less than a right angle.
    BackLean,
    /// Thickness of a wall.
    Thickness(Wall),
    /// Setback of a wall; zero is allowed.
    Setback(Wall),
    /// Size of an edge's rounding or chamfer, by its index in the plan; zero is allowed.
    Form(usize),
    /// Size or depth of a hole, by its index in the plan.
    Hole(usize),
    /// A side of a board, by its index in the plan.
    Board(usize),
}
