//! What a design and a shelf say, after reading: names resolved, units gone,
//! places kept.

use crate::{Place, Value};

/// Text with the place where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// The text itself.
    pub text: String,
    /// Where it is written.
    pub place: Place,
}

/// A word chosen from a fixed list, with its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Choice<T> {
    /// What was chosen.
    pub value: T,
    /// Where it is written; `None` when the default was taken.
    pub place: Option<Place>,
}

/// A design and the shelf it was read with.
#[derive(Clone, Debug, PartialEq)]
pub struct Project {
    /// What the maker wants and has.
    pub design: Design,
    /// Every part known, built-in and the maker's own.
    pub shelf: Shelf,
}

/// What the maker wants and has.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    /// Name of the design.
    pub name: Text,
    /// Revision for the title block.
    pub revision: Option<u32>,
    /// What the box must do.
    pub brief: Brief,
    /// Where it stands when played.
    pub place: PlayPlace,
    /// Groups of equal drivers.
    pub drivers: Vec<DriverUse>,
    /// The amplifier board.
    pub amplifier: AmplifierUse,
    /// What feeds the amplifier its signal.
    pub source: SourceUse,
    /// The battery.
    pub battery: BatteryUse,
    /// The box.
    pub enclosure: Enclosure,
    /// Other things that take up air.
    pub inside: Vec<Thing>,
}

/// What the box must do. A wish that is absent is not held against the design.
#[derive(Clone, Debug, PartialEq)]
pub struct Brief {
    /// Kind of programme.
    pub programme: Choice<Programme>,
    /// Distance of the listeners in m.
    pub distance: Value,
    /// Long-term level wanted there, in dB re 20 µPa.
    pub loudness: Option<Loudness>,
    /// Lowest frequency wanted at −6 dB, in Hz.
    pub lowest: Option<Value>,
    /// Hours of playing wanted, in s.
    pub runtime: Option<Value>,
    /// Largest outside size, width × height × depth, in m.
    pub largest: Option<Size>,
    /// Greatest weight, in kg.
    pub weight: Option<Value>,
    /// Greatest cost, in the currency of [`Brief::currency`].
    pub cost: Option<Value>,
    /// The currency costs are counted in, as a three-letter code ("EUR").
    pub currency: String,
}

/// A wanted level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loudness {
    /// The level in dB.
    pub level: Value,
    /// Whether it is A-weighted ("88 dB(A)") or not ("88 dB").
    pub a_weighted: bool,
}

/// Kind of programme played.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Programme {
    /// Music as recorded.
    Music,
    /// Speech.
    Speech,
    /// Music squeezed by a limiter.
    SquashedMusic,
}

/// Where the box stands when played, and in which air.
#[derive(Clone, Debug, PartialEq)]
pub struct PlayPlace {
    /// What is near it.
    pub stands: Choice<Stands>,
    /// Air temperature in °C (20 unless stated).
    pub temperature: Option<Value>,
    /// Relative humidity, 0 to 1.
    pub humidity: Option<Value>,
    /// Height above sea level in m.
    pub altitude: Option<Value>,
    /// Volume of the room in m³ (indoors).
    pub room: Option<Value>,
    /// Reverberation time of the room in s (indoors).
    pub reverberation: Option<Value>,
    /// Height of the listeners' ears above the ground in m.
    pub ears: Option<Value>,
}

/// What is near the box when it plays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    /// Nothing near: a post, a rope.
    Free,
    /// On the ground out of doors.
    Ground,
    /// On the ground with its back against a wall, out of doors.
    Wall,
    /// In a room.
    Indoors,
}

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
}

/// What feeds the amplifier its signal.
#[derive(Clone, Debug, PartialEq)]
pub struct SourceUse {
    /// Highest sine level of the source in V rms.
    pub level: Option<Value>,
    /// Loss of the volume control and input network fully up, in dB (positive number).
    pub loss: Option<Value>,
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
    /// Whether it is charged inside the closed box.
    pub charged_inside: Choice<bool>,
    /// Whether the box gives it a bay of its own that is open to the outside.
    pub vented_bay: Choice<bool>,
}

/// The box.
#[derive(Clone, Debug, PartialEq)]
pub struct Enclosure {
    /// Size, outside or inside.
    pub size: EnclosureSize,
    /// The sheet its walls are cut from.
    pub wall: SheetPart,
    /// Where the sheet's name is written.
    pub wall_place: Place,
    /// Thickness measured by the maker in m; the sheet's own otherwise.
    pub thickness: Option<Value>,
    /// Sealed, vented, or with a passive radiator.
    pub kind: EnclosureKind,
    /// Where the kind is written.
    pub kind_place: Place,
    /// Share of the free space that is filled with fibre, 0 to 1.
    pub filling: Option<Value>,
    /// How tight it is.
    pub leak: Choice<Leak>,
    /// One chamber for all or one per side.
    pub chambers: Choice<Chambers>,
}

/// Size of the box, as width × height × depth in m.
#[derive(Clone, Debug, PartialEq)]
pub enum EnclosureSize {
    /// Over the walls.
    Outside(Size),
    /// Between the walls.
    Inside(Size),
}

/// Width × height × depth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Size {
    /// Width in m.
    pub width: Value,
    /// Height in m.
    pub height: Value,
    /// Depth in m.
    pub depth: Value,
    /// Where the whole is written.
    pub place: Place,
}

/// What the box does with the back of the cone.
#[derive(Clone, Debug, PartialEq)]
#[expect(
    clippy::large_enum_variant,
    reason = "there is one of it in a design; a box would only be in the reader's way"
)]
pub enum EnclosureKind {
    /// Closed.
    Sealed,
    /// With vents, in the whole box.
    Vented(VentUse),
    /// With passive radiators.
    PassiveRadiator(RadiatorUse),
}

/// The vents of the box.
#[derive(Clone, Debug, PartialEq)]
pub struct VentUse {
    /// Inner diameter of one in m.
    pub diameter: Value,
    /// Length of one in m.
    pub length: Value,
    /// How many in the whole box.
    pub count: u32,
    /// Whether its ends are flared.
    pub flared: Choice<bool>,
    /// Where the table stands.
    pub place: Place,
}

/// The passive radiators of the box.
#[derive(Clone, Debug, PartialEq)]
pub struct RadiatorUse {
    /// The shelf part, whole.
    pub part: RadiatorPart,
    /// Where the part's name is written.
    pub place: Place,
    /// How many in the whole box.
    pub count: u32,
    /// Mass added to each in kg.
    pub added_mass: Option<Value>,
}

/// How tight the box is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leak {
    /// Every hole sealed and tested.
    Tight,
    /// As careful makers build.
    Usual,
    /// Unsealed jack, shafts and switch.
    Leaky,
}

/// Chambers of the box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chambers {
    /// One for all drivers.
    Shared,
    /// One for each side.
    OnePerSide,
}

/// Something that takes up air or adds weight.
#[derive(Clone, Debug, PartialEq)]
pub struct Thing {
    /// What it is.
    pub name: Text,
    /// Its shape.
    pub shape: Shape,
    /// How many.
    pub count: u32,
    /// Weight of one in kg.
    pub weight: Option<Value>,
    /// Cost of one.
    pub price: Option<Money>,
}

/// A shape that takes up air.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A block.
    Block(Size),
    /// A cylinder.
    Cylinder {
        /// Diameter in m.
        diameter: Value,
        /// Length in m.
        length: Value,
    },
    /// So much air, in m³.
    Volume(Value),
}

/// A price.
#[derive(Clone, Debug, PartialEq)]
pub struct Money {
    /// The amount, in `currency`.
    pub amount: Value,
    /// Three-letter code.
    pub currency: String,
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
    /// Depth behind the panel in m.
    pub depth: Option<Value>,
}

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
    /// Supply current with no signal, in A.
    pub idle_current: Value,
    /// Loss that grows with output current, in V: watts per ampere of mean output current.
    pub switching_loss: Option<Value>,
    /// Output filter: inductance per leg in H.
    pub filter_inductance: Option<Value>,
    /// Output filter: capacitance per leg to ground in F.
    pub filter_capacitance: Option<Value>,
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
    /// Length of a sheet in m.
    pub length: Value,
    /// Width of a sheet in m.
    pub width: Value,
}

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
}
