//! The words a file may choose from.

use crate::{
    CapacitorKind, Chambers, ChargePath, Chemistry, Closing, ComparatorOutput, Contacts,
    ControlKind, Cooling, CutOff, Does, DriverKind, FinishBase, FinishKind, Fitting, FuseForm,
    FuseSpeed, Grain, Ground, Instrument, Joints, Leak, LightColour, ModuleKind, MosfetChannel,
    OuterEdges, Programme, SawKind, Series, Side, Species, Stage, Stands, Sum, TrackLaw, Turn,
    Wall, WireColour, Wiring,
};

/// What a file says in a word.
pub trait Word: Copy + PartialEq {
    /// The word a file says it in.
    fn word(self) -> &'static str;
}

macro_rules! words {
    ($($kind:ty => $list:ident),* $(,)?) => {
        $(impl Word for $kind {
            fn word(self) -> &'static str {
                word_of($list, self)
            }
        })*
    };
}

words!(
    CapacitorKind => CAPACITOR_KINDS,
    Chemistry => CHEMISTRIES,
    ComparatorOutput => COMPARATOR_OUTPUTS,
    Contacts => CONTACTS,
    ControlKind => CONTROL_KINDS,
    Does => ROLES,
    DriverKind => DRIVER_KINDS,
    FinishBase => FINISH_BASES,
    FinishKind => FINISH_KINDS,
    FuseForm => FUSE_FORMS,
    FuseSpeed => FUSE_SPEEDS,
    Instrument => INSTRUMENTS,
    LightColour => LIGHT_COLOURS,
    ModuleKind => MODULE_KINDS,
    MosfetChannel => MOSFET_CHANNELS,
    Species => SPECIES,
    Stage => STAGES,
    TrackLaw => TRACK_LAWS,
    WireColour => WIRE_COLOURS,
);

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

pub(crate) const SUMS: &[(&str, Sum)] = &[("none", Sum::None), ("resistors", Sum::Resistors)];

pub(crate) const FUSE_FORMS: &[(&str, FuseForm)] =
    &[("blade", FuseForm::Blade), ("tube", FuseForm::Tube)];

pub(crate) const FUSE_SPEEDS: &[(&str, FuseSpeed)] =
    &[("fast", FuseSpeed::Fast), ("slow", FuseSpeed::Slow)];

pub(crate) const MODULE_KINDS: &[(&str, ModuleKind)] = &[
    ("radio", ModuleKind::Radio),
    ("converter", ModuleKind::Converter),
    ("fuse holder", ModuleKind::FuseHolder),
    ("indicator", ModuleKind::Indicator),
];

pub(crate) const ROLES: &[(&str, Does)] = &[
    ("power", Does::Power),
    ("charging", Does::Charging),
    ("charge selector", Does::ChargeSelector),
    ("volume", Does::Volume),
    ("input", Does::Input),
    ("fuse", Does::Fuse),
    ("low battery", Does::LowBattery),
    ("power light", Does::PowerLight),
    ("left output", Does::LeftOutput),
    ("right output", Does::RightOutput),
    ("radio", Does::Radio),
    ("voltage", Does::Voltage),
    ("radio supply", Does::RadioSupply),
];

pub(crate) const WIRE_COLOURS: &[(&str, WireColour)] = &[
    ("black", WireColour::Black),
    ("brown", WireColour::Brown),
    ("red", WireColour::Red),
    ("orange", WireColour::Orange),
    ("yellow", WireColour::Yellow),
    ("green", WireColour::Green),
    ("blue", WireColour::Blue),
    ("violet", WireColour::Violet),
    ("grey", WireColour::Grey),
    ("white", WireColour::White),
    ("pink", WireColour::Pink),
    ("turquoise", WireColour::Turquoise),
];

pub(crate) const SERIES: &[(&str, Series)] = &[
    ("E12", Series::E12),
    ("E24", Series::E24),
    ("E3", Series::E3),
    ("E6", Series::E6),
    ("E48", Series::E48),
    ("E96", Series::E96),
];

pub(crate) const CAPACITOR_KINDS: &[(&str, CapacitorKind)] = &[
    ("film", CapacitorKind::Film),
    ("ceramic", CapacitorKind::Ceramic),
    ("electrolytic", CapacitorKind::Electrolytic),
    ("bipolar", CapacitorKind::Bipolar),
];

pub(crate) const COMPARATOR_OUTPUTS: &[(&str, ComparatorOutput)] = &[
    ("open collector", ComparatorOutput::OpenCollector),
    ("push-pull", ComparatorOutput::PushPull),
];

pub(crate) const LIGHT_COLOURS: &[(&str, LightColour)] = &[
    ("red", LightColour::Red),
    ("amber", LightColour::Amber),
    ("yellow", LightColour::Yellow),
    ("green", LightColour::Green),
    ("blue", LightColour::Blue),
    ("white", LightColour::White),
];

/// What switches a load, before its other keys are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SwitchingWord {
    Relay,
    Mosfet,
}

pub(crate) const SWITCHING_KINDS: &[(&str, SwitchingWord)] = &[
    ("relay", SwitchingWord::Relay),
    ("mosfet", SwitchingWord::Mosfet),
];

pub(crate) const MOSFET_CHANNELS: &[(&str, MosfetChannel)] =
    &[("N", MosfetChannel::N), ("P", MosfetChannel::P)];

pub(crate) const FINISH_KINDS: &[(&str, FinishKind)] = &[
    ("oil", FinishKind::Oil),
    ("hard-wax oil", FinishKind::HardWaxOil),
    ("wax", FinishKind::Wax),
    ("shellac", FinishKind::Shellac),
    ("lacquer", FinishKind::Lacquer),
    ("stain", FinishKind::Stain),
    ("primer", FinishKind::Primer),
    ("paint", FinishKind::Paint),
];

pub(crate) const FINISH_BASES: &[(&str, FinishBase)] = &[
    ("water", FinishBase::Water),
    ("oil", FinishBase::Oil),
    ("solvent", FinishBase::Solvent),
    ("alcohol", FinishBase::Alcohol),
];

pub(crate) const SPECIES: &[(&str, Species)] = &[
    ("ash", Species::Ash),
    ("beech", Species::Beech),
    ("birch", Species::Birch),
    ("cherry", Species::Cherry),
    ("maple", Species::Maple),
    ("oak", Species::Oak),
    ("gaboon", Species::Gaboon),
    ("pine", Species::Pine),
    ("poplar", Species::Poplar),
    ("spruce", Species::Spruce),
    ("walnut", Species::Walnut),
    ("fibreboard", Species::Fibreboard),
    ("chipboard", Species::Chipboard),
];

pub(crate) const COOLINGS: &[(&str, Cooling)] = &[("air", Cooling::Air), ("plate", Cooling::Plate)];

pub(crate) const GROUNDS: &[(&str, Ground)] = &[
    ("star", Ground::Star),
    ("isolated converter", Ground::IsolatedConverter),
];

pub(crate) const CHARGE_PATHS: &[(&str, ChargePath)] = &[
    ("separate", ChargePath::Separate),
    ("shared", ChargePath::Shared),
];

pub(crate) const CUT_OFFS: &[(&str, CutOff)] = &[
    ("none", CutOff::None),
    ("relay", CutOff::Relay),
    ("mosfet", CutOff::Mosfet),
];

pub(crate) const INSTRUMENTS: &[(&str, Instrument)] = &[
    ("multimeter", Instrument::Multimeter),
    ("phone", Instrument::Phone),
    ("sine source", Instrument::SineSource),
    ("bench supply", Instrument::BenchSupply),
    ("sound meter", Instrument::SoundMeter),
    ("oscilloscope", Instrument::Oscilloscope),
    ("thermometer", Instrument::Thermometer),
    ("clamp meter", Instrument::ClampMeter),
    ("scale", Instrument::Scale),
];

pub(crate) const CONTACTS: &[(&str, Contacts)] = &[
    ("SPST", Contacts::Spst),
    ("SPDT", Contacts::Spdt),
    ("SPDT centre off", Contacts::SpdtCentreOff),
    ("DPST", Contacts::Dpst),
    ("DPDT", Contacts::Dpdt),
    ("DPDT centre off", Contacts::DpdtCentreOff),
];

pub(crate) const TRACK_LAWS: &[(&str, TrackLaw)] = &[
    ("linear", TrackLaw::Linear),
    ("logarithmic", TrackLaw::Logarithmic),
];
