//! The shelf, and what every part of it has.

use crate::{
    AmplifierPart, BatteryPart, CapacitorPart, Choice, ComparatorPart, ControlPart, DriverPart,
    FinishPart, FusePart, LedPart, ModulePart, Offcut, RadiatorPart, ReferencePart, ResistorPart,
    Species, SwitchingPart, Text, Value, WirePart, ZenerPart,
};

/// Every part known. Order is that of reading: built-in first, the maker's own after.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shelf {
    /// Drivers.
    pub drivers: Vec<DriverPart>,
    /// Passive radiators.
    pub radiators: Vec<RadiatorPart>,
    /// Amplifier boards.
    pub amplifiers: Vec<AmplifierPart>,
    /// Batteries.
    pub batteries: Vec<BatteryPart>,
    /// Sheet goods.
    pub sheets: Vec<SheetPart>,
    /// Parts for control panels.
    pub controls: Vec<ControlPart>,
    /// Fuses.
    pub fuses: Vec<FusePart>,
    /// Electrical parts that stand inside the box.
    pub modules: Vec<ModulePart>,
    /// Wires.
    pub wires: Vec<WirePart>,
    /// Drawers of resistors.
    pub resistors: Vec<ResistorPart>,
    /// Drawers of capacitors.
    pub capacitors: Vec<CapacitorPart>,
    /// Zener diodes.
    pub zeners: Vec<ZenerPart>,
    /// Shunt references.
    pub references: Vec<ReferencePart>,
    /// Comparators.
    pub comparators: Vec<ComparatorPart>,
    /// Light-emitting diodes.
    pub leds: Vec<LedPart>,
    /// Relays and field-effect transistors.
    pub switching: Vec<SwitchingPart>,
    /// Finishes.
    pub finishes: Vec<FinishPart>,
    /// Pieces of sheet that lie in the drawer.
    pub offcuts: Vec<Offcut>,
}

/// What every shelf part has.
#[derive(Clone, Debug, PartialEq)]
pub struct Common {
    /// Its name on the shelf.
    pub name: Text,
    /// One line about it.
    pub about: Option<String>,
    /// Whether its data are the project's own invention ("generic").
    pub generic: bool,
    /// Price of one.
    pub price: Option<Money>,
    /// How many lie in the drawer.
    pub on_hand: u32,
    /// Weight of one in kg.
    pub weight: Option<Value>,
}

/// A price.
#[derive(Clone, Debug, PartialEq)]
pub struct Money {
    /// The amount, in `currency`.
    pub amount: Value,
    /// Three-letter code.
    pub currency: String,
}

/// A sheet good on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetPart {
    /// What every part has; price and weight are those of a whole sheet.
    pub common: Common,
    /// Real thickness in m.
    pub thickness: Value,
    /// Density in kg/m³.
    pub density: Value,
    /// Bending modulus along the face grain in Pa.
    pub modulus: Option<Value>,
    /// Bending modulus across it in Pa.
    pub modulus_across: Option<Value>,
    /// What its faces are of.
    pub species: Option<Choice<Species>>,
    /// Whether it is of metal, which blocks radio links and carries current.
    pub metal: Choice<bool>,
    /// Length of a sheet in m.
    pub length: Value,
    /// Width of a sheet in m.
    pub width: Value,
}
