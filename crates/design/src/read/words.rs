//! The words a file may choose from.

use crate::{Chambers, Chemistry, DriverKind, Leak, Programme, Side, Stage, Stands, Wiring};

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
