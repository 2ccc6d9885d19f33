//! Parts in their places, gaps, ways out, and the box as a whole.

use serde::Serialize;
use studies::carpentry::{
    AccessLine, Balance as BalanceModel, GapLine, GlueUp as GlueUpModel, PartKind, Passage,
    PlacedPart, RingBudget, Stage, WallMode,
};

#[derive(Serialize)]
pub(super) struct Part<'a> {
    number: usize,
    label: &'a str,
    kind: &'static str,
    /// Origin of its own frame, in m.
    at: [f64; 3],
    /// kg.
    weight: f64,
    found: bool,
}

impl<'a> Part<'a> {
    pub(super) fn new(part: &'a PlacedPart) -> Self {
        Self {
            number: part.number,
            label: &part.label,
            kind: kind(part.kind),
            at: part.part.pose.at,
            weight: part.weight,
            found: part.found,
        }
    }
}

const fn kind(kind: PartKind) -> &'static str {
    match kind {
        PartKind::Driver => "driver",
        PartKind::Radiator => "radiator",
        PartKind::Vent => "vent",
        PartKind::Battery => "battery",
        PartKind::Board => "board",
        PartKind::Control => "control",
        PartKind::Handle => "handle",
        PartKind::Foot => "foot",
        PartKind::Grille => "grille",
        PartKind::Other => "other",
    }
}

/// Lengths in m.
#[derive(Serialize)]
pub(super) struct Gap<'a> {
    part: &'a str,
    other: &'a str,
    gap: f64,
    wanted: f64,
    away: [f64; 3],
    air: bool,
    odds: f64,
}

impl<'a> Gap<'a> {
    pub(super) fn new(line: &'a GapLine, part: &'a str) -> Self {
        Self {
            part,
            other: &line.other,
            gap: line.gap,
            wanted: line.wanted,
            away: line.away,
            air: line.air,
            odds: line.odds,
        }
    }
}

#[derive(Serialize)]
pub(super) struct Access<'a> {
    part: &'a str,
    through: Option<&'a str>,
    /// What has to come off or out before.
    first: &'a [String],
    /// m.
    slack: f64,
    passage: &'static str,
    goes_in: &'static str,
    how: &'a str,
    screwdriver: bool,
    hand: bool,
}

impl<'a> Access<'a> {
    pub(super) fn new(line: &'a AccessLine) -> Self {
        Self {
            part: &line.label,
            through: line.through.as_deref(),
            first: &line.first,
            slack: line.slack,
            passage: match line.passage {
                Passage::Out => "comes out",
                Passage::TooLarge => "too large",
                Passage::NotFound => "no way found",
                Passage::NoOpening => "no opening",
            },
            goes_in: match line.goes_in {
                Stage::Open => "before the walls are joined",
                Stage::BeforeLast => "before the last wall",
                Stage::Closed => "when closed",
            },
            how: &line.how,
            screwdriver: line.driver_reaches,
            hand: line.hand_reaches,
        }
    }
}

/// Hz and m.
#[derive(Serialize)]
pub(super) struct Mode {
    wall: &'static str,
    supported: f64,
    clamped: f64,
    span: [f64; 2],
    braced: [f64; 2],
}

impl Mode {
    pub(super) const fn new(mode: &WallMode) -> Self {
        Self {
            wall: mode.wall.name(),
            supported: mode.supported,
            clamped: mode.clamped,
            span: mode.span,
            braced: mode.braced,
        }
    }
}

/// kg, m, rad.
#[derive(Serialize)]
pub(super) struct Balance {
    weight: f64,
    centre: [f64; 3],
    level_handle: Option<[f64; 2]>,
    hang: Option<f64>,
    tipping: f64,
    tips_towards: &'static str,
}

impl Balance {
    pub(super) const fn new(model: &BalanceModel) -> Self {
        Self {
            weight: model.weight,
            centre: model.centre,
            level_handle: model.level_handle,
            hang: model.hang,
            tipping: model.tipping.0,
            tips_towards: model.tipping.1.name(),
        }
    }
}

/// rad, m.
#[derive(Serialize)]
pub(super) struct Ring {
    angle_error: f64,
    length_error: f64,
    worst_gap: f64,
    median_gap: f64,
    p90_gap: f64,
    glue_gap: f64,
    odds: f64,
    wanted_angle: f64,
    test_length: f64,
    test_gap: f64,
}

impl Ring {
    pub(super) const fn new(model: &RingBudget) -> Self {
        Self {
            angle_error: model.angle_error,
            length_error: model.length_error,
            worst_gap: model.worst_gap,
            median_gap: model.median_gap,
            p90_gap: model.p90_gap,
            glue_gap: model.glue_gap,
            odds: model.odds,
            wanted_angle: model.wanted_angle,
            test_length: model.test_length,
            test_gap: model.test_gap,
        }
    }
}

/// m², kg, m, s.
#[derive(Serialize)]
pub(super) struct GlueUp<'a> {
    steps: Vec<Step<'a>>,
    area: f64,
    glue: f64,
    diagonal: f64,
    diagonal_within: f64,
    open_time: f64,
}

#[derive(Serialize)]
struct Step<'a> {
    words: &'a str,
    joints: usize,
    time: f64,
}

impl<'a> GlueUp<'a> {
    pub(super) fn new(model: &'a GlueUpModel) -> Self {
        let steps = model.steps.iter().map(|step| Step {
            words: &step.words,
            joints: step.joints,
            time: step.time,
        });
        Self {
            steps: steps.collect(),
            area: model.area,
            glue: model.glue,
            diagonal: model.diagonal,
            diagonal_within: model.diagonal_within,
            open_time: model.open_time,
        }
    }
}
