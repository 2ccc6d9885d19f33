//! What is needed, what lies in the drawer, and what the till says.

use crate::finding::Severity;
use design::Place;

/// What a box takes and costs, nominal.
#[derive(Clone, Debug, PartialEq)]
pub struct Shopping {
    /// The brief's currency; every amount is in it.
    pub currency: String,
    /// What the brief allows the till to say.
    pub brief: Option<f64>,
    /// Each thing on a line of its own, kind by kind in the order of the design.
    pub lines: Vec<Line>,
    /// What is needed too but stands on no shelf: it is in no sum.
    pub extras: Vec<Extra>,
    /// How the sheets come out of the saw.
    pub sheets: Vec<SheetBill>,
    /// What other parts of the shelf would change, where that was tried.
    pub swaps: Vec<Swap>,
}

/// What kind of thing a line is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Drivers and passive radiators.
    Sound,
    /// Amplifier and battery.
    Power,
    /// Sheet goods.
    Wood,
    /// Parts in the control panel.
    Control,
    /// Modules and fuses.
    Electric,
    /// Parts of the low-battery indicator.
    Indicator,
    /// Wires.
    Wire,
    /// What goes on the wood.
    Finish,
    /// What else is in the box.
    Other,
}

/// How something is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Pieces, and what is sold by the piece: cans, sheets.
    Piece,
    /// Metres.
    Metre,
}

/// One thing: how much is needed, is there, and has to be bought.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it is on the shelf.
    pub label: String,
    /// What kind of thing it is.
    pub kind: Kind,
    /// What it is counted in.
    pub unit: Unit,
    /// What it is for, or how it is counted, in words; may be empty.
    pub about: String,
    /// How much ends up in the box: parts of a sheet or of a can too.
    pub uses: f64,
    /// How much has to be there: whole sheets, whole cans.
    pub needed: f64,
    /// How much of that lies in the drawer.
    pub on_hand: f64,
    /// How much has to be bought, in amounts that are sold.
    pub to_buy: f64,
    /// Price of one in the brief's currency, where one is known.
    pub price: Option<f64>,
    /// Where the design names it.
    pub place: Option<Place>,
    /// Parts on the shelf that would do as well.
    pub instead: Vec<Alternative>,
}

/// A part that would do in place of another.
#[derive(Clone, Debug, PartialEq)]
pub struct Alternative {
    /// Its name on the shelf.
    pub label: String,
    /// How much of it lies in the drawer.
    pub on_hand: f64,
    /// What the till would say for as much as is needed; `None` without a price.
    pub till: Option<f64>,
}

/// Something needed that stands on no shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct Extra {
    /// What.
    pub label: String,
    /// How much.
    pub amount: f64,
    /// Unit of it; empty for pieces.
    pub unit: &'static str,
    /// What it is for.
    pub about: String,
    /// Whether it is a part of its own that the till will ask for; glue, screws and the like
    /// are not.
    pub part: bool,
}

/// What one kind of sheet is made into.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetBill {
    /// Its name on the shelf.
    pub label: String,
    /// Area of the pieces cut from it in m².
    pub pieces: f64,
    /// Area cut into, whole sheets and offcuts, in m².
    pub cut: f64,
    /// Area kept as offcuts in m².
    pub kept: f64,
    /// Worth of a square metre in the brief's currency, where a price is known.
    pub per_area: Option<f64>,
    /// Offcuts on hand that are cut into.
    pub offcuts: usize,
    /// Pieces that fit on no sheet and are in no sum.
    pub left_over: usize,
}

/// What a change of one part would do to every promise.
#[derive(Clone, Debug, PartialEq)]
pub struct Swap {
    /// The line that it would change.
    pub line: String,
    /// The part that would come instead.
    pub part: String,
    /// The change in words: "battery A → B".
    pub words: String,
    /// What was found out.
    pub outcome: Result<Changed, String>,
}

/// What a swap changes.
#[derive(Clone, Debug, PartialEq)]
pub struct Changed {
    /// Name and change of each promise, in its order and unit; NaN where there is none.
    pub promises: Vec<(&'static str, f64)>,
    /// What the till says for the part that comes instead; `None` without a price.
    pub till: Option<f64>,
    /// Parts that would have to be bought without a known price: the change of money leaves
    /// them out.
    pub unpriced: Vec<String>,
    /// What it brings that was in order before, worst first.
    pub brings: Vec<(Severity, String)>,
    /// What was wrong before and is in order with it, worst first.
    pub clears: Vec<(Severity, String)>,
}

impl Changed {
    /// Change of what the till says, in the brief's currency.
    #[must_use]
    pub fn cost(&self) -> f64 {
        let cost = self.promises.iter().find(|(id, _)| *id == "cost");
        cost.map_or(0.0, |(_, by)| *by)
    }

    /// Whether the box can still be built: the swap brings no stop.
    #[must_use]
    pub fn can_be_built(&self) -> bool {
        let mut brings = self.brings.iter();
        brings.all(|(severity, _)| *severity != Severity::Stop)
    }
}

impl Line {
    /// What the till says; `None` where there is something to buy without a price.
    #[must_use]
    pub fn till(&self) -> Option<f64> {
        if self.to_buy == 0.0 {
            return Some(0.0);
        }
        self.price.map(|price| price * self.to_buy)
    }

    /// Worth of what ends up in the box, bought or not; `None` without a price.
    #[must_use]
    pub fn worth(&self) -> Option<f64> {
        self.price.map(|price| price * self.uses)
    }

    /// Worth of what lies in the drawer for it; `None` without a price.
    #[must_use]
    pub fn in_drawer(&self) -> Option<f64> {
        self.price.map(|price| price * self.on_hand)
    }
}

impl SheetBill {
    /// Area in m² lost to the saw and to pieces too small to keep.
    #[must_use]
    pub fn waste(&self) -> f64 {
        (self.cut - self.pieces - self.kept).max(0.0)
    }

    /// Worth of that waste, where a price is known.
    #[must_use]
    pub fn waste_worth(&self) -> Option<f64> {
        self.per_area.map(|price| price * self.waste())
    }

    /// Worth of the offcuts that are kept, where a price is known.
    #[must_use]
    pub fn kept_worth(&self) -> Option<f64> {
        self.per_area.map(|price| price * self.kept)
    }
}

impl Shopping {
    /// What the till says for everything with a price.
    #[must_use]
    pub fn till(&self) -> f64 {
        self.lines.iter().filter_map(Line::till).sum()
    }

    /// Worth of what ends up in the box, of everything with a price.
    #[must_use]
    pub fn worth(&self) -> f64 {
        self.lines.iter().filter_map(Line::worth).sum()
    }

    /// Worth of what the drawer gives, of everything with a price.
    #[must_use]
    pub fn in_drawer(&self) -> f64 {
        self.lines.iter().filter_map(Line::in_drawer).sum()
    }

    /// Whether there is something to buy, and no price of it is known: the till's sum then says
    /// nothing.
    #[must_use]
    pub fn nothing_priced(&self) -> bool {
        nothing_priced(&self.lines)
    }

    /// Names of all that has to be bought at an unknown price, parts that stand on no shelf
    /// included.
    pub fn without_price(&self) -> impl Iterator<Item = &str> {
        let strangers = self.extras.iter().filter(|extra| extra.part);
        let lines = self.unpriced().map(|line| line.label.as_str());
        lines.chain(strangers.map(|extra| extra.label.as_str()))
    }

    /// Lines that have to be bought at an unknown price.
    pub fn unpriced(&self) -> impl Iterator<Item = &Line> {
        self.lines.iter().filter(|line| line.till().is_none())
    }
}

/// Whether some lines have to be bought and none of those has a price.
pub(crate) fn nothing_priced(lines: &[Line]) -> bool {
    let mut bought = lines.iter().filter(|line| line.to_buy > 0.0).peekable();
    bought.peek().is_some() && bought.all(|line| line.price.is_none())
}

impl Kind {
    /// As a heading.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Sound => "Drivers",
            Self::Power => "Amplifier and battery",
            Self::Wood => "Sheets",
            Self::Control => "Control panel",
            Self::Electric => "Electrical parts inside",
            Self::Indicator => "Low-battery indicator",
            Self::Wire => "Wire",
            Self::Finish => "Finish",
            Self::Other => "Other things",
        }
    }
}
