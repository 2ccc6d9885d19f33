//! Small parts of circuits on the shelf: resistors, capacitors, references,
//! comparators, lights and what switches a load.

use crate::{Choice, Common, Value};

/// A drawer of resistors that differ only in value; price and number are those of each value.
#[derive(Clone, Debug, PartialEq)]
pub struct ResistorPart {
    /// What every part has.
    pub common: Common,
    /// The values in the drawer in Ω, rising.
    pub values: Vec<f64>,
    /// Tolerance as a share, one way.
    pub tolerance: Value,
    /// Rated power in W.
    pub power: Value,
}

/// A drawer of capacitors that differ only in value; price and number are those of each value.
#[derive(Clone, Debug, PartialEq)]
pub struct CapacitorPart {
    /// What every part has.
    pub common: Common,
    /// What it is made of.
    pub kind: Choice<CapacitorKind>,
    /// The values in the drawer in F, rising.
    pub values: Vec<f64>,
    /// Tolerance as a share, one way.
    pub tolerance: Value,
    /// Rated voltage in V.
    pub voltage: Value,
}

/// Kinds of capacitors.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CapacitorKind {
    /// Foil; no polarity.
    Film,
    /// Ceramic; no polarity.
    Ceramic,
    /// Electrolytic, with polarity.
    Electrolytic,
    /// Electrolytic without polarity.
    Bipolar,
}

/// A zener diode on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct ZenerPart {
    /// What every part has.
    pub common: Common,
    /// Voltage at the test current in V.
    pub voltage: Value,
    /// Tolerance of it as a share, one way.
    pub tolerance: Value,
    /// Current at which it is rated in A.
    pub test_current: Value,
    /// Dynamic resistance there in Ω.
    pub impedance: Value,
    /// Rated power in W.
    pub power: Value,
}

/// A shunt reference on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct ReferencePart {
    /// What every part has.
    pub common: Common,
    /// Voltage in V.
    pub voltage: Value,
    /// Tolerance of it as a share, one way.
    pub tolerance: Value,
    /// Least current at which it regulates, in A.
    pub least_current: Value,
    /// Highest current in A.
    pub most_current: Value,
    /// Dynamic resistance in Ω.
    pub impedance: Option<Value>,
    /// How far it moves over its range of temperature, as a share, one way.
    pub drift: Option<Value>,
}

/// A comparator, or an operational amplifier used as one, on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct ComparatorPart {
    /// What every part has.
    pub common: Common,
    /// Its output stage.
    pub output: Choice<ComparatorOutput>,
    /// How many in one case.
    pub channels: u32,
    /// Lowest supply in V.
    pub supply_min: Value,
    /// Highest supply in V.
    pub supply_max: Value,
    /// Supply current of the whole case without load, in A.
    pub supply_current: Value,
    /// How far its inputs may come to the lower rail, in V; 0 where it may be reached.
    pub input_low: Value,
    /// How far its inputs must stay below the upper rail, in V.
    pub input_high: Value,
    /// Output voltage above the lower rail when low, at [`ComparatorPart::output_current`], in V.
    pub output_low: Value,
    /// Output voltage below the upper rail when high, in V; `None` where the
    /// output cannot drive high by itself.
    pub output_high: Option<Value>,
    /// Output current it can carry in A.
    pub output_current: Value,
    /// Offset between its inputs, one way, in V.
    pub offset: Value,
    /// Input bias current in A.
    pub bias_current: Value,
}

/// Output stages of comparators.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ComparatorOutput {
    /// Only pulls low; a resistor pulls high.
    OpenCollector,
    /// Drives both ways.
    PushPull,
}

/// A light-emitting diode on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct LedPart {
    /// What every part has.
    pub common: Common,
    /// Colour of its light.
    pub colour: Choice<LightColour>,
    /// Forward voltage at its usual current in V.
    pub forward_voltage: Value,
    /// The current at which it is plainly seen, in A.
    pub current: Value,
    /// Highest current in A.
    pub most_current: Value,
}

/// Colours of lights.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LightColour {
    /// Red.
    Red,
    /// Orange or amber.
    Amber,
    /// Yellow.
    Yellow,
    /// Green.
    Green,
    /// Blue.
    Blue,
    /// White.
    White,
}

/// A part that switches a load, on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct SwitchingPart {
    /// What every part has.
    pub common: Common,
    /// What it is and what it needs.
    pub kind: SwitchingKind,
    /// Direct current it carries for long, in A.
    pub dc_current: Value,
    /// Direct voltage it switches, in V.
    pub dc_voltage: Value,
}

/// Kinds of switching parts.
#[derive(Clone, Debug, PartialEq)]
pub enum SwitchingKind {
    /// A relay.
    Relay {
        /// Coil voltage in V.
        coil_voltage: Value,
        /// Coil resistance in Ω.
        coil_resistance: Value,
        /// Voltage at which it surely pulls in, in V.
        pull_in: Option<Value>,
        /// Voltage at which it surely drops out, in V.
        drop_out: Option<Value>,
    },
    /// A field-effect transistor.
    Mosfet {
        /// Which way it conducts.
        channel: Choice<MosfetChannel>,
        /// Resistance when on, at [`SwitchingKind::Mosfet::gate_voltage`], in Ω.
        on_resistance: Value,
        /// Gate voltage at which that holds, in V, as an amount.
        gate_voltage: Value,
        /// Highest gate voltage, in V, as an amount.
        gate_most: Value,
        /// Highest threshold, in V, as an amount.
        threshold: Option<Value>,
    },
}

/// Channels of field-effect transistors.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MosfetChannel {
    /// Switches the negative side.
    N,
    /// Switches the positive side.
    P,
}
