//! The box as wood: joints, boards inside it, fittings, and the tools it is made with.

use crate::{Choice, Place, SheetPart, Text, Value};

/// A wall of the box; left and right as seen by the listener in front of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wall {
    /// Towards the listener.
    Front,
    /// Away from the listener.
    Back,
    /// The listener's left.
    Left,
    /// The listener's right.
    Right,
    /// Above.
    Top,
    /// Below.
    Bottom,
}

/// How the walls become a box.
#[derive(Clone, Debug, PartialEq)]
pub struct Carpentry {
    /// The pattern of joints.
    pub joints: Choice<Joints>,
    /// How the front meets the ring of left, top, right and bottom.
    pub front: Choice<Fitting>,
    /// How the back does.
    pub back: Choice<Fitting>,
    /// How far an inset front lies behind the edge of the ring, in m.
    pub setback: Option<Value>,
    /// Depth of rebates in m; half the wall otherwise.
    pub rebate: Option<Value>,
    /// Single edges joined otherwise.
    pub edges: Vec<EdgeJoint>,
    /// Outer edges rounded or chamfered.
    pub outer: Option<OuterEdge>,
    /// Which outer edges that applies to.
    pub outer_edges: Choice<OuterEdges>,
    /// Angle in rad by which the top of the front leans inwards.
    pub front_lean: Option<Value>,
    /// Angle in rad by which the top of the back leans inwards.
    pub back_lean: Option<Value>,
    /// Walls that differ from the others.
    pub walls: Vec<WallUse>,
    /// The wall that closes the box.
    pub last: Choice<Wall>,
    /// What holds it.
    pub last_with: Choice<Closing>,
}

impl Carpentry {
    /// The box of a file that says nothing of wood: butt joints, front and back
    /// over the ends of the ring, square edges, the back glued on last.
    #[must_use]
    pub const fn plain() -> Self {
        Self {
            joints: Choice::unsaid(Joints::Butt),
            front: Choice::unsaid(Fitting::Overlaid),
            back: Choice::unsaid(Fitting::Overlaid),
            setback: None,
            rebate: None,
            edges: Vec::new(),
            outer: None,
            outer_edges: Choice::unsaid(OuterEdges::All),
            front_lean: None,
            back_lean: None,
            walls: Vec::new(),
            last: Choice::unsaid(Wall::Back),
            last_with: Choice::unsaid(Closing::Glue),
        }
    }
}

/// Patterns of joints.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joints {
    /// Top and bottom run over left and right; front and back as fitted.
    Butt,
    /// Left, top, right and bottom mitred into a ring; front and back as fitted.
    MitredRing,
    /// All twelve edges mitred.
    Mitred,
    /// Left and right sit in rebates of top and bottom, front and back in rebates of the ring.
    Rebated,
}

/// How front or back meets the ring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fitting {
    /// Over the ends of the ring.
    Overlaid,
    /// Within the ring.
    Inset,
}

/// One edge of the box joined otherwise than the pattern says.
#[derive(Clone, Debug, PartialEq)]
pub struct EdgeJoint {
    /// The two walls that meet there.
    pub between: (Wall, Wall),
    /// How they are joined.
    pub kind: EdgeJointKind,
    /// Where it is written.
    pub place: Place,
}

/// How two walls are joined.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EdgeJointKind {
    /// One runs through, the other ends at it.
    Butt {
        /// The one that runs through.
        through: Wall,
    },
    /// Both are cut at half the angle.
    Mitre,
    /// One has a step in which the other sits.
    Rebate {
        /// The one with the step.
        within: Wall,
        /// Depth of the step in m; half its thickness otherwise.
        depth: Option<Value>,
    },
}

/// What is done to outer edges.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OuterEdge {
    /// Rounded over with this radius in m.
    Round(Value),
    /// Chamfered by this much off each face, in m.
    Chamfer(Value),
}

/// Which outer edges are rounded or chamfered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OuterEdges {
    /// All twelve.
    All,
    /// The four of the ring, which run from front to back.
    Ring,
    /// The four around the front.
    Front,
}

/// A wall that differs from the others.
#[derive(Clone, Debug, PartialEq)]
pub struct WallUse {
    /// Which.
    pub side: Wall,
    /// Another sheet than the others.
    pub sheet: Option<(SheetPart, Place)>,
    /// Its measured thickness in m.
    pub thickness: Option<Value>,
    /// Which way its face grain runs.
    pub grain: Option<Choice<Grain>>,
    /// Where it is written.
    pub place: Place,
}

/// Which way face grain runs on a wall or board, as it stands in the box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grain {
    /// Around the ring: across on top and bottom, upright on left and right; across on front and back.
    Around,
    /// Across: left to right, or front to back on the sides.
    Across,
    /// Upright, or front to back on top and bottom.
    Upright,
    /// Any way.
    Free,
}

/// What holds the last wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Closing {
    /// It is glued in; nothing larger than a hole passes afterwards.
    Glue,
    /// It is screwed on and comes off again.
    Screws,
}

/// A position on a wall in m, from the left and the bottom edge of that side of
/// the box as seen from outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnWall {
    /// From the left edge.
    pub across: Value,
    /// From the bottom edge; on top and bottom, from the front edge.
    pub up: Value,
    /// Where the whole is written.
    pub place: Place,
}

/// Where openings of a kind sit: on which wall, and where each of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Mounting {
    /// The wall.
    pub on: Choice<Wall>,
    /// Their middles, one for each; empty where they are to be found.
    pub at: Vec<OnWall>,
}

impl Mounting {
    /// Of openings nobody placed: in a row on the front.
    #[must_use]
    pub const fn row_on_the_front() -> Self {
        Self {
            on: Choice::unsaid(Wall::Front),
            at: Vec::new(),
        }
    }
}

/// Where a part stands inside the box.
#[derive(Clone, Debug, PartialEq)]
pub struct Placement {
    /// From the inner left, bottom and front to the nearest corner of the part,
    /// in m, in the order width, height, depth; `None` where it is to be found.
    pub at: Option<[Value; 3]>,
    /// Which way it is turned; `None` where any will do.
    pub turn: Option<Choice<Turn>>,
    /// The wall it is fixed to; `None` where any will do.
    pub fixed_to: Option<Choice<Wall>>,
    /// Where it is written.
    pub place: Place,
}

impl Placement {
    /// Of a part nobody placed; `place` is where its table stands.
    #[must_use]
    pub const fn to_be_found(place: Place) -> Self {
        Self {
            at: None,
            turn: None,
            fixed_to: None,
            place,
        }
    }
}

/// How a part's stated width, height and depth lie in the box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// As stated.
    AsStated,
    /// Width and height exchanged.
    OnItsSide,
    /// Height and depth exchanged.
    OnItsBack,
    /// Width and depth exchanged.
    Sideways,
    /// Its width stands up, its height lies in depth, its depth across.
    EndUp,
    /// Its width lies in depth, its depth stands up, its height across.
    EndOut,
}

/// A board across the box that stiffens it.
#[derive(Clone, Debug, PartialEq)]
pub struct Brace {
    /// What it is called.
    pub name: Text,
    /// Its form and where it is.
    pub form: BraceForm,
    /// The sheet it is cut from, where not that of the walls.
    pub sheet: Option<(SheetPart, Place)>,
    /// Where it is written.
    pub place: Place,
}

/// Forms of braces.
#[derive(Clone, Debug, PartialEq)]
pub enum BraceForm {
    /// A full board parallel to a wall, with a window.
    Frame {
        /// The wall it is parallel to: front, left or top.
        parallel: Wall,
        /// From the inner face of that wall to its near face, in m.
        at: Value,
        /// Width and height of the window in its middle, as seen along the normal, in m.
        window: Option<[Value; 2]>,
    },
    /// A stick from one wall to the opposite one.
    Stick {
        /// The wall it starts from: front, left or top.
        from: Wall,
        /// Its section across and up, as seen from outside that wall, in m.
        section: [Value; 2],
        /// Its middle on that wall.
        at: OnWall,
    },
}

/// A strip along an inner edge, to screw or glue to.
#[derive(Clone, Debug, PartialEq)]
pub struct Cleat {
    /// What it is called.
    pub name: Text,
    /// The two walls in whose corner it lies.
    pub along: (Wall, Wall),
    /// Its section in m: on the first wall, on the second.
    pub section: [Value; 2],
    /// Its length in m; the whole edge otherwise.
    pub length: Option<Value>,
    /// How far behind the inner face of a front or back it is set, in m.
    pub offset: Option<Value>,
    /// Where it is written.
    pub place: Place,
}

/// A bay for the battery, walled off and open to the outside.
#[derive(Clone, Debug, PartialEq)]
pub struct Bay {
    /// Width × height × depth between its walls in m.
    pub size: crate::Size,
    /// From the inner left, bottom and front of the box to its room, in m;
    /// its walls stand around that where the box has none.
    pub at: [Value; 3],
    /// The sheet its walls are cut from, where not that of the box.
    pub sheet: Option<(SheetPart, Place)>,
    /// The wall of the box with its holes.
    pub opens: Choice<Wall>,
    /// Diameter of its holes in m.
    pub hole: Value,
    /// How many holes.
    pub holes: u32,
    /// Where it is written.
    pub place: Place,
}

/// A handle.
#[derive(Clone, Debug, PartialEq)]
pub struct Handle {
    /// The wall it is on.
    pub on: Choice<Wall>,
    /// Its middle; over the centre of mass otherwise.
    pub at: Option<OnWall>,
    /// Between its bolts in m.
    pub spacing: Value,
    /// Diameter of the bolts in m.
    pub bolt: Value,
    /// Its weight in kg.
    pub weight: Option<Value>,
    /// Where it is written.
    pub place: Place,
}

/// Feet.
#[derive(Clone, Debug, PartialEq)]
pub struct Feet {
    /// How many: three or four.
    pub count: u32,
    /// Diameter in m.
    pub diameter: Value,
    /// Height in m.
    pub height: Value,
    /// From the outer edges to the middle of each in m.
    pub inset: Value,
    /// Diameter of their screws in m.
    pub screw: Option<Value>,
    /// Where it is written.
    pub place: Place,
}

/// A grille frame in front of the drivers.
#[derive(Clone, Debug, PartialEq)]
pub struct Grille {
    /// Width of its strips in m.
    pub strip: Value,
    /// Thickness of its strips in m.
    pub thickness: Value,
    /// Gap to the edges of the box in m.
    pub gap: Value,
    /// Where it is written.
    pub place: Place,
}

/// The saw and how well it is set.
#[derive(Clone, Debug, PartialEq)]
pub struct Saw {
    /// Kind of saw, which bounds what it can cut.
    pub kind: Choice<SawKind>,
    /// Width of its cut in m.
    pub kerf: Option<Value>,
    /// Taken off every factory edge first, in m.
    pub trim: Option<Value>,
    /// Longest cut in m.
    pub longest: Option<Value>,
    /// Narrowest strip it can cut off in m.
    pub narrowest: Option<Value>,
    /// Error of its angle, either way, in rad.
    pub angle_error: Option<Value>,
    /// Error of its lengths, either way, in m.
    pub length_error: Option<Value>,
    /// Where it is written.
    pub place: Option<Place>,
}

impl Saw {
    /// The saw of a file that says nothing of it.
    #[must_use]
    pub const fn usual() -> Self {
        Self {
            kind: Choice::unsaid(SawKind::Panel),
            kerf: None,
            trim: None,
            longest: None,
            narrowest: None,
            angle_error: None,
            length_error: None,
            place: None,
        }
    }
}

/// Kinds of saws.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SawKind {
    /// A panel saw, as at the timber yard.
    Panel,
    /// A table saw with a sliding fence.
    Table,
    /// A circular saw on a track.
    Track,
    /// A hand saw with a guide.
    Hand,
}

/// The glue.
#[derive(Clone, Debug, PartialEq)]
pub struct Glue {
    /// Widest gap it fills with full strength, in m.
    pub gap: Option<Value>,
    /// Time within which joints must be closed, in s.
    pub open_time: Option<Value>,
    /// Time spread and closing take for one joint, in s.
    pub per_joint: Option<Value>,
    /// Spread in kg/m².
    pub spread: Option<Value>,
    /// Time in the clamps, in s.
    pub clamp_time: Option<Value>,
    /// Where it is written.
    pub place: Option<Place>,
}

impl Glue {
    /// The glue of a file that says nothing of it.
    #[must_use]
    pub const fn usual() -> Self {
        Self {
            gap: None,
            open_time: None,
            per_joint: None,
            spread: None,
            clamp_time: None,
            place: None,
        }
    }
}

/// A piece of sheet that lies in the drawer.
#[derive(Clone, Debug, PartialEq)]
pub struct Offcut {
    /// Name of the sheet it is of.
    pub sheet: Text,
    /// Along the face grain in m.
    pub length: Value,
    /// Across it in m.
    pub width: Value,
    /// How many like it.
    pub count: u32,
}
