//! Panels that no sheet is large enough for.

use super::timber::listed;
use super::{Check, Evidence, Verdict, swap};
use crate::carpentry::SheetPlan;

pub(super) const CHECK: Check = Check {
    id: "sheet-too-small",
    title: "Sheets against panels",
    what: "Whether every panel can be cut from a sheet of its kind: bought ones and offcuts, trimmed \
and with the width of the saw's cut.",
    why: "Found out at the timber yard, it costs another trip; found out after the first cut, a sheet.",
    limits: "Grain that must run one way keeps a panel from being turned. What the saw cannot reach \
counts as not cut. Panels glued up from two pieces are not considered.",
    bad: "a front 700 mm high from a sheet 600 x 1200 mm with the grain upright",
    good: "the same front with grain = \"free\", or from a larger sheet",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let place = evidence.design().enclosure.wall_place;
    let wall = &evidence.design().enclosure.wall.common.name.text;
    let verdicts = carpentry.sheets.iter().map(|plan| {
        let said = verdict(plan).at(place);
        if plan.layout.left_over.is_empty() || plan.sheet != *wall {
            return said;
        }
        let longest = |length: f64, width: f64| (length.max(width), length.min(width));
        let stock = plan.stock.iter().map(|stock| stock.length.max(stock.width));
        let now = stock.fold(0.0, f64::max);
        let larger = swap::walls(evidence, |sheet| {
            longest(sheet.length.si, sheet.width.si).0 > now
        });
        said.mends(larger.into_iter().take(TRIES))
    });
    verdicts.collect()
}

/// Other sheets tried.
const TRIES: usize = 4;

fn verdict(plan: &SheetPlan) -> Verdict {
    let mut names: Vec<String> = plan
        .layout
        .left_over
        .iter()
        .map(|blank| {
            let blank = &plan.blanks[*blank];
            format!(
                "{} ({:.0} x {:.0} mm)",
                blank.name,
                1e3 * blank.length,
                1e3 * blank.width
            )
        })
        .collect();
    names.dedup();
    if names.is_empty() {
        let sheets = plan.layout.sheets.len();
        let cause = format!(
            "All {} pieces are cut from {sheets} of {}.",
            plan.blanks.len(),
            plan.sheet
        );
        return Verdict::good("Every panel fits on its sheet", cause);
    }
    let largest = plan
        .stock
        .iter()
        .max_by(|a, b| (a.length * a.width).total_cmp(&(b.length * b.width)));
    let sheet = largest.map_or_else(
        || "there is none".into(),
        |stock| {
            format!(
                "the largest is {:.0} x {:.0} mm",
                1e3 * stock.length,
                1e3 * stock.width
            )
        },
    );
    let cause = format!(
        "{} cannot be cut from {}: {sheet}.",
        super::timber::capital(&listed(&names)),
        plan.sheet
    );
    Verdict::stop("A panel is larger than its sheet", cause).advice(
        "take a larger sheet, let the grain run freely, or make the box smaller; a wider saw bench \
helps where the saw is what sets the bound",
    )
}
