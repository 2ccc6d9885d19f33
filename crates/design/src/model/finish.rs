//! What goes on the wood at last.

use crate::{Choice, Common, Place, Value, Wall};

/// A finish on the shelf; its price is that of one can.
#[derive(Clone, Debug, PartialEq)]
pub struct FinishPart {
    /// What every part has; price, number and weight are those of a can.
    pub common: Common,
    /// What it is.
    pub kind: Choice<FinishKind>,
    /// What it is thinned and cleaned with.
    pub base: Choice<FinishBase>,
    /// Area one litre covers once, in m²/m³ (that is, 1/m).
    pub coverage: Value,
    /// Volume of a can in m³.
    pub can: Value,
    /// How many coats are usual.
    pub coats: u32,
    /// Time until dust no longer sticks, in s.
    pub touch_dry: Value,
    /// Time until the next coat, in s.
    pub recoat: Value,
    /// Time until it bears use and gives off no more, in s.
    pub cure: Value,
    /// Grit for sanding between coats; `None` where it is not sanded.
    pub sand: Option<u32>,
    /// Whether it is sprayed from the can.
    pub sprayed: Choice<bool>,
    /// Whether it dries by taking up oxygen: rags soaked with it can take fire by themselves.
    pub self_heating: Choice<bool>,
}

/// Kinds of finishes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FinishKind {
    /// Oil that soaks in.
    Oil,
    /// Oil with hard wax.
    HardWaxOil,
    /// Wax over something else.
    Wax,
    /// Shellac.
    Shellac,
    /// Clear lacquer.
    Lacquer,
    /// Colour that soaks in.
    Stain,
    /// A ground for paint.
    Primer,
    /// Paint.
    Paint,
}

/// What a finish is thinned and cleaned with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FinishBase {
    /// Water.
    Water,
    /// Drying oil.
    Oil,
    /// Organic solvent.
    Solvent,
    /// Alcohol.
    Alcohol,
}

/// One layer of the finish, in the order they go on.
#[derive(Clone, Debug, PartialEq)]
pub struct FinishUse {
    /// The shelf part, whole.
    pub part: FinishPart,
    /// Where the part's name is written.
    pub place: Place,
    /// How many coats; what is usual otherwise.
    pub coats: Option<u32>,
    /// The outer faces it goes on; all where nothing is said.
    pub on: Vec<Wall>,
}

/// What a sheet's face is of, as far as a finish minds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Species {
    /// Ash.
    Ash,
    /// Beech.
    Beech,
    /// Birch.
    Birch,
    /// Cherry.
    Cherry,
    /// Maple.
    Maple,
    /// Oak.
    Oak,
    /// Gaboon, a light tropical veneer.
    Gaboon,
    /// Pine.
    Pine,
    /// Poplar.
    Poplar,
    /// Spruce.
    Spruce,
    /// Walnut.
    Walnut,
    /// Boards of fibres.
    Fibreboard,
    /// Boards of chips.
    Chipboard,
}
