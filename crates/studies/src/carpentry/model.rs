//! What the carpentry of a design gives, nominal, for sheets and files.

use design::{Place, SheetPart};
use wood::sawing::{Blank, Layout, Stock};
use wood::{Body, PanelId, Part, Wall};

/// The box as wood.
#[derive(Clone, Debug, PartialEq)]
pub struct Carpentry {
    /// The solid model.
    pub body: Body,
    /// What is in and on it, in the order of the list of parts.
    pub parts: Vec<PlacedPart>,
    /// Panels in the order of their letters.
    pub cut_list: Vec<CutLine>,
    /// How each kind of sheet is sawn.
    pub sheets: Vec<SheetPlan>,
    /// What is drilled and cut into panels, panel by panel.
    pub drilling: Vec<DrillLine>,
    /// Odds that the ring closes; `None` without mitres.
    pub ring: Option<RingBudget>,
    /// Gluing it up.
    pub glue_up: GlueUp,
    /// What comes out again and what does not.
    pub access: Vec<AccessLine>,
    /// Gaps between parts, and to the walls: what lacks most of the gap it wants first.
    pub gaps: Vec<GapLine>,
    /// Bending modes of the walls, lowest first.
    pub modes: Vec<WallMode>,
    /// Weight, where it acts, and how it hangs and stands.
    pub balance: Balance,
    /// The control panel.
    pub control: Option<ControlPlan>,
    /// Where the design speaks of each hole of the plan, in the order of the plan.
    pub holes: Vec<Origin>,
    /// Where it speaks of each board.
    pub boards: Vec<Origin>,
}

/// Where the design speaks of something that it wants in the wood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Origin {
    /// Where; `None` where it says nothing.
    pub place: Option<Place>,
    /// The table, as edits name it: `drivers.1`, `box.vent`, `brace.2`, `control`.
    pub table: String,
    /// Which of equal ones, from 0.
    pub index: usize,
}

/// A part in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedPart {
    /// Its number in the list of parts; equal parts share one.
    pub number: usize,
    /// Its name in that list.
    pub label: String,
    /// What kind of thing it is.
    pub kind: PartKind,
    /// Its solid and where it stands.
    pub part: Part,
    /// By how much its width, depth and height may differ either way, in m, where the file says
    /// so; it then grows away from the left, the front and the bottom.
    pub size_within: [f64; 3],
    /// Weight in kg, nominal.
    pub weight: f64,
    /// Whether its place was found by the program, not stated.
    pub found: bool,
    /// Where the design speaks of it.
    pub place: Place,
    /// The table it is placed in, as edits name it: `battery`, `amplifier`, `inside.2`,
    /// `drivers.1`.
    pub table: String,
}

/// What kind of thing a part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartKind {
    /// A driver.
    Driver,
    /// A passive radiator.
    Radiator,
    /// A vent tube.
    Vent,
    /// The battery.
    Battery,
    /// The amplifier board.
    Board,
    /// A part of the control panel.
    Control,
    /// The handle.
    Handle,
    /// A foot.
    Foot,
    /// The grille frame.
    Grille,
    /// Anything else.
    Other,
}

/// One line of the cut list; equal panels share one.
#[derive(Clone, Debug, PartialEq)]
pub struct CutLine {
    /// Its letter.
    pub letter: String,
    /// The panels.
    pub panels: Vec<PanelId>,
    /// What they are called.
    pub name: String,
    /// The sheet they are cut from.
    pub sheet: String,
    /// Real thickness in m.
    pub thickness: f64,
    /// Along and across, over the long points, in m.
    pub long: [f64; 2],
    /// Over the short points, in m.
    pub short: [f64; 2],
    /// Which of the two runs along the face grain: 0 or 1; `None` where either may.
    pub grain: Option<usize>,
    /// What the edges are: "all four at 45°", "square", in words.
    pub edges: String,
}

/// How one kind of sheet is sawn.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetPlan {
    /// Its name on the shelf.
    pub sheet: String,
    /// The shelf part, whole.
    pub part: SheetPart,
    /// What is cut from it.
    pub blanks: Vec<Blank>,
    /// Letter and panel of each blank.
    pub letters: Vec<String>,
    /// What there is to cut from.
    pub stock: Vec<Stock>,
    /// How it is cut.
    pub layout: Layout,
    /// Share of the used sheets that ends as dust or scrap, 0 to 1.
    pub waste: f64,
    /// Width of the saw's cut and what is trimmed off factory edges, in m.
    pub kerf_and_trim: [f64; 2],
}

/// One hole to be made.
#[derive(Clone, Debug, PartialEq)]
pub struct DrillLine {
    /// The panel.
    pub panel: PanelId,
    /// Index of the hole in the panel.
    pub hole: usize,
    /// With what: "drill 4 mm", "hole saw or router", "jigsaw or router".
    pub tool: String,
    /// Why it must be made before the box is glued; `None` where it may wait.
    pub before: Option<String>,
}

/// Odds that a mitred ring closes.
#[derive(Clone, Debug, PartialEq)]
pub struct RingBudget {
    /// Error of the saw's angle, either way, in rad.
    pub angle_error: f64,
    /// Error of lengths, either way, in m.
    pub length_error: f64,
    /// Widest gap at the closing mitre, all errors one way, in m.
    pub worst_gap: f64,
    /// Median gap in m.
    pub median_gap: f64,
    /// Gap that nine rings of ten stay below, in m.
    pub p90_gap: f64,
    /// Gap the glue fills in m.
    pub glue_gap: f64,
    /// Share of rings that close within it, 0 to 1.
    pub odds: f64,
    /// Error of the saw's angle, either way, within which nine rings of ten close, in rad.
    pub wanted_angle: f64,
    /// A test ring of four offcuts of this length in m...
    pub test_length: f64,
    /// ...must close within this gap in m.
    pub test_gap: f64,
}

/// Gluing it up.
#[derive(Clone, Debug, PartialEq)]
pub struct GlueUp {
    /// Steps in order, in words.
    pub steps: Vec<GlueStep>,
    /// Area of all joints in m².
    pub area: f64,
    /// Glue wanted in kg.
    pub glue: f64,
    /// Diagonals of the ring's opening that must be alike: their length in m...
    pub diagonal: f64,
    /// ...and by how much they may differ, in m.
    pub diagonal_within: f64,
    /// Open time of the glue in s.
    pub open_time: f64,
}

/// One step of gluing.
#[derive(Clone, Debug, PartialEq)]
pub struct GlueStep {
    /// What to do.
    pub words: String,
    /// Joints closed in it.
    pub joints: usize,
    /// Time spreading and closing take, in s.
    pub time: f64,
}

/// Whether one part comes out again.
#[derive(Clone, Debug, PartialEq)]
pub struct AccessLine {
    /// Index in the list of parts; of the control panel, that of its first part.
    pub part: usize,
    /// What it is, in words; how many, where equal parts come out alike.
    pub label: String,
    /// The opening it comes out through once the box is closed, in words; `None` where none.
    pub through: Option<String>,
    /// What has to come off or out before it, in words.
    pub first: Vec<String>,
    /// Smallest gap on the way, in m; negative where it does not come out: by how much it is
    /// too large, or lacks room in the best straight try.
    pub slack: f64,
    /// What is known of its way.
    pub passage: Passage,
    /// The last stage at which it still goes in.
    pub goes_in: Stage,
    /// How: "straight", "tipped 35°", in words.
    pub how: String,
    /// Whether a screwdriver reaches its screws once the box is closed.
    pub driver_reaches: bool,
    /// Whether a hand does.
    pub hand_reaches: bool,
}

/// What is known of the way of a part out of the closed box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Passage {
    /// It comes out.
    Out,
    /// It is larger than every opening that remains, however it is turned.
    TooLarge,
    /// No way was found, which does not prove that there is none: a dry fit decides.
    NotFound,
    /// No opening remains.
    NoOpening,
}

/// Stages of building.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// Before any walls are joined: nothing needs to pass.
    Open,
    /// All walls but the last are joined.
    BeforeLast,
    /// The last wall is on; openings are still empty.
    Closed,
}

/// The gap between two things.
#[derive(Clone, Debug, PartialEq)]
pub struct GapLine {
    /// One of them: index in the list of parts.
    pub part: usize,
    /// The other.
    pub near: Near,
    /// The other, in words: "the battery", "the back", "brace".
    pub other: String,
    /// Gap in m; depth of the overlap where negative.
    pub gap: f64,
    /// Gap wanted in m.
    pub wanted: f64,
    /// Direction in which the first moves to gain gap; of length 1.
    pub away: [f64; 3],
    /// Whether it is the air that one of them keeps free, not its solid.
    pub air: bool,
    /// Share of drawn builds in which they collide, 0 to 1.
    pub odds: f64,
}

/// What a part is near.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Near {
    /// Another part, by index in the list of parts.
    Part(usize),
    /// A wall or a board.
    Panel(PanelId),
    /// The outside of the box, beyond the inner face of a wall.
    Outside(Wall),
}

/// The lowest bending mode of a wall.
#[derive(Clone, Debug, PartialEq)]
pub struct WallMode {
    /// The wall.
    pub wall: Wall,
    /// Edges free to turn, in Hz: the lower bound.
    pub supported: f64,
    /// Edges held fast, in Hz: the upper bound.
    pub clamped: f64,
    /// Free span between walls and braces, in m.
    pub span: [f64; 2],
    /// The same with one brace across the longer span, in Hz.
    pub braced: [f64; 2],
}

/// Weight, where it acts, and how it hangs and stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Balance {
    /// Weight in kg.
    pub weight: f64,
    /// Centre of mass in the frame of the box, in m.
    pub centre: [f64; 3],
    /// Where a handle on its wall hangs level, in the frame of that wall, in m.
    pub level_handle: Option<[f64; 2]>,
    /// Angle at which the box hangs from the handle as designed, in rad.
    pub hang: Option<f64>,
    /// Smallest angle at which it tips over, in rad, and towards which wall.
    pub tipping: (f64, Wall),
}

/// The control panel.
#[derive(Clone, Debug, PartialEq)]
pub struct ControlPlan {
    /// The wall it is in.
    pub wall: Wall,
    /// Width and height in m.
    pub size: [f64; 2],
    /// Thickness of its plate in m.
    pub thickness: f64,
    /// What the plate is.
    pub plate: String,
    /// Its holes, from the left and the bottom edge seen from outside.
    pub holes: Vec<ControlHole>,
    /// Screws that hold it: middle, diameter, in m.
    pub screws: Vec<([f64; 2], f64)>,
    /// How far it lies below the outer face, in m.
    pub recess: f64,
}

/// One hole of the control panel and what is around it.
#[derive(Clone, Debug, PartialEq)]
pub struct ControlHole {
    /// What sits in it.
    pub name: String,
    /// Its middle in m.
    pub at: [f64; 2],
    /// Its form.
    pub outline: wood::Outline,
    /// Why it is that large: "ISO 273 medium for M7", or "the part's data".
    pub because: String,
    /// Diameter of the knob or nut in front, in m.
    pub front: f64,
    /// What is written beside it.
    pub label: Option<String>,
    /// First and last number of a scale around it, and marks between numbers.
    pub scale: Option<(i32, i32, u32)>,
    /// Width and height of its body behind, in m.
    pub body: [f64; 2],
}
