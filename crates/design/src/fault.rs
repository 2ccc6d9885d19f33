//! What can be wrong with a design or a shelf, as data.

use crate::quantity::{Dimension, TroubleKind};

/// What a text value was wanted to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Wanted {
    /// A physical value.
    Quantity(Dimension),
    /// Several lengths.
    Lengths(Lengths),
    /// A price.
    Money,
}

/// What several lengths in a row are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Lengths {
    /// Width, height, depth.
    Block,
    /// Diameter, length.
    Cylinder,
    /// Width, height.
    Face,
    /// Across and up, of a stick or a strip.
    Section,
    /// A place on a wall or a panel.
    Position,
    /// A place inside the box.
    Corner,
}

impl Lengths {
    /// How many they are.
    pub(crate) fn count(self) -> usize {
        match self {
            Self::Block | Self::Corner => 3,
            Self::Cylinder | Self::Face | Self::Section | Self::Position => 2,
        }
    }
}

/// One fault.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Fault {
    /// Of the text as TOML.
    Text(TextFault),
    /// Of a value.
    Value(ValueFault),
    /// Of a part.
    Part(PartFault),
    /// Of the design as a whole.
    Design(DesignFault),
    /// Of the box as wood.
    Wood(WoodFault),
    /// Of wires, fuses and drawers.
    Electric(ElectricFault),
}

macro_rules! from {
    ($($kind:ident => $variant:ident),*) => {
        $(impl From<$kind> for Fault {
            fn from(fault: $kind) -> Self {
                Self::$variant(fault)
            }
        })*
    };
}

from!(TextFault => Text, ValueFault => Value, PartFault => Part, DesignFault => Design, WoodFault => Wood, ElectricFault => Electric);

/// Why a line is not TOML.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SyntaxReason {
    /// Nothing behind the `=`.
    ValueMissing,
    /// No `=`.
    EqualsMissing,
    /// Nothing before the `=` or between brackets.
    NameMissing,
    /// A bracket or brace is not closed.
    BracketOpen,
    /// A quote is not closed.
    QuoteOpen,
    /// More behind the value.
    LeftOver,
    /// A number that is no number.
    Number,
    /// A comma too many or too few.
    Comma,
    /// A key below something that is a value.
    NotATable,
    /// Tables in tables in tables.
    TooDeep,
    /// Anything else.
    Other,
}

/// What is wrong with a text as TOML: lines, keys, tables, types.
///
/// `table` is a table's header as written in a file, such as `[brief]`; `key` a
/// key's name.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum TextFault {
    /// The text is not TOML.
    Syntax { reason: SyntaxReason },
    /// A value that needs quotes has none.
    QuotesMissing { line: String },
    /// A key or table stands twice.
    KeyTwice { key: String, is_table: bool },
    /// There is no `format` line.
    FormatMissing,
    /// A format this program does not know.
    FormatUnknown { found: String },
    /// A format of a later program.
    FormatNewer { found: i64 },
    /// A key nobody asks for.
    KeyUnknown {
        key: String,
        table: String,
        nearest: Option<String>,
        known: Vec<&'static str>,
    },
    /// A table nobody asks for.
    TableUnknown {
        key: String,
        nearest: Option<String>,
        known: Vec<&'static str>,
    },
    /// A key that must be there.
    KeyMissing {
        key: &'static str,
        table: String,
        example: String,
    },
    /// A table that must be there.
    TableMissing { header: String, example: String },
    /// A value of the wrong TOML type.
    TypeWrong {
        key: String,
        wanted: &'static str,
        found: &'static str,
        example: String,
    },
    /// A whole number outside what is possible.
    CountRange {
        key: String,
        found: i64,
        least: u32,
        most: u32,
    },
    /// A word that is not on the list.
    ChoiceUnknown {
        key: String,
        word: String,
        nearest: Option<&'static str>,
        words: Vec<&'static str>,
    },
    /// A name with nothing in it.
    NameEmpty { key: String },
}

/// What is wrong with a value and its unit.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum ValueFault {
    /// A TOML number where number and unit are wanted.
    PlainNumber {
        key: String,
        number: String,
        wanted: Wanted,
    },
    /// The text of a value cannot be read.
    Unreadable {
        key: String,
        trouble: TroubleKind,
        wanted: Wanted,
    },
    /// A value outside what is possible.
    Range {
        key: String,
        found: String,
        allowed: String,
    },
}

/// What is wrong with a part, or with naming one.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum PartFault {
    /// Two entries of one name.
    NameTwice { noun: &'static str, name: String },
    /// No such part.
    Unknown {
        noun: &'static str,
        name: String,
        nearest: Option<String>,
    },
    /// A part of that name, but of another kind.
    WrongKind {
        name: String,
        is: &'static str,
        noun: &'static str,
    },
    /// Too little is said about a driver.
    DriverBare { name: String },
    /// A panel part without a hole to sit in.
    HoleMissing { name: String },
    /// Two keys that only make sense together.
    PairIncomplete {
        there: &'static str,
        absent: &'static str,
    },
    /// Two values in the wrong order.
    OrderWrong {
        lower: &'static str,
        upper: &'static str,
    },
}

/// How a design contradicts itself.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum DesignFault {
    /// Outside and inside size both.
    BoxSizeTwice,
    /// Neither outside nor inside size.
    BoxSizeMissing,
    /// Walls leave no room.
    BoxNoRoom { side: &'static str },
    /// A kind of box without its table.
    KindTableMissing {
        kind: &'static str,
        table: &'static str,
        example: &'static str,
    },
    /// A table that does not belong to this kind of box.
    KindTableUnwanted {
        kind: &'static str,
        table: &'static str,
        fits: &'static str,
    },
    /// A count that cannot be shared between two sides.
    SidesUneven { count: u32 },
    /// Mono and stereo together.
    SidesMixed,
    /// A chamber per side in a mono box.
    ChambersMono,
    /// Drivers on a channel that cannot be wired so.
    WiringUneven {
        wiring: &'static str,
        per_channel: u32,
    },
    /// Two sides on a board of one channel.
    AmplifierChannels { name: String },
    /// A thing without a shape.
    ShapeMissing {
        keys: &'static str,
        example: &'static str,
    },
    /// A thing with two shapes.
    ShapeTwice {
        first: &'static str,
        second: &'static str,
    },
}

/// How what is said of the box as wood contradicts itself.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum WoodFault {
    /// A key that changes nothing beside the others.
    WithoutUse {
        key: &'static str,
        wants: &'static str,
    },
    /// Rounded and chamfered both.
    EdgeTreatedTwice,
    /// Cut away to the other side.
    DeeperThanWall {
        key: &'static str,
        wall: &'static str,
        thickness: String,
    },
    /// Two walls that have no edge in common.
    WallsApart { walls: [&'static str; 2] },
    /// A wall that is not at this edge.
    NotOfEdge {
        key: &'static str,
        edge: &'static str,
    },
    /// Front and back meet below the top.
    LeansShut,
    /// Not as many places as openings.
    PlacesUneven { count: u32, found: usize },
    /// A place, and the wish to have one found.
    PlacedTwice,
    /// A place for something that has no outline.
    NoOutline { key: &'static str },
    /// A bay drawn up for a battery that has none.
    BayNotVented,
    /// A recess that ends outside the box.
    RecessTooDeep { across: String },
    /// A wall that no sheet of its kind holds.
    SheetTooSmall {
        wall: &'static str,
        least: String,
        sheet: String,
    },
    /// A scale that is none.
    ScaleBad { found: String },
}

/// How what is said of wires, fuses and drawers contradicts itself.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum ElectricFault {
    /// A fuse of one form in a holder for another.
    FuseForm {
        fuse: &'static str,
        takes: &'static str,
    },
    /// A part is to be for something its kind cannot be for.
    RoleWrong {
        does: &'static str,
        noun: &'static str,
        can: Vec<&'static str>,
    },
    /// A drawer without values.
    DrawerEmpty,
    /// A drawer whose values are said both ways.
    DrawerTwice,
    /// A word that stands twice in a list.
    ListedTwice {
        key: &'static str,
        word: &'static str,
    },
    /// A wire that ends where it begins.
    EndsSame,
    /// A terminal without its part.
    TerminalBad { key: &'static str, found: String },
}
