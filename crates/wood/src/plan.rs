//! What a box is to be: the input of the solid model.

use crate::vector::Vector;

/// A wall of the box; left and right as the listener sees them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Wall {
    /// Towards the listener: y = 0 at its foot.
    Front,
    /// Away from the listener.
    Back,
    /// x = 0.
    Left,
    /// x = width.
    Right,
    /// z = height.
    Top,
    /// z = 0.
    Bottom,
}

impl Wall {
    /// All six.
    pub const ALL: [Self; 6] = [
        Self::Front,
        Self::Back,
        Self::Left,
        Self::Right,
        Self::Top,
        Self::Bottom,
    ];

    /// What it is called.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Back => "back",
            Self::Left => "left",
            Self::Right => "right",
            Self::Top => "top",
            Self::Bottom => "bottom",
        }
    }

    /// The wall across the box.
    #[must_use]
    pub const fn opposite(self) -> Self {
        match self {
            Self::Front => Self::Back,
            Self::Back => Self::Front,
            Self::Left => Self::Right,
            Self::Right => Self::Left,
            Self::Top => Self::Bottom,
            Self::Bottom => Self::Top,
        }
    }

    /// Its index in [`Self::ALL`].
    #[must_use]
    pub const fn index(self) -> usize {
        self as usize
    }
}

/// The box before its joints are cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Its outer block.
    pub block: Block,
    /// The six walls, in the order of [`Wall::ALL`].
    pub walls: [WallPlan; 6],
    /// The twelve edges, in the order of [`Edge::ALL`].
    pub joints: [Joint; 12],
    /// What is done to outer edges.
    pub edges: Vec<(Edge, EdgeForm)>,
    /// Holes and pockets in the walls.
    pub holes: Vec<Hole>,
    /// Boards inside: braces, cleats, dividers, walls of a bay or a recess.
    pub boards: Vec<Board>,
}

/// The outer block, of which front and back may lean: their tops recede into the box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Block {
    /// Along x, in m.
    pub width: f64,
    /// Along z, in m.
    pub height: f64,
    /// Along y at the foot, in m.
    pub depth: f64,
    /// Angle of the front against the vertical, top receding, in rad.
    pub front_lean: f64,
    /// Angle of the back against the vertical, top receding, in rad.
    pub back_lean: f64,
}

/// One wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallPlan {
    /// Thickness in m.
    pub thickness: f64,
    /// How far its outer face lies behind the face of the block, in m.
    pub setback: f64,
}

/// An edge where two walls meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Edge {
    /// The first wall, in the order of [`Wall::ALL`].
    pub first: Wall,
    /// The second.
    pub second: Wall,
}

impl Edge {
    /// All twelve.
    pub const ALL: [Self; 12] = {
        use Wall::{Back, Bottom, Front, Left, Right, Top};
        [
            Self::of(Front, Left),
            Self::of(Front, Right),
            Self::of(Front, Top),
            Self::of(Front, Bottom),
            Self::of(Back, Left),
            Self::of(Back, Right),
            Self::of(Back, Top),
            Self::of(Back, Bottom),
            Self::of(Left, Top),
            Self::of(Left, Bottom),
            Self::of(Right, Top),
            Self::of(Right, Bottom),
        ]
    };

    const fn of(first: Wall, second: Wall) -> Self {
        Self { first, second }
    }

    /// The edge between two walls in any order; `None` where they do not meet.
    #[must_use]
    pub fn between(a: Wall, b: Wall) -> Option<Self> {
        let edge = Self::of(a.min(b), a.max(b));
        (a != b && a.opposite() != b).then_some(edge)
    }

    /// Its index in [`Self::ALL`].
    #[must_use]
    pub fn index(self) -> usize {
        let found = Self::ALL.iter().position(|edge| *edge == self);
        found.expect("every pair of walls that meet is in the list")
    }
}

/// How two walls are joined.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Joint {
    /// One runs through to the outer face of the other, which ends at its inner face.
    Butt {
        /// The one that runs through.
        through: Wall,
    },
    /// Both end at the plane through the outer and the inner edge.
    Mitre,
    /// One runs through and has a step along its inner edge, in which the other sits.
    Rebate {
        /// The one with the step.
        within: Wall,
        /// Depth of the step from its inner face, in m, less than its thickness.
        depth: f64,
    },
}

/// What is done to an outer edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EdgeForm {
    /// Rounded over, radius in m.
    Round(f64),
    /// Chamfered, so much off each face in m.
    Chamfer(f64),
}

/// A hole through a wall, or a pocket in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Hole {
    /// The wall.
    pub wall: Wall,
    /// Its middle on that side of the block, in m: from the left and from the bottom
    /// edge as seen from outside. Top and bottom are seen with the front edge down.
    pub at: [f64; 2],
    /// Its form.
    pub outline: Outline,
    /// `None` through the wall; else a pocket from the outside, so deep in m.
    pub pocket: Option<f64>,
    /// What it is for.
    pub purpose: Purpose,
    /// What is written beside it.
    pub label: String,
}

/// Form of a hole about its middle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outline {
    /// A circle.
    Circle {
        /// Diameter in m.
        diameter: f64,
    },
    /// A rectangle, its corners rounded by a router or a file.
    Rectangle {
        /// Across, in m.
        width: f64,
        /// Up, in m.
        height: f64,
        /// Radius of its corners in m.
        corner: f64,
    },
}

/// What a hole is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Purpose {
    /// A driver sits in it.
    Driver,
    /// A passive radiator sits in it.
    Radiator,
    /// A vent ends in it.
    Vent,
    /// The control panel covers it.
    Control,
    /// A bay breathes through it.
    Bay,
    /// A bolt or screw passes it: nothing else does.
    Fastening,
    /// A screw passes it that holds its wall to what lies behind.
    Closing,
}

impl Purpose {
    /// Whether what passes it fills it, so that it may end on wood.
    #[must_use]
    pub const fn is_filled(self) -> bool {
        matches!(self, Self::Fastening | Self::Closing)
    }
}

/// A board inside the box: a block of wood, cut off by the inner faces of the walls.
#[derive(Clone, Debug, PartialEq)]
pub struct Board {
    /// What it is called.
    pub name: String,
    /// What it is.
    pub kind: BoardKind,
    /// Its lowest corner in m; what reaches into a wall is cut off.
    pub low: Vector,
    /// Its highest corner in m.
    pub high: Vector,
    /// The axis across its thickness: 0 for x, 1 for y, 2 for z.
    pub across: usize,
    /// Windows through its thickness.
    pub windows: Vec<Window>,
}

/// Kinds of boards.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum BoardKind {
    /// Stiffens walls.
    Brace,
    /// A strip to screw or glue to.
    Cleat,
    /// Divides the chambers.
    Divider,
    /// A wall of the battery's bay.
    BayWall,
    /// A wall of the control panel's recess.
    RecessWall,
}

/// A window through a board, upright in the two axes along it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// Its lowest corner in the two axes along the board (in the order x, y, z), in m.
    pub low: [f64; 2],
    /// Its highest corner.
    pub high: [f64; 2],
    /// Radius of its corners in m.
    pub corner: f64,
}
