//! Fuses, modules and wires: what carries the current between battery, board and panel.

use crate::{Choice, Common, Place, Placement, Size, Text, Value};

/// A fuse on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct FusePart {
    /// What every part has.
    pub common: Common,
    /// Its form, which its holder must take.
    pub form: Choice<FuseForm>,
    /// Rated current in A.
    pub current: Value,
    /// Highest direct voltage it can break, in V; `None` where none is stated.
    pub dc_voltage: Option<Value>,
    /// Highest current it can break, in A.
    pub breaking_current: Option<Value>,
    /// How fast it opens.
    pub speed: Choice<FuseSpeed>,
}

/// Forms of fuses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FuseForm {
    /// Flat, as in cars.
    Blade,
    /// A tube with caps, 5 × 20 mm.
    Tube,
}

/// How fast a fuse opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FuseSpeed {
    /// Fast.
    Fast,
    /// Slow: it lets the inrush of capacitors pass.
    Slow,
}

/// An electrical part that stands inside the box, on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct ModulePart {
    /// What every part has.
    pub common: Common,
    /// What it is.
    pub kind: Choice<ModuleKind>,
    /// Lowest supply voltage in V.
    pub supply_min: Option<Value>,
    /// Highest supply voltage in V.
    pub supply_max: Option<Value>,
    /// Current it draws for itself in A: of a radio while it plays, of a converter without load.
    pub current: Option<Value>,
    /// Capacitance across its supply in F.
    pub supply_capacitance: Option<Value>,
    /// Output voltage in V.
    pub output_voltage: Option<Value>,
    /// Highest output current in A.
    pub output_current: Option<Value>,
    /// Output power over input power, 0 to 1.
    pub efficiency: Option<Value>,
    /// Whether input and output have no connection, ground included.
    pub isolated: Choice<bool>,
    /// Highest sine level of its signal output in V rms.
    pub output_level: Option<Value>,
    /// Impedance of that output in Ω.
    pub output_impedance: Option<Value>,
    /// Rated direct current of a fuse holder in A.
    pub dc_current: Option<Value>,
    /// Rated direct voltage of a fuse holder in V.
    pub dc_voltage: Option<Value>,
    /// The fuses a holder takes.
    pub takes: Option<Choice<FuseForm>>,
    /// Thermal resistance from its hottest point to the air around it in K/W.
    pub thermal_resistance: Option<Value>,
    /// The temperature that point must not exceed in °C.
    pub hottest: Option<Value>,
    /// Its size; `None` where it is lost among the wires.
    pub size: Option<Size>,
}

/// Kinds of modules.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ModuleKind {
    /// Receives music by radio from a phone.
    Radio,
    /// Makes one direct voltage from another.
    Converter,
    /// Holds a fuse in a wire.
    FuseHolder,
    /// The board of a low-battery indicator.
    Indicator,
}

/// A module in the design.
#[derive(Clone, Debug, PartialEq)]
pub struct ModuleUse {
    /// The shelf part, whole.
    pub part: ModulePart,
    /// Where the part's name is written.
    pub place: Place,
    /// What it is called in the design; its kind otherwise.
    pub name: Option<Text>,
    /// What it is for; from its kind otherwise.
    pub does: Option<Choice<Does>>,
    /// The fuse in it.
    pub fuse: Option<(FusePart, Place)>,
    /// Where it stands in the box.
    pub placement: Placement,
}

/// What an electrical part is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Does {
    /// Switches the box on.
    Power,
    /// Takes the charger's plug.
    Charging,
    /// Chooses between playing and charging.
    ChargeSelector,
    /// Sets the level.
    Volume,
    /// Takes the signal in.
    Input,
    /// Holds the battery's fuse.
    Fuse,
    /// Lights when the battery runs low.
    LowBattery,
    /// Lights while the box is on.
    PowerLight,
    /// Carries the left output to an outside box.
    LeftOutput,
    /// Carries the right output to an outside box.
    RightOutput,
    /// Receives by radio, or switches what does.
    Radio,
    /// Shows the battery's voltage.
    Voltage,
    /// Feeds the radio module.
    RadioSupply,
}

/// A wire on the shelf; its price and weight are those of a metre.
#[derive(Clone, Debug, PartialEq)]
pub struct WirePart {
    /// What every part has; price and weight of a metre.
    pub common: Common,
    /// Copper section in m².
    pub section: Value,
    /// Diameter over the insulation in m.
    pub outer: Option<Value>,
    /// The temperature its insulation stands for long, in °C.
    pub hottest: Option<Value>,
    /// The colours it is there in; empty where any can be had.
    pub colours: Vec<WireColour>,
    /// How much lies in the drawer, in m.
    pub in_drawer: Option<Value>,
}

/// Colours of wires (iec-60757), without the green and yellow of protective earth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WireColour {
    /// Black.
    Black,
    /// Brown.
    Brown,
    /// Red.
    Red,
    /// Orange.
    Orange,
    /// Yellow.
    Yellow,
    /// Green.
    Green,
    /// Blue.
    Blue,
    /// Violet.
    Violet,
    /// Grey.
    Grey,
    /// White.
    White,
    /// Pink.
    Pink,
    /// Turquoise.
    Turquoise,
}
