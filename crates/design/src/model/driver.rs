//! Drivers and passive radiators on the shelf.

use crate::{Choice, Common, Value};

/// A driver on the shelf; any sufficient subset of its data may be known.
#[derive(Clone, Debug, PartialEq)]
pub struct DriverPart {
    /// What every part has.
    pub common: Common,
    /// Kind of driver.
    pub kind: Choice<DriverKind>,
    /// Nominal size in m (the trade's "4 in"), where stated.
    pub size: Option<Value>,
    /// DC resistance R<sub>E</sub> in Ω.
    pub re: Option<Value>,
    /// Rated impedance in Ω.
    pub impedance: Option<Value>,
    /// Plain inductance L<sub>E</sub> in H.
    pub le: Option<Value>,
    /// Lossy inductance: K in Ω·sⁿ.
    pub lossy_k: Option<Value>,
    /// Lossy inductance: exponent n.
    pub lossy_n: Option<Value>,
    /// Resonance f<sub>s</sub> in free air, in Hz.
    pub fs: Option<Value>,
    /// Mechanical Q at f<sub>s</sub>.
    pub qms: Option<Value>,
    /// Electrical Q at f<sub>s</sub>.
    pub qes: Option<Value>,
    /// Total Q at f<sub>s</sub>.
    pub qts: Option<Value>,
    /// Equivalent volume in m³.
    pub vas: Option<Value>,
    /// Effective area in m².
    pub sd: Option<Value>,
    /// Effective diameter in m.
    pub diameter: Option<Value>,
    /// Force factor in T·m.
    pub bl: Option<Value>,
    /// Moving mass with air load in kg.
    pub mms: Option<Value>,
    /// Suspension compliance in m/N.
    pub cms: Option<Value>,
    /// Linear travel one way, peak, in m.
    pub xmax: Option<Value>,
    /// Rated long-term power in W.
    pub power: Option<Value>,
    /// Level at 1 m for 2.83 V rms into half space, in dB.
    pub sensitivity: Option<Value>,
    /// Outside diameter of the frame in m.
    pub frame: Option<Value>,
    /// Diameter of the cut-out in m.
    pub cutout: Option<Value>,
    /// Depth behind the panel in m.
    pub depth: Option<Value>,
    /// Diameter of the magnet in m.
    pub magnet: Option<Value>,
    /// Air displaced by the whole driver in m³.
    pub displacement: Option<Value>,
    /// How many screws hold it.
    pub screws: Option<u32>,
    /// Diameter of the circle its screws are on, in m.
    pub screw_circle: Option<Value>,
    /// Diameter of its screws in m.
    pub screw: Option<Value>,
    /// Thickness of its frame at the panel in m.
    pub frame_thickness: Option<Value>,
    /// Whether its magnet has a vent, which needs free air behind it.
    pub vented_magnet: Choice<bool>,
}

/// Kind of driver.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DriverKind {
    /// Covers the whole range by itself.
    FullRange,
    /// Bass and middle only.
    Woofer,
    /// A car type with a tweeter in its middle.
    Coaxial,
    /// Bass only, with a long travel.
    Subwoofer,
}

/// A passive radiator on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct RadiatorPart {
    /// What every part has.
    pub common: Common,
    /// Nominal size in m.
    pub size: Option<Value>,
    /// Effective area in m².
    pub area: Value,
    /// Moving mass with air load in kg.
    pub mass: Value,
    /// Resonance in free air in Hz.
    pub fs: Value,
    /// Mechanical Q at that resonance.
    pub qms: Value,
    /// Travel one way, peak, in m.
    pub xmax: Value,
    /// Outside diameter of the frame in m.
    pub frame: Option<Value>,
    /// Diameter of the cut-out in m.
    pub cutout: Option<Value>,
    /// Depth behind the panel in m.
    pub depth: Option<Value>,
}
