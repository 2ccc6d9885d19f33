//! How warm it gets, in a few lines.

use super::layout::{heading, left, wrapped};
use super::plain::plain;
use crate::terminal::Ink;
use studies::Report;
use studies::warmth::{Case, Warmth};
use studies::words::number;

/// Width of the column of names.
const NAME: usize = 10;

/// Whether a vent or a sink is needed, and what an hour does.
pub(super) fn warmth(report: &Report, ink: Ink) -> String {
    let Some(warmth) = &report.warmth else {
        return String::new();
    };
    let mut out = heading("Heat", ink);
    for (name, words) in [
        ("day", day(warmth)),
        ("verdict", warmth.verdict()),
        ("an hour", hours(warmth)),
    ] {
        out += &wrapped(&format!("  {}", left(name, NAME)), &plain(&words));
    }
    out
}

fn day(warmth: &Warmth) -> String {
    format!("{}, {}", number(warmth.outdoors, "°C"), warmth.place())
}

fn hours(warmth: &Warmth) -> String {
    let shown = warmth.cases.iter().filter(|case| case.id != "brief");
    let each: Vec<String> = shown.map(hour).collect();
    format!("chip and battery: {}", each.join("; "))
}

fn hour(case: &Case) -> String {
    let empty = if case.played < 3600.0 {
        format!(" (empty after {:.0} min)", case.played / 60.0)
    } else {
        String::new()
    };
    format!(
        "{} {:.0} and {:.0} °C{empty}",
        case.title, case.hour.chip, case.hour.battery
    )
}
