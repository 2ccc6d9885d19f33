//! Every figure, and everything that was taken for granted.

use super::layout::{heading, left, right, wrapped};
use crate::terminal::Ink;
use studies::report::{Assumption, Figure};
use studies::words::{bare, number};

const VALUE: usize = 11;
const BAND: usize = 16;

/// Every figure with its band.
pub(super) fn figures(figures: &[Figure], ink: Ink) -> String {
    let mut out = heading("Figures (this build, then 8 of 10 builds)", ink);
    for figure in figures {
        let band = match (figure.p10, figure.p90) {
            (Some(low), Some(high)) => {
                format!("{} to {}", bare(low, figure.unit), bare(high, figure.unit))
            }
            _ => String::new(),
        };
        let value = right(&number(figure.value, figure.unit), VALUE);
        let first = format!("{value}  {}", left(&band, BAND));
        out += &wrapped(&first, figure.title);
    }
    out
}

/// Every default, prior and spread.
pub(super) fn assumptions(assumptions: &[Assumption], ink: Ink) -> String {
    let mut out = heading("Taken for granted", ink);
    for line in assumptions {
        let text = format!(
            "{}: {} ({}; {})",
            line.label, line.spread, line.kind, line.why
        );
        out += &wrapped("  ", &text);
    }
    out
}
