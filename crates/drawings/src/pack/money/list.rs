//! The shopping list: what is needed, what lies in the drawer, what the till says.

use super::amount;
use crate::layout::{Align, Block, Cell, Column, Heading, Ledger, Paragraph, Table};
use crate::text::number;
use studies::money::{Alternative, Extra, Kind, Line, SheetBill, Shopping, Unit};
use studies::words;

pub(super) fn blocks(money: &Shopping) -> Vec<Box<dyn Block>> {
    let mut blocks: Vec<Box<dyn Block>> = Vec::new();
    let remark = "tick what is there; sheets and cans are bought whole, wire by the metre";
    blocks.push(Box::new(Heading::new("Shopping list", remark)));
    blocks.push(Box::new(table(money)));
    blocks.push(Box::new(Heading::new("Together", "nominal prices")));
    blocks.push(Box::new(totals(money)));
    for line in money.unpriced() {
        let text = format!(
            "{}: no price in {} is known, so no sum holds it.",
            line.label, money.currency
        );
        blocks.push(Box::new(Paragraph::remark(&text)));
    }
    if !money.extras.is_empty() {
        let remark = "stands on no shelf, so no sum holds it";
        blocks.push(Box::new(Heading::new("Needed too", remark)));
        blocks.push(Box::new(extras(&money.extras)));
    }
    if !money.sheets.is_empty() {
        let remark = "areas in m²; waste is kerf, trim and rests too small to use";
        blocks.push(Box::new(Heading::new("What becomes of the sheets", remark)));
        blocks.push(Box::new(sheets(money)));
        blocks.extend(left_over(money));
    }
    if money.lines.iter().any(|line| !line.instead.is_empty()) {
        let remark = "on the shelf, as far as their data tell; what has to be bought, and how many lie there";
        blocks.push(Box::new(Heading::new("What would do instead", remark)));
        blocks.push(Box::new(instead(money)));
    }
    blocks
}

fn table(money: &Shopping) -> Table {
    let price = |sum: Option<f64>| match sum {
        Some(sum) => words::price(sum, &money.currency),
        None => "–".to_owned(),
    };
    let mut rows = Vec::new();
    let mut kind: Option<Kind> = None;
    for line in &money.lines {
        let group = if kind == Some(line.kind) {
            ""
        } else {
            line.kind.words()
        };
        kind = Some(line.kind);
        rows.push(vec![
            Cell::from(group).muted(),
            Cell::from(line.label.as_str()),
            Cell::from(line.about.as_str()).muted(),
            Cell::from(counted(line.needed, line.unit)),
            Cell::from(counted(line.on_hand, line.unit)),
            bought(line),
            Cell::from(price(line.price)),
            Cell::from(price(line.till())),
            Cell::from(price(line.worth())).muted(),
        ]);
    }
    Table {
        columns: vec![
            Column::new("", Align::Left, 2.2),
            Column::new("thing", Align::Left, 4.4),
            Column::new("for", Align::Left, 3.6),
            Column::new("needed", Align::Right, 1.1),
            Column::new("in the drawer", Align::Right, 1.3),
            Column::new("to buy", Align::Right, 1.1),
            Column::new("each", Align::Right, 1.3),
            Column::new("till", Align::Right, 1.4),
            Column::new("in the box", Align::Right, 1.4),
        ],
        rows,
    }
}

fn bought(line: &Line) -> Cell {
    let cell = Cell::from(counted(line.to_buy, line.unit));
    if line.to_buy > 0.0 {
        cell.strong()
    } else {
        cell
    }
}

fn counted(count: f64, unit: Unit) -> String {
    match unit {
        _ if count == 0.0 => "–".to_owned(),
        Unit::Piece => amount(count),
        Unit::Metre => format!("{} m", amount(count)),
    }
}

fn totals(money: &Shopping) -> Ledger {
    let said = |sum: f64| words::price(sum, &money.currency);
    let mut rows = vec![
        (
            "what ends up in the box is worth".to_owned(),
            said(money.worth()),
        ),
        (
            "of what lies in the drawer".to_owned(),
            said(money.in_drawer()),
        ),
    ];
    let waste: f64 = money.sheets.iter().filter_map(SheetBill::waste_worth).sum();
    rows.push(("sheet that becomes dust and scrap".to_owned(), said(waste)));
    if let Some(brief) = money.brief {
        rows.push(("the brief allows".to_owned(), said(brief)));
    }
    let till = if money.nothing_priced() {
        "no price is known".to_owned()
    } else {
        said(money.till())
    };
    rows.push(("the till says".to_owned(), till));
    Ledger { rows, summed: true }
}

fn sheets(money: &Shopping) -> Table {
    let worth = |sum: Option<f64>| match sum {
        Some(sum) => words::price(sum, &money.currency),
        None => "–".to_owned(),
    };
    let area = |area: f64| Cell::from(number(area, 3));
    let row = |bill: &SheetBill| {
        vec![
            Cell::from(bill.label.as_str()),
            area(bill.cut),
            area(bill.pieces),
            area(bill.kept),
            Cell::from(worth(bill.kept_worth())),
            area(bill.waste()),
            Cell::from(worth(bill.waste_worth())),
            Cell::from(bill.offcuts.to_string()),
        ]
    };
    Table {
        columns: vec![
            Column::new("sheet", Align::Left, 4.0),
            Column::new("cut into", Align::Right, 1.2),
            Column::new("pieces", Align::Right, 1.2),
            Column::new("offcuts kept", Align::Right, 1.4),
            Column::new("worth", Align::Right, 1.2),
            Column::new("waste", Align::Right, 1.2),
            Column::new("worth", Align::Right, 1.2),
            Column::new("offcuts used", Align::Right, 1.4),
        ],
        rows: money.sheets.iter().map(row).collect(),
    }
}

/// Pieces that no sheet can give.
fn left_over(money: &Shopping) -> Vec<Box<dyn Block>> {
    let lacking = money.sheets.iter().filter(|bill| bill.left_over > 0);
    let said = lacking.map(|bill| {
        let text = format!(
            "{}: {} pieces fit on no sheet of it; no sum holds them.",
            bill.label, bill.left_over
        );
        Box::new(Paragraph::remark(&text)) as Box<dyn Block>
    });
    said.collect()
}

fn instead(money: &Shopping) -> Table {
    let with = money.lines.iter().filter(|line| !line.instead.is_empty());
    let one = |other: &Alternative| {
        let till = other.till.map_or("price unknown".to_owned(), |till| {
            words::price(till, &money.currency)
        });
        let there = if other.on_hand > 0.0 {
            format!(", {} there", amount(other.on_hand))
        } else {
            String::new()
        };
        format!("{} ({till}{there})", other.label)
    };
    let row = |line: &Line| {
        let all: Vec<String> = line.instead.iter().map(one).collect();
        vec![Cell::from(line.label.as_str()), Cell::from(all.join("; "))]
    };
    Table {
        columns: vec![
            Column::new("in place of", Align::Left, 3.0),
            Column::new("", Align::Left, 9.0),
        ],
        rows: with.map(row).collect(),
    }
}

fn extras(extras: &[Extra]) -> Table {
    let row = |extra: &Extra| {
        let unit = if extra.unit.is_empty() { "" } else { " " };
        let figure = if extra.amount >= 9.95 || extra.unit == "g" {
            number(extra.amount, 0)
        } else {
            number(extra.amount, usize::from(!extra.unit.is_empty()))
        };
        vec![
            Cell::from(extra.label.as_str()),
            Cell::from(format!("{figure}{unit}{}", extra.unit)),
            Cell::from(extra.about.as_str()).muted(),
        ]
    };
    Table {
        columns: vec![
            Column::new("thing", Align::Left, 4.0),
            Column::new("how much", Align::Right, 1.4),
            Column::new("for", Align::Left, 6.0),
        ],
        rows: extras.iter().map(row).collect(),
    }
}
