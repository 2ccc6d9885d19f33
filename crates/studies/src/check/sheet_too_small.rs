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
    let whole = |plan: &&SheetPlan| plan.layout.left_over.is_empty();
    if !carpentry.sheets.is_empty() && carpentry.sheets.iter().all(|plan| whole(&plan)) {
        return vec![good(&carpentry.sheets)];
    }
    let wrong = carpentry.sheets.iter().filter(|plan| !whole(plan));
    let verdicts = wrong.map(|plan| {
        let said = verdict(plan).at(place);
        if plan.sheet != *wall {
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

fn good(plans: &[SheetPlan]) -> Verdict {
    let cut = plans.iter().map(|plan| {
        let (pieces, sheets) = (plan.blanks.len(), plan.layout.sheets.len());
        format!("{pieces} from {sheets} of {}", plan.sheet)
    });
    let cause = format!("Pieces are cut {}.", listed(&cut.collect::<Vec<_>>()));
    Verdict::good("Every panel fits on its sheet", cause)
}

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
    Verdict::stop("A panel cannot be cut from its sheet", cause).advice(
        "take a larger sheet, let the grain run freely, or make the box smaller; what is narrower than \
the saw can hold or wider than it can cut wants another saw",
    )
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn a_panel_larger_than_its_sheet_is_named() {
        check(CHECK.id, &[], &[Good]);
        let sheet = |size: &str| {
            let [length, width] = [0, 1].map(|side| size.split(' ').nth(side).unwrap());
            with(&[]).shelf(&format!(
                "[[sheet]]\nname = \"birch plywood 12 mm\"\nlength = \"{length} mm\"\nwidth = \"{width} mm\"\n"
            ))
        };
        sheet("600 450").check(CHECK.id, &[Good]);
        // The front is 400 x 240 mm, and factory edges are trimmed off.
        let found = sheet("402 300").check(CHECK.id, &[Stop]);
        assert!(found[0].cause.contains("ront (400 x 240 mm)"), "{found:#?}");
        assert!(found[0].place.is_some(), "{found:#?}");
    }
}
