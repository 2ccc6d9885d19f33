//! What is needed, what lies in the drawer, and what the till says.

use design::Place;

/// What a box takes and costs, nominal.
#[derive(Clone, Debug, PartialEq)]
pub struct Shopping {
    /// The brief's currency; every amount is in it.
    pub currency: String,
    /// Each thing on a line of its own, in the order of the design.
    pub lines: Vec<Line>,
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
    /// Pieces, cans, whole sheets.
    Piece,
    /// Metres.
    Metre,
}

/// One thing: how much is needed, there, and to be bought.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it is on the shelf.
    pub label: String,
    /// What kind of thing it is.
    pub kind: Kind,
    /// What it is counted in.
    pub unit: Unit,
    /// What it is for, in words.
    pub about: String,
    /// How much the box takes: parts of a sheet or of a can too.
    pub uses: f64,
    /// How much has to be there: whole sheets, whole cans.
    pub needed: f64,
    /// How much of that lies in the drawer.
    pub on_hand: f64,
    /// How much has to be bought.
    pub to_buy: f64,
    /// Price of one, in the brief's currency, where one is known.
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
    /// How many lie in the drawer.
    pub on_hand: f64,
    /// What the till would say for as many as are needed; `None` without a price.
    pub till: Option<f64>,
}

/// What one kind of sheet costs, and what becomes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetBill {
    /// Its name on the shelf.
    pub label: String,
    /// Area of the panels in m².
    pub panels: f64,
    /// Area cut into, whole sheets and offcuts, in m².
    pub cut: f64,
    /// Area kept as offcuts in m².
    pub kept: f64,
    /// Area lost to the saw and to pieces too small to keep, in m².
    pub waste: f64,
    /// Worth of that waste at the price of the sheet, where one is known.
    pub waste_worth: Option<f64>,
    /// Offcuts on hand that are cut into.
    pub offcuts: usize,
}

/// What a change of one part would do to every promise.
#[derive(Clone, Debug, PartialEq)]
pub struct Swap {
    /// The change in words: "battery A → B".
    pub words: String,
    /// Change of each promise, in its order and unit; `None` where it cannot be studied.
    pub changes: Option<Vec<f64>>,
    /// Titles of the stops it brings, one of each check.
    pub brings: Vec<&'static str>,
    /// Titles of the stops it clears.
    pub clears: Vec<&'static str>,
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

    /// Worth of what the box takes, bought or not; `None` without a price.
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

impl Shopping {
    /// What the till says for everything with a price.
    #[must_use]
    pub fn till(&self) -> f64 {
        self.lines.iter().filter_map(Line::till).sum()
    }

    /// Worth of what the box takes, of everything with a price.
    #[must_use]
    pub fn worth(&self) -> f64 {
        self.lines.iter().filter_map(Line::worth).sum()
    }

    /// Lines that have to be bought at an unknown price.
    pub fn unpriced(&self) -> impl Iterator<Item = &Line> {
        self.lines.iter().filter(|line| line.till().is_none())
    }
}
