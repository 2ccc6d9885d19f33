//! Drivers, amplifier, source and battery as the design uses them.

use crate::{
    AmplifierPart, BatteryPart, Chemistry, Choice, DriverPart, Mounting, Place, Placement, Value,
};

/// Equal drivers of the design.
#[derive(Clone, Debug, PartialEq)]
pub struct DriverUse {
    /// The shelf part, whole.
    pub part: DriverPart,
    /// Where the part's name is written.
    pub place: Place,
    /// How many in the whole box.
    pub count: u32,
    /// Which channels they are on.
    pub side: Choice<Side>,
    /// How those on one channel are joined.
    pub wiring: Choice<Wiring>,
    /// Where their openings sit.
    pub mounting: Mounting,
    /// Whether their frames lie flush in the panel.
    pub flush: Choice<bool>,
}

/// Which channels a group of drivers is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Shared evenly between left and right.
    Both,
    /// All on the left channel.
    Left,
    /// All on the right channel.
    Right,
    /// All on the one channel of a mono box.
    Mono,
}

/// How the drivers on one channel are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wiring {
    /// In parallel, or a single one.
    Parallel,
    /// In series.
    Series,
    /// Strings of two in series, the strings in parallel.
    SeriesParallel,
}

/// The amplifier in the design.
#[derive(Clone, Debug, PartialEq)]
pub struct AmplifierUse {
    /// The shelf part, whole.
    pub part: AmplifierPart,
    /// Where the part's name is written.
    pub place: Place,
    /// A capacitor in series with each load, in F.
    pub coupling: Option<Value>,
    /// Length of one cable run to a driver in m.
    pub cable_length: Option<Value>,
    /// Copper section of that cable in m².
    pub cable_section: Option<Value>,
    /// Where the board stands in the box.
    pub placement: Placement,
    /// Height of the pillars it stands on, in m.
    pub standoff: Option<Value>,
    /// Resistor across each output in Ω, in series with [`AmplifierUse::damping_capacitor`]:
    /// it damps the output filter.
    pub damping_resistor: Option<Value>,
    /// Capacitor in series with it in F.
    pub damping_capacitor: Option<Value>,
    /// Where its chip gives its heat.
    pub cooling: Choice<Cooling>,
}

/// Where the chip of an amplifier gives its heat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cooling {
    /// To the air in the box, by its board and what heat sink comes with it.
    Air,
    /// To the metal plate of the control panel too, which it is screwed to.
    Plate,
}

/// What feeds the amplifier its signal.
#[derive(Clone, Debug, PartialEq)]
pub struct SourceUse {
    /// Highest sine level of the source in V rms.
    pub level: Option<Value>,
    /// Loss of the volume control and input network fully up, in dB (positive number).
    pub loss: Option<Value>,
    /// How its left and right become one in a mono box.
    pub sum: Choice<Sum>,
    /// Each of the two resistors of that sum in Ω.
    pub sum_resistor: Option<Value>,
}

/// How left and right become one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sum {
    /// They do not: one channel only, or both.
    None,
    /// Through a resistor each.
    Resistors,
}

/// The battery in the design.
#[derive(Clone, Debug, PartialEq)]
pub struct BatteryUse {
    /// The shelf part, whole.
    pub part: BatteryPart,
    /// Where the part's name is written.
    pub place: Place,
    /// Equal batteries in parallel.
    pub count: u32,
    /// Current of the charger in A.
    pub charger_current: Option<Value>,
    /// Voltage the charger ends at in V.
    pub charger_voltage: Option<Value>,
    /// The chemistry the charger is made for; that of the battery otherwise.
    pub charger_chemistry: Option<Choice<Chemistry>>,
    /// Whether it is charged inside the closed box.
    pub charged_inside: Choice<bool>,
    /// Whether the box gives it a bay of its own that is open to the outside.
    pub vented_bay: Choice<bool>,
    /// Where it stands in the box; equal ones stand side by side.
    pub placement: Placement,
}
