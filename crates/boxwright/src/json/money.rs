//! The shopping list, the sheets, and what swaps would change.

use serde::Serialize;
use studies::check::Severity;
use studies::money::{self, Kind, Shopping, Unit};
use studies::report::Promise;

#[derive(Serialize)]
pub(super) struct Money<'a> {
    currency: &'a str,
    brief: Option<f64>,
    totals: Totals,
    lines: Vec<Line<'a>>,
    needed_too: Vec<Extra<'a>>,
    sheets: Vec<Sheet<'a>>,
    swaps: Vec<Swap<'a>>,
}

#[derive(Serialize)]
struct Totals {
    till: f64,
    in_the_box: f64,
    in_drawer: f64,
    /// Lines that no sum holds.
    unpriced: usize,
}

#[derive(Serialize)]
struct Line<'a> {
    label: &'a str,
    kind: &'static str,
    unit: &'static str,
    about: &'a str,
    uses: f64,
    needed: f64,
    on_hand: f64,
    to_buy: f64,
    price: Option<f64>,
    till: Option<f64>,
    worth: Option<f64>,
    instead: Vec<Alternative<'a>>,
}

#[derive(Serialize)]
struct Alternative<'a> {
    label: &'a str,
    on_hand: f64,
    till: Option<f64>,
}

#[derive(Serialize)]
struct Extra<'a> {
    label: &'a str,
    amount: f64,
    unit: &'static str,
    about: &'a str,
}

#[derive(Serialize)]
struct Sheet<'a> {
    label: &'a str,
    /// m².
    cut: f64,
    pieces: f64,
    kept: f64,
    waste: f64,
    kept_worth: Option<f64>,
    waste_worth: Option<f64>,
    offcuts: usize,
    left_over: usize,
}

#[derive(Serialize)]
struct Swap<'a> {
    line: &'a str,
    part: &'a str,
    words: &'a str,
    can_be_built: bool,
    /// Why it cannot be studied at all.
    fails: Option<&'a str>,
    changes: Vec<Change<'a>>,
    unpriced: &'a [String],
    brings: Vec<Said<'a>>,
    clears: Vec<Said<'a>>,
}

#[derive(Serialize)]
struct Change<'a> {
    promise: &'static str,
    by: f64,
    unit: &'a str,
}

#[derive(Serialize)]
struct Said<'a> {
    severity: Severity,
    title: &'a str,
}

impl<'a> Money<'a> {
    pub(super) fn new(model: &'a Shopping, promises: &'a [Promise]) -> Self {
        let swaps = model.swaps.iter();
        Self {
            currency: &model.currency,
            brief: model.brief,
            totals: Totals {
                till: model.till(),
                in_the_box: model.worth(),
                in_drawer: model.in_drawer(),
                unpriced: model.without_price().count(),
            },
            lines: model.lines.iter().map(line).collect(),
            needed_too: model.extras.iter().map(extra).collect(),
            sheets: model.sheets.iter().map(sheet).collect(),
            swaps: swaps.map(|swap| Swap::new(swap, promises)).collect(),
        }
    }
}

fn line(line: &money::Line) -> Line<'_> {
    let instead = line.instead.iter().map(|other| Alternative {
        label: &other.label,
        on_hand: other.on_hand,
        till: other.till,
    });
    Line {
        label: &line.label,
        kind: kind(line.kind),
        unit: match line.unit {
            Unit::Piece => "",
            Unit::Metre => "m",
        },
        about: &line.about,
        uses: line.uses,
        needed: line.needed,
        on_hand: line.on_hand,
        to_buy: line.to_buy,
        price: line.price,
        till: line.till(),
        worth: line.worth(),
        instead: instead.collect(),
    }
}

const fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Sound => "sound",
        Kind::Power => "power",
        Kind::Wood => "wood",
        Kind::Control => "control",
        Kind::Electric => "electric",
        Kind::Indicator => "indicator",
        Kind::Wire => "wire",
        Kind::Finish => "finish",
        Kind::Other => "other",
    }
}

fn extra(extra: &money::Extra) -> Extra<'_> {
    Extra {
        label: &extra.label,
        amount: extra.amount,
        unit: extra.unit,
        about: &extra.about,
    }
}

fn sheet(bill: &money::SheetBill) -> Sheet<'_> {
    Sheet {
        label: &bill.label,
        cut: bill.cut,
        pieces: bill.pieces,
        kept: bill.kept,
        waste: bill.waste(),
        kept_worth: bill.kept_worth(),
        waste_worth: bill.waste_worth(),
        offcuts: bill.offcuts,
        left_over: bill.left_over,
    }
}

fn said((severity, title): &(Severity, String)) -> Said<'_> {
    Said {
        severity: *severity,
        title,
    }
}

impl<'a> Swap<'a> {
    fn new(model: &'a money::Swap, promises: &'a [Promise]) -> Self {
        let changed = model.outcome.as_ref().ok();
        let changes = changed.into_iter().flat_map(|changed| {
            let each = promises.iter().zip(&changed.promises);
            each.map(|(promise, (id, by))| Change {
                promise: id,
                by: *by,
                unit: &promise.unit,
            })
        });
        Self {
            line: &model.line,
            part: &model.part,
            words: &model.words,
            can_be_built: changed.is_some_and(money::Changed::can_be_built),
            fails: model.outcome.as_ref().err().map(String::as_str),
            changes: changes.collect(),
            unpriced: changed.map_or(&[], |changed| &changed.unpriced),
            brings: changed.map_or_else(Vec::new, |changed| {
                changed.brings.iter().map(said).collect()
            }),
            clears: changed.map_or_else(Vec::new, |changed| {
                changed.clears.iter().map(said).collect()
            }),
        }
    }
}
