//! What can be wrong with a design or a shelf, as data.

use crate::quantity::{Dimension, TroubleKind};

/// What a text value was wanted to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Wanted {
    /// A physical value.
    Quantity(Dimension),
    /// So many lengths.
    Size(usize),
    /// A price.
    Money,
}

/// One fault. `table` is a table's header as written in a file, such as
/// `[brief]`; `key` a key's name.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Fault {
    /// The text is not TOML.
    Syntax { reason: String },
    /// A value that needs quotes has none.
    QuotesMissing { line: String },
    /// A key or table stands twice.
    KeyTwice { key: String },
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
    ValueRange {
        key: String,
        found: String,
        allowed: String,
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
    /// Two entries of one name.
    NameTwice { noun: &'static str, name: String },
    /// No such part.
    PartUnknown {
        noun: &'static str,
        name: String,
        nearest: Option<String>,
    },
    /// A part of that name, but of another kind.
    PartWrongKind {
        name: String,
        is: &'static str,
        noun: &'static str,
    },
    /// Too little is said about a driver.
    DriverBare { name: String },
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
    ShapeMissing,
    /// A thing with two shapes.
    ShapeTwice {
        first: &'static str,
        second: &'static str,
    },
}
