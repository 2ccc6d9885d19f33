//! What the study of the indicator gives.

use crate::odds::Band;
use serde::Serialize;

/// The low-battery indicator of a design.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Indicator {
    /// What it is to do.
    pub wanted: Wanted,
    /// How far the battery sags while the programme plays.
    pub sag: Sag,
    /// The circuit; `None` where the shelf has none that does it.
    pub built: Option<Built>,
    /// Other pairs of comparator and reference, best first.
    pub alternatives: Vec<Alternative>,
    /// Battery voltage in V, while playing as the brief asks, against seconds of
    /// music left, as designed: longest first.
    pub left: Vec<f64>,
    /// The voltage at each of them.
    pub volts: Vec<f64>,
    /// Band of that voltage over the builds, for the same seconds left.
    pub volts_band: Vec<Band>,
    /// Fall of the voltage per hour of music where it lights, in V, as designed.
    pub steepness: f64,
    /// How far the voltage at rest moves from 90 % to 20 % of the charge, in V, for
    /// cells whose voltage hardly changes while they empty; `None` for others.
    pub plateau: Option<f64>,
    /// What cannot be told from here, in words; nothing where all is well.
    pub remarks: Vec<String>,
}

/// What an indicator is to do.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Wanted {
    /// Music left when it lights, in s.
    pub warning: f64,
    /// How long the voltage must be low, in s.
    pub delay: f64,
    /// Least rise that puts it out again, in V.
    pub hysteresis: f64,
    /// Battery voltage at which it is to light, in V: nine builds of ten then
    /// have the warning, the circuit's own spread counted.
    pub trip: f64,
    /// Lowest and highest voltage of the battery in V.
    pub supply: [f64; 2],
}

/// How far the battery sags, as designed, near the end of its charge.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Sag {
    /// Mean current at the brief's loudness in A.
    pub mean_current: f64,
    /// What that takes off the voltage, in V: what it rises when the music pauses.
    pub mean: f64,
    /// Current at the peaks of the programme in A.
    pub peak_current: f64,
    /// What that takes off, in V.
    pub peak: f64,
    /// What is left of the peaks at the comparator, in V at the battery.
    pub ripple: f64,
}

/// One threshold.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Threshold {
    /// As designed, in V.
    pub volts: f64,
    /// With every tolerance at its worst.
    pub least: f64,
    /// The same the other way.
    pub most: f64,
    /// Between which eight of ten builds lie.
    pub band: Band,
}

/// A circuit that does what is wanted.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Built {
    /// Its parts in the order of the circuit.
    pub parts: Vec<Part>,
    /// What is joined to what.
    pub nets: Vec<Net>,
    /// Name of the comparator on the shelf.
    pub comparator: String,
    /// Name of the reference on the shelf.
    pub reference: String,
    /// It lights when the voltage falls below.
    pub falling: Threshold,
    /// It goes out when the voltage rises above.
    pub rising: Threshold,
    /// What the spread of the falling threshold comes from, most first.
    pub causes: Vec<Cause>,
    /// Music left when it lights, in s, as designed.
    pub left: f64,
    /// Its band over the builds.
    pub left_band: Band,
    /// Share of builds in which less music is left than the warning wanted.
    pub too_late: f64,
    /// Share of builds in which more than four times that is left.
    pub too_early: f64,
    /// Time from a sudden fall to the light, in s.
    pub delay: f64,
    /// Drawn from the battery with the lamp dark, in A. It stands behind the
    /// main switch: switched off it draws nothing.
    pub dark: f64,
    /// The same with the lamp lit.
    pub lit: f64,
    /// Through the lamp in A.
    pub lamp: f64,
    /// Voltage at the inputs of the comparator where it lights, in V.
    pub input: f64,
    /// Voltages and currents held against what the parts bear.
    pub limits: Limits,
    /// How it is set.
    pub trimmer: Option<Trimmer>,
    /// How it is tested and set, step by step.
    pub steps: Vec<Step>,
    /// What disconnects the load.
    pub cut_off: Option<CutOff>,
}

/// Voltages and currents held against what the parts bear.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Limits {
    /// Highest voltage at an input that this comparator takes, on the lowest supply, in V.
    pub input_most: f64,
    /// Lowest it takes, in V.
    pub input_least: f64,
    /// Least current through the reference, on an empty battery, in A.
    pub reference_current: f64,
    /// Least with which it regulates, in A.
    pub reference_wants: f64,
    /// Current into the comparator's output with the lamp lit, battery full, in A.
    pub sunk: f64,
    /// What the output carries, in A.
    pub sinks: f64,
    /// Voltage left across the lamp and its resistor while it should be dark, in V.
    pub dark_volts: f64,
    /// From where on it would glow, in V.
    pub glows: f64,
}

/// One part of the circuit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Part {
    /// Its mark in the drawing: R1, U1.
    pub mark: String,
    /// What it is.
    pub kind: Kind,
    /// What it is for.
    pub does: &'static str,
    /// Value in SI units: Ω, F, or V of zener, reference and lamp.
    pub value: Option<f64>,
    /// Unit of that.
    pub unit: &'static str,
    /// Tolerance as a share.
    pub tolerance: Option<f64>,
    /// Name of it, or of its drawer, on the shelf; `None` where the shelf has none.
    pub name: Option<String>,
    /// Whether it must be bought.
    pub to_buy: bool,
}

/// Kinds of parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// A resistor.
    Resistor,
    /// A trimmer.
    Trimmer,
    /// A capacitor without polarity.
    Capacitor,
    /// An electrolytic capacitor.
    Electrolytic,
    /// A zener diode or shunt reference.
    Reference,
    /// A comparator or operational amplifier.
    Comparator,
    /// A light-emitting diode.
    Lamp,
    /// An N-channel field-effect transistor.
    Mosfet,
    /// A P-channel field-effect transistor.
    MosfetP,
    /// A relay.
    Relay,
    /// A push-button.
    Button,
}

/// What is joined.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Net {
    /// Its name: battery, ground, divider, reference, output.
    pub name: String,
    /// Mark and terminal of each part on it.
    pub pins: Vec<(String, &'static str)>,
}

/// What one cause brings to the spread of the falling threshold.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Cause {
    /// In words.
    pub words: &'static str,
    /// How far its limits move the threshold, one way, in V.
    pub volts: f64,
}

/// A fixed resistor with a trimmer in place of the arm below.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Trimmer {
    /// The trimmer's whole value in Ω.
    pub ohms: f64,
    /// Where it stands in a nominal build, as a share of that.
    pub turned: f64,
    /// Threshold with the trimmer at one end and at the other, in V.
    pub reach: [f64; 2],
}

/// One step of test and setting.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Step {
    /// What to do.
    pub act: String,
    /// What it should read.
    pub reads: Option<Reading>,
    /// What it means if it does not.
    pub otherwise: String,
}

/// What a meter should show.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Reading {
    /// Where.
    pub at: &'static str,
    /// The value of this build.
    pub value: f64,
    /// Lowest and highest that is in order.
    pub band: [f64; 2],
    /// Unit.
    pub unit: &'static str,
}

/// Another pair of comparator and reference.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Alternative {
    /// The comparator.
    pub comparator: String,
    /// The reference.
    pub reference: String,
    /// Its falling threshold with every tolerance at its worst, and as designed, in V.
    pub falling: [f64; 3],
    /// Drawn with the lamp dark, in A.
    pub dark: f64,
    /// Resistors of the divider, in the order above, below, in Ω.
    pub divider: Vec<f64>,
    /// Parts to be bought.
    pub to_buy: u32,
}

/// What disconnects the load of a battery that has run low.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CutOff {
    /// What switches.
    pub switch: String,
    /// Whether it is a relay.
    pub relay: bool,
    /// It disconnects when the voltage falls below, in V.
    pub falling: Threshold,
    /// Voltage at which it would come back by itself, in V: above what the
    /// battery ever has, so that it stays off until it is started anew.
    pub rising: f64,
    /// Lost in the switch at the mean current, in V.
    pub loss: f64,
    /// Drawn by its circuit and coil while the load is joined, in A.
    pub dark: f64,
    /// Its parts.
    pub parts: Vec<Part>,
    /// What is joined to what.
    pub nets: Vec<Net>,
}
