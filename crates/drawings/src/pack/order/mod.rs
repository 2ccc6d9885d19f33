//! The order of the work: a timeline, steps and tests to tick off, tools.

mod clock;
mod steps;
mod tests_sheet;
mod timeline;
mod tools;
mod words;

use super::{Page, flowed};
use crate::layout::{Block, Heading};
use crate::paper::Paper;
use studies::Report;

/// Timeline, steps, tests, tools.
pub(super) fn pages(report: &Report, paper: Paper) -> Vec<Page> {
    let order = &report.order;
    if order.steps.is_empty() {
        return Vec::new();
    }
    let mut out = timeline::pages(order, paper);
    out.extend(steps::pages(order, paper));
    out.extend(tests_sheet::pages(order, paper));
    let blocks: Vec<Box<dyn Block>> = vec![
        Box::new(Heading::new("Tools", "with the steps that want them")),
        Box::new(tools::table(order)),
    ];
    out.extend(flowed("Tools", &blocks, paper, 2));
    out
}
