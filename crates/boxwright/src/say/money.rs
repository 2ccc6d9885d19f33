//! What it costs, in a few lines.

use super::layout::{heading, left, wrapped};
use super::plain::plain;
use crate::terminal::Ink;
use studies::money::{SheetBill, Shopping};
use studies::words::price;

/// Width of the column of names.
const NAME: usize = 10;

/// What the till says, what the drawer gives, what is wasted, and what has no price.
pub(super) fn money(money: &Shopping, ink: Ink) -> String {
    let mut out = heading("Money", ink);
    for (name, words) in [
        ("to buy", till(money)),
        ("the box", worth(money)),
        ("waste", waste(money)),
        ("no price", unpriced(money)),
    ] {
        if !words.is_empty() {
            out += &wrapped(&format!("  {}", left(name, NAME)), &plain(&words));
        }
    }
    out
}

fn till(money: &Shopping) -> String {
    let said = |sum| price(sum, &money.currency);
    let things = money.lines.iter().filter(|line| line.to_buy > 0.0).count();
    let brief = money.brief.map_or_else(String::new, |brief| {
        format!(" of {} in the brief", said(brief))
    });
    let things = match things {
        1 => "1 thing".to_owned(),
        count => format!("{count} things"),
    };
    if money.nothing_priced() {
        let none = format!("no price of them is known in {}", money.currency);
        return format!("{things}; {none}; the pack lists them");
    }
    format!(
        "{things} for {}{brief}; the pack lists them",
        said(money.till())
    )
}

fn worth(money: &Shopping) -> String {
    let said = |sum| price(sum, &money.currency);
    let drawer = match money.in_drawer() {
        0.0 => String::new(),
        sum => format!("; {} of what is needed lies in the drawer", said(sum)),
    };
    format!("uses what is worth {}{drawer}", said(money.worth()))
}

fn waste(money: &Shopping) -> String {
    let area: f64 = money.sheets.iter().map(SheetBill::waste).sum();
    let kept: f64 = money.sheets.iter().map(|bill| bill.kept).sum();
    let worth: f64 = money.sheets.iter().filter_map(SheetBill::waste_worth).sum();
    if money.sheets.is_empty() {
        return String::new();
    }
    format!(
        "{area:.2} m² of sheet, {}; {kept:.2} m² of offcuts stay",
        price(worth, &money.currency)
    )
}

fn unpriced(money: &Shopping) -> String {
    let unknown: Vec<&str> = money.without_price().collect();
    if unknown.is_empty() {
        return String::new();
    }
    format!("is known, so these are not counted: {}", unknown.join(", "))
}
