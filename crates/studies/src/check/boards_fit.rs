//! Braces, cleats and other boards in the box.

use super::timber::{capital, mm};
use super::{Check, Evidence, Verdict};
use crate::words::wall;
use design::{Design, Place};
use wood::{BoardKind, Fault, Plan};

pub(super) const CHECK: Check = Check {
    id: "boards-fit",
    title: "Braces and other boards",
    what: "Whether braces, cleats, dividers and the walls of a bay or a recess lie inside the box, \
with their windows within them, and whether the joints close every corner.",
    why: "A board that was measured from the wrong face ends up in the wall, or cuts another board in \
two.",
    limits: "Boards end at the inner faces of the walls by themselves. Where two boards cross, the \
later one is taken to be cut around the earlier.",
    bad: "[[brace]] parallel = \"left\", at = \"400 mm\" in a box 376 mm wide inside",
    good: "at = \"180 mm\", window = \"120 x 100 mm\"",
    sources: &["common practice, no source"],
    run,
};

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let (plan, design) = (&carpentry.body.plan, evidence.design());
    let faults = &carpentry.body.faults;
    let wrong: Vec<Verdict> = faults
        .iter()
        .filter(|fault| !is_off(faults, fault))
        .filter_map(|fault| verdict(plan, design, fault))
        .collect();
    if wrong.is_empty() && !plan.boards.is_empty() {
        let cause = "Every board lies within the walls, every window within its board.";
        return vec![Verdict::good("Boards fit", cause)];
    }
    wrong
}

/// Whether nothing of a board is left because it lies outside: that is said already.
fn is_off(faults: &[Fault], fault: &Fault) -> bool {
    let Fault::NoBoard { board: nothing } = fault else {
        return false;
    };
    let mut others = faults.iter();
    others.any(|other| matches!(other, Fault::BoardOff { board, .. } if board == nothing))
}

fn verdict(plan: &Plan, design: &Design, fault: &Fault) -> Option<Verdict> {
    let name = |board: usize| capital(&plan.boards[board].name);
    let stop = |title: &str, cause: String, advice: &str, board: usize| {
        Verdict::stop(title, cause)
            .advice(advice)
            .at(place(plan, design, board))
    };
    match *fault {
        Fault::NoBoard { board } => Some(stop(
            "A board has no room",
            format!("Nothing of \"{}\" lies between the walls.", name(board)),
            "measure from the inner face of the wall it starts from, or take it out",
            board,
        )),
        Fault::BoardOff { board, beyond, by } => Some(stop(
            "A board reaches out of the box",
            format!(
                "\"{}\" reaches {} beyond the outer face of the {}.",
                name(board),
                mm(by),
                wall(beyond)
            ),
            "measure from the inner face of the wall it starts from, or make it shorter",
            board,
        )),
        Fault::Window { board, by, .. } => Some(stop(
            "A window is larger than its board",
            format!(
                "The window of \"{}\" reaches {} over its edge.",
                name(board),
                mm(by)
            ),
            "make the window smaller, so that some 20 mm of board are left around it",
            board,
        )),
        Fault::WindowsOverlap { board, by, .. } => Some(stop(
            "Two windows run into one another",
            format!("Two windows of \"{}\" overlap by {}.", name(board), mm(by)),
            "move them apart, or make one window of the two",
            board,
        )),
        Fault::OpenCorner { walls, .. } => {
            let [a, b, c] = walls.map(wall);
            let cause = format!(
                "Where {a}, {b} and {c} meet, none of the three fills the corner: each ends at \
another."
            );
            let joint = design.enclosure.carpentry.edges.first();
            Some(
                Verdict::stop("A corner stays open", cause)
                    .advice("let one of the three run through on both of its edges there")
                    .at(joint.map(|joint| joint.place)),
            )
        }
        _ => None,
    }
}

/// Where the design speaks of a board.
fn place(plan: &Plan, design: &Design, board: usize) -> Option<Place> {
    let of = &plan.boards[board];
    match of.kind {
        BoardKind::Brace => {
            let named = design
                .braces
                .iter()
                .find(|brace| brace.name.text == of.name);
            named.map(|brace| brace.place)
        }
        BoardKind::Cleat => {
            let named = design
                .cleats
                .iter()
                .find(|cleat| cleat.name.text == of.name);
            named.map(|cleat| cleat.place)
        }
        BoardKind::Divider => design.enclosure.chambers.place,
        BoardKind::BayWall => design.bay.as_ref().map(|bay| bay.place),
        BoardKind::RecessWall => design.control.as_ref().map(|control| control.place),
    }
}

#[cfg(test)]
mod tests {
    use super::super::probe::{check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn boards_lie_within_the_box() {
        check(CHECK.id, &[], &[]);
        let brace = |at, window| {
            with(&[
                ("brace.1.name", "across"),
                ("brace.1.parallel", "left"),
                ("brace.1.at", at),
                ("brace.1.window", window),
            ])
        };
        brace("182 mm", "120 x 150 mm").check(CHECK.id, &[Good]);
        let found = brace("182 mm", "190 x 150 mm").check(CHECK.id, &[Stop]);
        assert!(found[0].place.is_some(), "{found:#?}");
        brace("395 mm", "120 x 150 mm").check(CHECK.id, &[Stop]);
    }
}
