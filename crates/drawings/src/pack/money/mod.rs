//! Money: the shopping list, and what other parts of the shelf would change.

mod list;
mod swaps;

use super::Page;
use crate::paper::Paper;
use studies::Report;

pub(super) fn pages(report: &Report, paper: Paper) -> Vec<Page> {
    let mut pages = list::pages(&report.money, paper);
    pages.extend(swaps::pages(report, paper));
    pages
}

/// A share or an amount without needless digits: "2", "1.63".
fn amount(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    text.to_owned()
}
