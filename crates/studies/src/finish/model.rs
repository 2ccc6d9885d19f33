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
    /// How each layer holds on what lies right under it.
    pub holds: Vec<Hold>,
    /// What there is to be had, each kind of can once.
    pub cans: Vec<Cans>,
    /// Sanding of the bare wood.
    pub sanding: Vec<Grit>,
    /// The test on an offcut, in words.
    pub offcut: Vec<String>,
    /// How long before the first coat the offcut is to be begun, in s.
    pub offcut_wait: f64,
    /// What must stay bare.
    pub masks: Vec<Mask>,
    /// What to do when among all the work, as the order of building has it; empty without layers,
    /// and where that order is not studied.
    pub schedule: Vec<Job>,
    /// What is done before the finish and what after it, in words.
    pub sequence: Vec<Turn>,
    /// In what air the times hold, in words.
    pub air: Vec<&'static str>,
    /// What can hurt in this work.
    pub cautions: Vec<&'static str>,
    /// Weight of all layers while wet, in kg; `None` where the weight of a can is not known.
    pub wet_weight: Option<f64>,
    /// What it means that the box is left raw; `None` where something goes on.
    pub raw: Option<&'static str>,
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
    /// What all coats take out of the can, with what stays in brush and tray or in the air, in m³.
    pub volume: f64,
    /// The least and the most that may take, in m³.
    pub volume_band: (f64, f64),
    /// Thickness of all coats while wet, in m; dry they are thinner.
    pub wet_thickness: f64,
    /// Time until dust no longer sticks, in s.
    pub touch_dry: f64,
    /// Time until the next coat, in s.
    pub recoat: f64,
    /// Time after which a further coat holds only on a sanded one, in s; infinite where coats
    /// always hold.
    pub window: f64,
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
    /// Hands-on time of sanding between two coats, in s, where it is sanded.
    pub sand_time: f64,
}

/// How one layer holds on another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hold {
    /// Index of the lower layer.
    pub lower: usize,
    /// Index of the upper one.
    pub upper: usize,
    /// Whether it holds.
    pub holds: bool,
    /// Whether the lower one must cure first, not only dry.
    pub cured: bool,
    /// Why, in words.
    pub because: &'static str,
}

/// One kind of can.
#[derive(Clone, Debug, PartialEq)]
pub struct Cans {
    /// Its name on the shelf.
    pub name: String,
    /// Volume of one in m³.
    pub size: f64,
    /// What is wanted of it, in m³, with its least and most.
    pub volume: f64,
    /// The least and the most that may take, in m³.
    pub band: (f64, f64),
    /// Cans that hold the most.
    pub wanted: u32,
    /// Of those, the ones to be bought.
    pub to_buy: u32,
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

/// What must stay bare on one side.
#[derive(Clone, Debug, PartialEq)]
pub struct Mask {
    /// The side of the box.
    pub wall: Wall,
    /// The holes of that wall it is about, by index.
    pub bare: Vec<Bare>,
    /// Whether it runs around the whole wall.
    pub around: bool,
    /// What, in words.
    pub what: String,
    /// With what, and why.
    pub how: String,
}

/// A hole that is masked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bare {
    /// Its index in the panel.
    pub hole: usize,
    /// Width of the band around it that stays bare too, in m.
    pub rim: f64,
}

/// One job of the finish.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// What it is.
    pub task: Task,
    /// When it begins, in s from midnight before the first day of the work.
    pub start: f64,
    /// Hands-on time in s.
    pub time: f64,
}

/// What a job of the finish is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Task {
    /// Sanding the bare wood with every grit.
    Sand,
    /// Masking what stays bare.
    Mask,
    /// Sanding what lies there with this grit, so that the next coat holds.
    Dull {
        /// Index of the layer that is sanded.
        layer: usize,
        /// Grit of the paper (FEPA P).
        grit: u32,
    },
    /// A coat, counted from 1.
    Coat {
        /// Index of the layer.
        layer: usize,
        /// Which coat of it.
        coat: u32,
    },
    /// Masks off.
    Unmask,
    /// It may be touched and things screwed on.
    Handle,
    /// It bears use and gives off no more.
    Cured,
}

/// What stands before, within or after the finish.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Turn {
    /// When.
    pub when: When,
    /// What, in words.
    pub words: String,
}

/// When something is done, held against the finish.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum When {
    /// Before the first coat.
    Before,
    /// Once it may be touched.
    Handled,
    /// Once it has cured.
    Cured,
}

impl Finish {
    /// When the box may be fitted out, in s from midnight before the first day of the work.
    #[must_use]
    pub fn handled(&self) -> Option<f64> {
        self.when(Task::Handle)
    }

    /// When all layers have cured, in s from midnight before the first day of the work.
    #[must_use]
    pub fn cured(&self) -> Option<f64> {
        self.when(Task::Cured)
    }

    /// Hands-on time of all of it, in s.
    #[must_use]
    pub fn hands_on(&self) -> f64 {
        self.schedule.iter().map(|job| job.time).sum()
    }

    fn when(&self, task: Task) -> Option<f64> {
        let mut own = self.schedule.iter().filter(|job| job.task == task);
        own.next().map(|job| job.start)
    }
}
