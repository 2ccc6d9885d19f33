//! The order of the work: a timeline, tools, steps and tests to tick off.

mod clock;
mod steps;
mod tests_sheet;
mod timeline;
mod tools;
mod words;

pub use words::{duration, expected};

use super::Page;
use crate::paper::Paper;
use studies::Report;

/// Timeline, tools, steps, tests.
pub(super) fn pages(report: &Report, paper: Paper) -> Vec<Page> {
    let order = &report.order;
    if order.steps.is_empty() {
        return Vec::new();
    }
    let mut out = timeline::pages(order, paper);
    out.extend(steps::pages(order, paper));
    out.extend(tests_sheet::pages(order, paper));
    out
}
