//! What the finish of a design takes, for sheets and files.

use design::{FinishBase, FinishKind, Species};
use wood::Wall;

/// The finish.
#[derive(Clone, Debug, PartialEq)]
pub struct Finish {
    /// What there is to finish, wall by wall.
    pub faces: Vec<FaceArea>,
    /// What those walls are of.
    pub woods: Vec<Wood>,
    /// Layers in order; none where the design names none.
    pub layers: Vec<Layer>,
    /// Sanding of the bare wood.
    pub sanding: Vec<Grit>,
    /// The test on an offcut, in words.
    pub offcut: Vec<String>,
    /// What must stay bare.
    pub masks: Vec<Mask>,
    /// What can hurt in this work.
    pub cautions: Vec<&'static str>,
}

/// What there is to finish of one wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceArea {
    /// The side of the box.
    pub wall: Wall,
    /// Area seen from that side in m², openings taken off, rims and half of each rounded edge
    /// included.
    pub area: f64,
}

/// The wood of some walls.
#[derive(Clone, Debug, PartialEq)]
pub struct Wood {
    /// Name of the sheet.
    pub sheet: String,
    /// The walls of it.
    pub walls: Vec<Wall>,
    /// What its faces are of, where that is known.
    pub species: Option<Species>,
}

/// One layer.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// Its name on the shelf.
    pub name: String,
    /// What it is.
    pub kind: FinishKind,
    /// What it is thinned with.
    pub base: FinishBase,
    /// How many coats.
    pub coats: u32,
    /// The faces it goes on.
    pub on: Vec<Wall>,
    /// Area of those in m².
    pub area: f64,
    /// What goes on them in all coats, and what stays in brush and tray or in the air, in m³.
    pub volume: f64,
    /// Cans that takes.
    pub cans: u32,
    /// Of those, the ones to be bought.
    pub to_buy: u32,
    /// Time until dust no longer sticks, in s.
    pub touch_dry: f64,
    /// Time until the next coat, in s.
    pub recoat: f64,
    /// Time until the next layer of another kind holds on it, in s.
    pub before_next: f64,
    /// Time until it bears use, in s.
    pub cure: f64,
    /// Grit for sanding between coats.
    pub sand: Option<u32>,
    /// Whether it is sprayed.
    pub sprayed: bool,
    /// Whether rags soaked with it can take fire by themselves.
    pub self_heating: bool,
    /// Hands-on time of one coat on all its faces, in s.
    pub coat_time: f64,
    /// Hands-on time of sanding between two coats, in s; zero where it is not sanded.
    pub sand_time: f64,
}

/// One round of sanding.
#[derive(Clone, Debug, PartialEq)]
pub struct Grit {
    /// Grit of the paper (FEPA P).
    pub grit: u32,
    /// What for, in words.
    pub words: String,
    /// Hands-on time in s.
    pub time: f64,
}

/// What must stay bare.
#[derive(Clone, Debug, PartialEq)]
pub struct Mask {
    /// The side of the box; `None` where it is no side.
    pub wall: Option<Wall>,
    /// What, in words.
    pub what: String,
    /// With what, and why.
    pub how: String,
}
