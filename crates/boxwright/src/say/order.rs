//! The order of building, in a few lines.

use super::layout::{heading, left, wrapped};
use super::plain::plain;
use crate::terminal::Ink;
use studies::Report;
use studies::order::{Order, Taken};

/// Width of the column of names.
const NAME: usize = 10;

const HOUR: f64 = 3600.0;
const DAY: f64 = 24.0 * HOUR;

/// How many steps, hours and days, and where it stops to be tested.
pub(super) fn order(report: &Report, ink: Ink) -> String {
    let order = &report.order;
    if order.steps.is_empty() {
        return String::new();
    }
    let mut out = heading("Building", ink);
    for (name, words) in [("steps", steps(order)), ("tests", tests(order))] {
        out += &wrapped(&format!("  {}", left(name, NAME)), &plain(&words));
    }
    out
}

fn steps(order: &Order) -> String {
    let total = &order.total;
    format!(
        "{}, {:.0} h hands on ({:.0} to {:.0} h) on {} days, all cured after {:.0} days",
        order.steps.len(),
        total.hands.usual / HOUR,
        total.hands.quick / HOUR,
        total.hands.slow / HOUR,
        total.days[1],
        (total.until_ready.usual / DAY).ceil(),
    )
}

fn tests(order: &Order) -> String {
    let missed = order
        .holds
        .iter()
        .filter(|hold| matches!(hold.taken, Taken::Not(_)));
    match missed.count() {
        0 => format!("{}, all with your tools", order.holds.len()),
        missed => format!(
            "{}, {missed} of them not with your tools",
            order.holds.len()
        ),
    }
}
