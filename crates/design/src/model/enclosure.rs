//! The box and what is in it.

use crate::{
    Carpentry, Choice, Money, Mounting, Place, Placement, RadiatorPart, SheetPart, Text, Value,
};

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
    /// How its walls become a box.
    pub carpentry: Carpentry,
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
    /// Where their openings sit.
    pub mounting: Mounting,
    /// Length in m, along the middle line, of the leg before one right-angled
    /// bend; straight otherwise.
    pub bent: Option<Value>,
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
    /// Where their openings sit.
    pub mounting: Mounting,
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
    /// Where it stands in the box.
    pub placement: Placement,
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
