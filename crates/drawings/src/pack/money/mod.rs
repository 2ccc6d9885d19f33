//! Money: the shopping list, and what other parts of the shelf would change.

mod list;
mod swaps;

use super::{Page, flowed};
use crate::paper::Paper;
use studies::Report;

pub(super) fn pages(report: &Report, paper: Paper) -> Vec<Page> {
    let mut blocks = list::blocks(&report.money);
    blocks.extend(swaps::blocks(report));
    flowed("Shopping list", &blocks, paper, 1)
}

/// A share or an amount without needless digits: "2", "1.63".
fn amount(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    text.to_owned()
}
