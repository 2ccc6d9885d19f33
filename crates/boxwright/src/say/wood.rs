//! The box as wood, in a few lines.

use super::layout::{heading, left, wrapped};
use super::plain::plain;
use crate::terminal::Ink;
use studies::Report;
use studies::carpentry::{Carpentry, GapLine, Near, SheetPlan};
use studies::words::at_wall;

/// Width of the column of names.
const NAME: usize = 10;

/// What is cut, what is near what, what comes out again, and how it stands.
pub(super) fn wood(report: &Report, ink: Ink) -> String {
    let carpentry = &*report.carpentry;
    let mut out = heading("Wood", ink);
    for (name, words) in [
        ("panels", panels(carpentry)),
        ("gaps", gaps(carpentry)),
        ("out again", access(carpentry)),
        ("ring", ring(carpentry)),
        ("stands", balance(carpentry)),
    ] {
        if !words.is_empty() {
            out += &wrapped(&format!("  {}", left(name, NAME)), &plain(&words));
        }
    }
    out
}

fn panels(carpentry: &Carpentry) -> String {
    let sheets: Vec<String> = carpentry.sheets.iter().map(sheet).collect();
    sheets.join("; ")
}

/// "9 from 1 sheet of birch plywood, no fewer could do, 23 % waste".
fn sheet(plan: &SheetPlan) -> String {
    let bought = plan.layout.bought;
    let from = match bought {
        0 => "offcuts on hand".to_owned(),
        1 => "1 sheet".to_owned(),
        count => format!("{count} sheets"),
    };
    let fewest = if bought > plan.layout.fewest {
        format!(", {} might do", plan.layout.fewest)
    } else {
        String::new()
    };
    let left_over = match plan.layout.left_over.len() {
        0 => String::new(),
        count => format!(", {count} fit on nothing"),
    };
    let waste = 100.0 * plan.waste;
    format!(
        "{} from {from} of {}{fewest}{left_over}, {waste:.0} % waste",
        plan.blanks.len(),
        plan.sheet
    )
}

/// The gap between solids that has least to spare; what stands on something
/// wants none.
fn gaps(carpentry: &Carpentry) -> String {
    let spare = |line: &&GapLine| line.gap - line.wanted;
    let apart = carpentry
        .gaps
        .iter()
        .filter(|line| !line.air && (line.wanted > 0.0 || line.gap < 0.0));
    let Some(least) = apart.min_by(|a, b| spare(a).total_cmp(&spare(b))) else {
        return String::new();
    };
    let label = carpentry
        .parts
        .get(least.part)
        .map_or("", |part| &part.label);
    let other = &least.other;
    let (gap, wanted) = (mm(least.gap.abs()), mm(least.wanted));
    if let Near::Outside(wall) = least.near
        && least.gap < 0.0
    {
        format!("{label} reaches {gap} out of the box {}", at_wall(wall))
    } else if least.gap < 0.0 {
        format!("{label} runs {gap} into {other}")
    } else {
        format!("{gap} between {label} and {other} has least to spare; {wanted} wanted")
    }
}

fn mm(metres: f64) -> String {
    format!("{:.1} mm", 1000.0 * metres)
}

fn access(carpentry: &Carpentry) -> String {
    let stays: Vec<&str> = carpentry
        .access
        .iter()
        .filter(|line| line.through.is_none())
        .map(|line| line.label.as_str())
        .collect();
    match (carpentry.access.is_empty(), stays.is_empty()) {
        (true, _) => String::new(),
        (false, true) => "everything, through an opening that remains".to_owned(),
        (false, false) => format!("not once the box is closed: {}", stays.join(", ")),
    }
}

fn ring(carpentry: &Carpentry) -> String {
    carpentry.ring.as_ref().map_or_else(String::new, |ring| {
        format!(
            "closes in {:.0} of 100, the gap at most {} with all errors one way",
            100.0 * ring.odds,
            mm(ring.worst_gap)
        )
    })
}

fn balance(carpentry: &Carpentry) -> String {
    let balance = &carpentry.balance;
    let hang = match balance.hang.map(f64::to_degrees) {
        None => String::new(),
        Some(angle) if angle < 0.5 => "; hangs level".to_owned(),
        Some(angle) => format!("; hangs {angle:.0}° off level"),
    };
    let (angle, wall) = balance.tipping;
    let wall = carpentry.body.wall(wall).name.as_str();
    format!(
        "tips over at {:.0}° towards the {wall}{hang}",
        angle.to_degrees()
    )
}
