//! What the maker says about the wires, the indicator and the tools to test with.

use crate::{
    Choice, ComparatorPart, LedPart, Place, ReferencePart, Text, Value, WireColour, WirePart,
    ZenerPart,
};

/// What the maker says about the wires; the rest is proposed.
#[derive(Clone, Debug, PartialEq)]
pub struct WiringPlan {
    /// How grounds meet.
    pub ground: Choice<Ground>,
    /// Whether charging has a path of its own.
    pub charging: Choice<ChargePath>,
    /// Length added to every wire, as a share of it.
    pub slack: Option<Value>,
    /// Length of the loop left at each part that comes out, in m.
    pub service_loop: Option<Value>,
    /// The wire taken where nothing else is said.
    pub usual: Option<(WirePart, Place)>,
    /// Wires added, or said otherwise than proposed.
    pub wires: Vec<WireUse>,
    /// Proposed wires that are left out.
    pub without: Vec<WireLeftOut>,
    /// Where the table stands.
    pub place: Option<Place>,
}

impl WiringPlan {
    /// Of a design that says nothing of wires.
    #[must_use]
    pub const fn proposed() -> Self {
        Self {
            ground: Choice::unsaid(Ground::Star),
            charging: Choice::unsaid(ChargePath::Separate),
            slack: None,
            service_loop: None,
            usual: None,
            wires: Vec::new(),
            without: Vec::new(),
            place: None,
        }
    }
}

/// How grounds meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ground {
    /// All in one point at the amplifier's supply.
    Star,
    /// The radio module's supply has no connection to the amplifier's.
    IsolatedConverter,
}

/// How the charger reaches the battery.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChargePath {
    /// Before the main switch, by wires of its own.
    Separate,
    /// Through the wires and the switch of the supply.
    Shared,
}

/// One wire as the maker wants it.
///
/// Ends are written "part terminal", such as "battery +"; what they mean is
/// settled where the parts of the whole design are known.
#[derive(Clone, Debug, PartialEq)]
pub struct WireUse {
    /// Where it begins.
    pub from: Text,
    /// Where it ends.
    pub to: Text,
    /// Which wire it is.
    pub wire: Option<(WirePart, Place)>,
    /// Its colour.
    pub colour: Option<Choice<WireColour>>,
    /// Its length as measured, in m.
    pub length: Option<Value>,
    /// Where it is written.
    pub place: Place,
}

/// A proposed wire that is left out.
#[derive(Clone, Debug, PartialEq)]
pub struct WireLeftOut {
    /// Where it would begin.
    pub from: Text,
    /// Where it would end.
    pub to: Text,
    /// Where it is written.
    pub place: Place,
}

/// The low-battery indicator wanted.
#[derive(Clone, Debug, PartialEq)]
pub struct IndicatorUse {
    /// Music left when it lights, in s.
    pub warning: Option<Value>,
    /// How long the voltage must be low before it lights, in s.
    pub delay: Option<Value>,
    /// How far the voltage must rise before it goes out, in V at the battery.
    pub hysteresis: Option<Value>,
    /// Whether a trimmer sets its threshold.
    pub trim: Choice<bool>,
    /// What disconnects the load below the threshold.
    pub cut_off: Choice<CutOff>,
    /// The comparator; chosen otherwise.
    pub comparator: Option<(ComparatorPart, Place)>,
    /// The reference; chosen otherwise.
    pub reference: Option<(VoltageReference, Place)>,
    /// The light; chosen otherwise.
    pub led: Option<(LedPart, Place)>,
    /// Where the table stands.
    pub place: Place,
}

/// What a threshold is compared with.
#[derive(Clone, Debug, PartialEq)]
pub enum VoltageReference {
    /// A zener diode.
    Zener(ZenerPart),
    /// A shunt reference.
    Shunt(ReferencePart),
}

/// What disconnects the load of a battery that has run low.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutOff {
    /// Nothing: the light is a warning.
    None,
    /// A relay that drops out.
    Relay,
    /// A field-effect transistor.
    Mosfet,
}

/// The instruments there are to test with.
#[derive(Clone, Debug, PartialEq)]
pub struct Workshop {
    /// What the maker has.
    pub tools: Vec<Instrument>,
    /// Where the table stands.
    pub place: Option<Place>,
}

impl Workshop {
    /// What nearly everybody has: a multimeter, and a phone that plays a sine.
    #[must_use]
    pub fn usual() -> Self {
        Self {
            tools: vec![Instrument::Multimeter, Instrument::Phone],
            place: None,
        }
    }

    /// Whether one of the instruments is there.
    #[must_use]
    pub fn has(&self, tool: Instrument) -> bool {
        self.tools.contains(&tool)
    }
}

/// Instruments to test with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Instrument {
    /// Measures volts, amperes and ohms.
    Multimeter,
    /// A phone that plays sines and sweeps.
    Phone,
    /// A generator of sines with a known level.
    SineSource,
    /// A supply with adjustable voltage and current limit.
    BenchSupply,
    /// Measures sound levels.
    SoundMeter,
    /// Shows voltages over time.
    Oscilloscope,
    /// Measures temperatures.
    Thermometer,
    /// Measures direct current without cutting the wire.
    ClampMeter,
    /// Weighs the box.
    Scale,
}
