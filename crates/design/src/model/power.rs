//! Amplifier boards and batteries on the shelf.

use crate::{Choice, Common, Size, Value};

/// An amplifier board on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct AmplifierPart {
    /// What every part has.
    pub common: Common,
    /// Switching or linear output stage.
    pub stage: Choice<Stage>,
    /// Number of channels.
    pub channels: u32,
    /// Whether each output is a bridge.
    pub bridged: bool,
    /// Resistance in the output path, both legs, in Ω.
    pub on_resistance: Value,
    /// Volts lost at each rail beside the resistance, in V.
    pub rail_loss: Option<Value>,
    /// Peak output current at which it limits, in A.
    pub current_limit: Value,
    /// Least load the maker of the board allows, in Ω.
    pub minimum_load: Value,
    /// Absolute lowest supply in V.
    pub supply_min: Value,
    /// Absolute highest supply in V.
    pub supply_max: Value,
    /// Recommended highest supply in V, where stated.
    pub supply_recommended: Option<Value>,
    /// Voltage gain as a ratio.
    pub gain: Value,
    /// Input impedance in Ω.
    pub input_impedance: Value,
    /// Capacitor in series with its input in F, where known.
    pub input_capacitance: Option<Value>,
    /// Supply current with no signal, in A.
    pub idle_current: Value,
    /// Loss that grows with output current, in V: watts per ampere of mean output current.
    pub switching_loss: Option<Value>,
    /// Output filter: inductance per leg in H.
    pub filter_inductance: Option<Value>,
    /// Output filter: capacitance per leg to ground in F.
    pub filter_capacitance: Option<Value>,
    /// Capacitance across its supply in F.
    pub supply_capacitance: Option<Value>,
    /// Thermal resistance from its hottest point to the air around it in K/W.
    pub thermal_resistance: Option<Value>,
    /// The temperature that point must not exceed in °C.
    pub hottest: Option<Value>,
    /// Size of the board in m.
    pub size: Option<Size>,
}

/// Kind of output stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Class D.
    Switching,
    /// Class AB.
    Linear,
}

/// A battery on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct BatteryPart {
    /// What every part has.
    pub common: Common,
    /// Chemistry.
    pub chemistry: Choice<Chemistry>,
    /// Cells in series.
    pub cells: u32,
    /// Rated capacity in C (ampere-seconds).
    pub capacity: Value,
    /// Hours of discharge at which that capacity is rated, in s.
    pub rated_time: Option<Value>,
    /// Peukert exponent (lead-acid).
    pub peukert: Option<Value>,
    /// Internal resistance of the whole battery, protection included, in Ω.
    pub resistance: Value,
    /// Voltage at which discharge must end, whole battery, in V.
    pub end_voltage: Option<Value>,
    /// Highest charging voltage, whole battery, in V.
    pub charge_voltage: Option<Value>,
    /// Peak current the protection board passes, in A.
    pub protection_current: Option<Value>,
    /// Whether the protection board stays off after a fault until the load is taken off
    /// or the charger is joined.
    pub protection_latches: Choice<bool>,
    /// Highest temperature at which it may be discharged, in °C.
    pub hottest: Option<Value>,
    /// Size of the battery in m.
    pub size: Option<Size>,
}

/// Battery chemistry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chemistry {
    /// Sealed lead-acid.
    LeadAcid,
    /// Lithium iron phosphate.
    IronPhosphate,
    /// Lithium-ion with a nickel or cobalt cathode.
    LithiumIon,
    /// Nickel–metal hydride.
    NickelMetalHydride,
}
