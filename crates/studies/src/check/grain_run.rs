//! Grain that runs around the box.

use super::timber::{listed, mm};
use super::{Check, Evidence, Verdict};
use crate::carpentry::SheetPlan;
use design::{Grain, Place};
use wood::sawing::Blank;

pub(super) const CHECK: Check = Check {
    id: "grain-run",
    title: "Grain around the box",
    what: "Whether the walls of the ring lie end to end on one sheet, in the order of the box, where the \
design wants the grain to run around it.",
    why: "Cut in sequence, the figure of the veneer runs over three corners of the box as if it were folded \
from one board. Cut from two places of the sheet, it jumps at the corners, and nobody sees that \
before the glue is dry.",
    limits: "Only where a wall of the ring says grain = \"around\". The fourth corner never matches: it is \
where the run begins and ends. Walls of different sheets cannot run on.",
    bad: "grain = \"around\" on a ring of 1.3 m from sheets 1.2 m long",
    good: "the same ring from a sheet 2.5 m long",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let sheets = evidence.carpentry.map_or(&[][..], |wood| &wood.sheets);
    let plans: Vec<&SheetPlan> = sheets
        .iter()
        .filter(|plan| ring(plan).next().is_some())
        .collect();
    let place = place(evidence);
    match plans[..] {
        [] => Vec::new(),
        [plan] if plan.layout.broken_runs.is_empty() => vec![kept(plan).at(place)],
        [plan] => vec![broken(plan).at(place)],
        _ => vec![parted(&plans).at(place)],
    }
}

/// Blanks of the ring in the order of the grain.
fn ring(plan: &SheetPlan) -> impl Iterator<Item = &Blank> {
    plan.blanks.iter().filter(|blank| blank.run.is_some())
}

/// Where the design first wants it.
fn place(evidence: &Evidence<'_>) -> Option<Place> {
    let walls = evidence.design().enclosure.carpentry.walls.iter();
    let mut said = walls.filter_map(|wall| wall.grain);
    said.find(|grain| grain.value == Grain::Around)
        .and_then(|grain| grain.place)
}

/// What the blanks are called, each once.
fn names<'a>(blanks: impl Iterator<Item = &'a Blank>) -> String {
    let mut names: Vec<String> = Vec::new();
    for blank in blanks {
        if !names.contains(&blank.name) {
            names.push(blank.name.clone());
        }
    }
    listed(&names)
}

fn kept(plan: &SheetPlan) -> Verdict {
    let cause = format!(
        "The {} walls of the ring lie end to end on one sheet of {}: the grain runs over all corners but one.",
        ring(plan).count(),
        plan.sheet
    );
    Verdict::good("The grain runs around the box", cause)
}

fn broken(plan: &SheetPlan) -> Verdict {
    let kerf = plan.kerf_and_trim[0];
    let cuts = ring(plan).count().saturating_sub(1) as f64 * kerf;
    let wanted = ring(plan).map(|blank| blank.length).sum::<f64>() + cuts;
    let trim = |whole: bool| {
        if whole {
            2.0 * plan.kerf_and_trim[1]
        } else {
            0.0
        }
    };
    let stock = plan.stock.iter();
    let longest = stock
        .map(|stock| stock.length - trim(stock.whole))
        .fold(0.0, f64::max);
    let cause = format!(
        "End to end {} want {} along the grain, cuts included, and one sheet of {} gives {}: they are \
cut from several places, and the figure jumps at the corners.",
        names(ring(plan)),
        mm(wanted),
        plan.sheet,
        mm(longest)
    );
    Verdict::caution("The grain does not run around the box", cause)
        .measured((1e3 * longest).round(), (1e3 * wanted).round(), "mm")
        .advice(
            "take a longer sheet, or cut the ring as two pairs that each run over one corner, and turn the \
corners that do not match to the back or the floor",
        )
}

fn parted(plans: &[&SheetPlan]) -> Verdict {
    let of = plans
        .iter()
        .map(|plan| format!("{} of {}", names(ring(plan)), plan.sheet));
    let cause = format!(
        "The walls of the ring are not of one kind of sheet: {}. The figure jumps where they meet.",
        listed(&of.collect::<Vec<_>>())
    );
    Verdict::caution("The grain does not run around the box", cause)
        .advice("cut all four walls of the ring from one kind of sheet")
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Caution, Good};

    const AROUND: &[(&str, &str)] = &[("box.panel.1.side", "top"), ("box.panel.1.grain", "around")];

    /// The ring of 400 x 240 mm with butt joints is 2 · 400 + 2 · 216 mm and three cuts long.
    #[test]
    fn a_ring_longer_than_its_sheet_is_broken() {
        check(CHECK.id, &[], &[]);
        check(CHECK.id, AROUND, &[Good]);
        let sheet = |length: &str| {
            with(AROUND).shelf(&format!(
                "[[sheet]]\nname = \"birch plywood 12 mm\"\nlength = \"{length} mm\"\nwidth = \"900 mm\"\n"
            ))
        };
        sheet("1270").check(CHECK.id, &[Good]);
        let found = sheet("1200").check(CHECK.id, &[Caution]);
        assert!(found[0].cause.contains("gives 1180 mm"), "{found:#?}");
        assert!(found[0].place.is_some(), "{found:#?}");
    }

    #[test]
    fn walls_of_two_kinds_of_sheet_cannot_run_on() {
        let other = [
            ("box.panel.2.side", "left"),
            ("box.panel.2.wall", "birch plywood 15 mm"),
        ];
        let found = with(AROUND).with(&other).check(CHECK.id, &[Caution]);
        assert!(found[0].cause.contains("not of one kind"), "{found:#?}");
    }
}
