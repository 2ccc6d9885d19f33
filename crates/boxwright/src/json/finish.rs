//! The finish: areas, layers, cans, days, and what stays bare.

use design::{FinishBase, FinishKind};
use serde::Serialize;
use studies::finish::{Cans as CansModel, Finish as Model, Job as JobModel, Task, When, named};

/// Areas in m², volumes in m³, times in s.
#[derive(Serialize)]
pub(super) struct Finish<'a> {
    /// What it means that nothing goes on; null where something does.
    raw: Option<&'a str>,
    faces: Vec<Face<'a>>,
    layers: Vec<Layer<'a>>,
    holds: Vec<Hold<'a>>,
    cans: Vec<Cans<'a>>,
    sanding: Vec<Grit<'a>>,
    schedule: Vec<Job>,
    hands_on: f64,
    /// s from midnight before the first day.
    handled: Option<f64>,
    cured: Option<f64>,
    sequence: Vec<Turn<'a>>,
    offcut: &'a [String],
    offcut_wait: f64,
    masks: Vec<Mask<'a>>,
    /// kg.
    wet_weight: Option<f64>,
    air: &'a [&'static str],
    cautions: &'a [&'static str],
}

#[derive(Serialize)]
struct Face<'a> {
    wall: &'static str,
    area: f64,
    sheet: &'a str,
    species: Option<&'static str>,
}

#[derive(Serialize)]
struct Layer<'a> {
    part: &'a str,
    kind: &'static str,
    base: &'static str,
    coats: u32,
    on: Vec<&'static str>,
    area: f64,
    volume: f64,
    volume_least: f64,
    volume_most: f64,
    /// m.
    wet_thickness: f64,
    touch_dry: f64,
    recoat: f64,
    /// Null where coats always hold.
    window: f64,
    before_next: f64,
    cure: f64,
    sand: Option<u32>,
    sprayed: bool,
    self_heating: bool,
}

#[derive(Serialize)]
struct Hold<'a> {
    lower: &'a str,
    upper: &'a str,
    holds: bool,
    cured: bool,
    because: &'a str,
}

#[derive(Serialize)]
struct Cans<'a> {
    part: &'a str,
    size: f64,
    volume: f64,
    volume_least: f64,
    volume_most: f64,
    wanted: u32,
    to_buy: u32,
}

#[derive(Serialize)]
struct Grit<'a> {
    grit: u32,
    words: &'a str,
    time: f64,
}

#[derive(Serialize)]
struct Job {
    task: &'static str,
    /// From 1, in the order of the layers; null where it is about none.
    layer: Option<usize>,
    coat: Option<u32>,
    grit: Option<u32>,
    start: f64,
    time: f64,
}

#[derive(Serialize)]
struct Turn<'a> {
    when: &'static str,
    words: &'a str,
}

#[derive(Serialize)]
struct Mask<'a> {
    wall: &'static str,
    what: &'a str,
    how: &'a str,
    around: bool,
    /// Holes of the wall by index, with the band around each that stays bare, in m.
    bare: Vec<Bare>,
}

#[derive(Serialize)]
struct Bare {
    hole: usize,
    rim: f64,
}

impl<'a> Finish<'a> {
    pub(super) fn new(model: &'a Model) -> Self {
        let name = |index: usize| model.layers[index].name.as_str();
        Self {
            raw: model.raw,
            faces: faces(model),
            layers: model.layers.iter().map(layer).collect(),
            holds: model
                .holds
                .iter()
                .map(|hold| Hold {
                    lower: name(hold.lower),
                    upper: name(hold.upper),
                    holds: hold.holds,
                    cured: hold.cured,
                    because: hold.because,
                })
                .collect(),
            cans: model.cans.iter().map(cans).collect(),
            sanding: model
                .sanding
                .iter()
                .map(|round| Grit {
                    grit: round.grit,
                    words: &round.words,
                    time: round.time,
                })
                .collect(),
            schedule: model.schedule.iter().map(job).collect(),
            hands_on: model.hands_on(),
            handled: model.handled(),
            cured: model.cured(),
            sequence: model
                .sequence
                .iter()
                .map(|turn| Turn {
                    when: when(turn.when),
                    words: &turn.words,
                })
                .collect(),
            offcut: &model.offcut,
            offcut_wait: model.offcut_wait,
            masks: model.masks.iter().map(mask).collect(),
            wet_weight: model.wet_weight,
            air: &model.air,
            cautions: &model.cautions,
        }
    }
}

fn faces(model: &Model) -> Vec<Face<'_>> {
    let of = |face: &studies::finish::FaceArea| {
        let mut own = model.woods.iter();
        let own = own.find(|wood| wood.walls.contains(&face.wall));
        Face {
            wall: face.wall.name(),
            area: face.area,
            sheet: own.map_or("", |wood| wood.sheet.as_str()),
            species: own.and_then(|wood| wood.species).map(named),
        }
    };
    model.faces.iter().map(of).collect()
}

fn layer(layer: &studies::finish::Layer) -> Layer<'_> {
    Layer {
        part: &layer.name,
        kind: kind(layer.kind),
        base: base(layer.base),
        coats: layer.coats,
        on: layer.on.iter().map(|wall| wall.name()).collect(),
        area: layer.area,
        volume: layer.volume,
        volume_least: layer.volume_band.0,
        volume_most: layer.volume_band.1,
        wet_thickness: layer.wet_thickness,
        touch_dry: layer.touch_dry,
        recoat: layer.recoat,
        window: layer.window,
        before_next: layer.before_next,
        cure: layer.cure,
        sand: layer.sand,
        sprayed: layer.sprayed,
        self_heating: layer.self_heating,
    }
}

fn cans(cans: &CansModel) -> Cans<'_> {
    Cans {
        part: &cans.name,
        size: cans.size,
        volume: cans.volume,
        volume_least: cans.band.0,
        volume_most: cans.band.1,
        wanted: cans.wanted,
        to_buy: cans.to_buy,
    }
}

fn job(job: &JobModel) -> Job {
    let (task, layer, coat, grit) = match job.task {
        Task::Sand => ("sand", None, None, None),
        Task::Mask => ("mask", None, None, None),
        Task::Dull { layer, grit } => ("dull", Some(layer + 1), None, Some(grit)),
        Task::Coat { layer, coat } => ("coat", Some(layer + 1), Some(coat), None),
        Task::Unmask => ("unmask", None, None, None),
        Task::Handle => ("handled", None, None, None),
        Task::Cured => ("cured", None, None, None),
    };
    Job {
        task,
        layer,
        coat,
        grit,
        start: job.start,
        time: job.time,
    }
}

fn mask(mask: &studies::finish::Mask) -> Mask<'_> {
    let bare = mask.bare.iter().map(|bare| Bare {
        hole: bare.hole,
        rim: bare.rim,
    });
    Mask {
        wall: mask.wall.name(),
        what: &mask.what,
        how: &mask.how,
        around: mask.around,
        bare: bare.collect(),
    }
}

const fn when(when: When) -> &'static str {
    match when {
        When::Before => "before",
        When::Handled => "handled",
        When::Cured => "cured",
    }
}

const fn kind(kind: FinishKind) -> &'static str {
    match kind {
        FinishKind::Oil => "oil",
        FinishKind::HardWaxOil => "hard-wax oil",
        FinishKind::Wax => "wax",
        FinishKind::Shellac => "shellac",
        FinishKind::Lacquer => "lacquer",
        FinishKind::Stain => "stain",
        FinishKind::Primer => "primer",
        FinishKind::Paint => "paint",
    }
}

const fn base(base: FinishBase) -> &'static str {
    match base {
        FinishBase::Water => "water",
        FinishBase::Oil => "oil",
        FinishBase::Solvent => "solvent",
        FinishBase::Alcohol => "alcohol",
    }
}
