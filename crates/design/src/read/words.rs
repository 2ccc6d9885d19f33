//! The words a file may choose from.

use crate::{
    Chambers, Chemistry, Closing, ControlKind, DriverKind, Fitting, Grain, Joints, Leak,
    OuterEdges, Programme, SawKind, Side, Stage, Stands, Turn, Wall, Wiring,
};

/// The word of a value.
pub(crate) fn word_of<T: Copy + PartialEq>(words: &[(&'static str, T)], value: T) -> &'static str {
    let same = |(_, other): &&(&'static str, T)| *other == value;
    words.iter().find(same).map_or("", |(word, _)| *word)
}

pub(crate) const PROGRAMMES: &[(&str, Programme)] = &[
    ("music", Programme::Music),
    ("speech", Programme::Speech),
    ("squashed music", Programme::SquashedMusic),
];

pub(crate) const STANDS: &[(&str, Stands)] = &[
    ("free", Stands::Free),
    ("ground", Stands::Ground),
    ("wall", Stands::Wall),
    ("indoors", Stands::Indoors),
];

pub(crate) const SIDES: &[(&str, Side)] = &[
    ("both", Side::Both),
    ("left", Side::Left),
    ("right", Side::Right),
    ("mono", Side::Mono),
];

pub(crate) const WIRINGS: &[(&str, Wiring)] = &[
    ("parallel", Wiring::Parallel),
    ("series", Wiring::Series),
    ("series-parallel", Wiring::SeriesParallel),
];

pub(crate) const LEAKS: &[(&str, Leak)] = &[
    ("usual", Leak::Usual),
    ("tight", Leak::Tight),
    ("leaky", Leak::Leaky),
];

pub(crate) const CHAMBERS: &[(&str, Chambers)] = &[
    ("shared", Chambers::Shared),
    ("one per side", Chambers::OnePerSide),
];

pub(crate) const DRIVER_KINDS: &[(&str, DriverKind)] = &[
    ("full-range", DriverKind::FullRange),
    ("woofer", DriverKind::Woofer),
    ("coaxial", DriverKind::Coaxial),
    ("subwoofer", DriverKind::Subwoofer),
];

pub(crate) const STAGES: &[(&str, Stage)] =
    &[("switching", Stage::Switching), ("linear", Stage::Linear)];

pub(crate) const CHEMISTRIES: &[(&str, Chemistry)] = &[
    ("lead-acid", Chemistry::LeadAcid),
    ("iron phosphate", Chemistry::IronPhosphate),
    ("lithium-ion", Chemistry::LithiumIon),
    ("nickel-metal hydride", Chemistry::NickelMetalHydride),
];

/// What the box does with the back of the cone, before its table is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum BoxKind {
    Sealed,
    Vented,
    PassiveRadiator,
}

pub(crate) const BOX_KINDS: &[(&str, BoxKind)] = &[
    ("sealed", BoxKind::Sealed),
    ("vented", BoxKind::Vented),
    ("passive radiator", BoxKind::PassiveRadiator),
];

pub(crate) const WALLS: &[(&str, Wall)] = &[
    ("front", Wall::Front),
    ("back", Wall::Back),
    ("left", Wall::Left),
    ("right", Wall::Right),
    ("top", Wall::Top),
    ("bottom", Wall::Bottom),
];

/// One wall of each opposite pair.
pub(crate) const HALF_OF_WALLS: &[(&str, Wall)] = &[
    ("front", Wall::Front),
    ("left", Wall::Left),
    ("top", Wall::Top),
];

pub(crate) const JOINTS: &[(&str, Joints)] = &[
    ("butt", Joints::Butt),
    ("mitred ring", Joints::MitredRing),
    ("mitred", Joints::Mitred),
    ("rebated", Joints::Rebated),
];

pub(crate) const FITTINGS: &[(&str, Fitting)] =
    &[("overlaid", Fitting::Overlaid), ("inset", Fitting::Inset)];

pub(crate) const OUTER_EDGES: &[(&str, OuterEdges)] = &[
    ("all", OuterEdges::All),
    ("ring", OuterEdges::Ring),
    ("front", OuterEdges::Front),
];

pub(crate) const GRAINS: &[(&str, Grain)] = &[
    ("around", Grain::Around),
    ("across", Grain::Across),
    ("upright", Grain::Upright),
    ("free", Grain::Free),
];

pub(crate) const CLOSINGS: &[(&str, Closing)] =
    &[("glue", Closing::Glue), ("screws", Closing::Screws)];

/// How one edge is joined, before its other keys are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum JointKind {
    Butt,
    Mitre,
    Rebate,
}

pub(crate) const JOINT_KINDS: &[(&str, JointKind)] = &[
    ("butt", JointKind::Butt),
    ("mitre", JointKind::Mitre),
    ("rebate", JointKind::Rebate),
];

pub(crate) const TURNS: &[(&str, Turn)] = &[
    ("as stated", Turn::AsStated),
    ("on its side", Turn::OnItsSide),
    ("on its back", Turn::OnItsBack),
    ("sideways", Turn::Sideways),
    ("end up", Turn::EndUp),
    ("end out", Turn::EndOut),
];

pub(crate) const SAWS: &[(&str, SawKind)] = &[
    ("panel saw", SawKind::Panel),
    ("table saw", SawKind::Table),
    ("track saw", SawKind::Track),
    ("hand saw", SawKind::Hand),
];

pub(crate) const CONTROL_KINDS: &[(&str, ControlKind)] = &[
    ("potentiometer", ControlKind::Potentiometer),
    ("switch", ControlKind::Switch),
    ("jack", ControlKind::Jack),
    ("power socket", ControlKind::PowerSocket),
    ("terminal", ControlKind::Terminal),
    ("fuse holder", ControlKind::FuseHolder),
    ("light", ControlKind::Light),
    ("meter", ControlKind::Meter),
    ("radio", ControlKind::Radio),
];
