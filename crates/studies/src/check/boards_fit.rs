//! Braces, cleats and other boards in the box.

use super::outgrown::{self, Outgrown};
use super::timber::{capital, listed, mm};
use super::{Candidate, Check, Edit, Evidence, Verdict, boards, movers, things};
use crate::carpentry::{self, Carpentry};
use crate::words::wall;
use wood::{Fault, PanelId, Wall};

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
    let faults = &carpentry.body.faults;
    let wrong: Vec<Wrong> = faults
        .iter()
        .filter(|fault| !is_off(faults, fault))
        .filter_map(|fault| wrong(carpentry, fault))
        .collect();
    let kinds = [
        Kind::Nothing,
        Kind::Off,
        Kind::Window,
        Kind::Windows,
        Kind::Corner,
    ];
    let mut verdicts = Vec::new();
    for kind in kinds {
        let own: Vec<&Wrong> = wrong.iter().filter(|wrong| wrong.kind == kind).collect();
        verdicts.extend((!own.is_empty()).then(|| verdict(evidence, carpentry, kind, &own)));
    }
    if verdicts.is_empty() && !carpentry.body.plan.boards.is_empty() {
        let cause = "Every board lies within the walls, every window within its board.";
        return vec![Verdict::good("Boards fit", cause)];
    }
    verdicts
}

/// What may be wrong with a board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Nothing,
    Off,
    Window,
    Windows,
    Corner,
}

/// What is wrong with one board, or one corner.
struct Wrong {
    kind: Kind,
    /// Its key.
    thing: String,
    /// Index of the board.
    board: Option<usize>,
    /// By how much, in m.
    by: f64,
    /// In words, without the name.
    clause: String,
    /// What it is called.
    name: String,
}

/// Whether nothing of a board is left because it lies outside: that is said already.
fn is_off(faults: &[Fault], fault: &Fault) -> bool {
    let Fault::NoBoard { board: nothing } = fault else {
        return false;
    };
    let mut others = faults.iter();
    others.any(|other| matches!(other, Fault::BoardOff { board, .. } if board == nothing))
}

fn wrong(carpentry: &Carpentry, fault: &Fault) -> Option<Wrong> {
    let of = |kind: Kind, board: usize, by: f64, clause: String| Wrong {
        kind,
        thing: things::panel_key(carpentry, PanelId::Board(board)),
        board: Some(board),
        by,
        clause,
        name: things::panel_name(carpentry, PanelId::Board(board)),
    };
    match *fault {
        Fault::NoBoard { board } => Some(of(
            Kind::Nothing,
            board,
            0.0,
            "has no room between the walls".into(),
        )),
        Fault::BoardOff { board, beyond, by } => Some(of(
            Kind::Off,
            board,
            by,
            format!(
                "reaches {} beyond the outer face of {}",
                mm(by),
                things::wall_name(beyond)
            ),
        )),
        Fault::Window { board, by, .. } => Some(of(
            Kind::Window,
            board,
            by,
            format!(
                "has a window that reaches {} over its edge",
                mm(by.max(0.0))
            ),
        )),
        Fault::WindowsOverlap { board, by, .. } => Some(of(
            Kind::Windows,
            board,
            by,
            format!("has two windows that overlap by {}", mm(by)),
        )),
        Fault::OpenCorner { walls, .. } => {
            let corner = walls.map(wall).join("-");
            Some(Wrong {
                kind: Kind::Corner,
                thing: format!("corner {corner}"),
                board: None,
                by: 0.0,
                clause: "is filled by none of the three walls that meet there".into(),
                name: format!("the corner {corner}"),
            })
        }
        _ => None,
    }
}

/// Boards for which the box is too small.
pub(super) fn outgrown(carpentry: &Carpentry) -> Vec<Outgrown> {
    let one = |fault: &Fault| {
        let (board, missing) = match *fault {
            // A strip in the middle of its edge reaches out at both ends.
            Fault::BoardOff { board, beyond, by } => {
                (board, outgrown::towards_end(beyond, 2.0 * by))
            }
            Fault::Window { board, .. } => (board, too_wide(carpentry, board)),
            _ => return None,
        };
        let panel = PanelId::Board(board);
        Some(Outgrown {
            kind: outgrown::Kind::Board,
            thing: things::panel_key(carpentry, panel),
            name: things::panel_name(carpentry, panel),
            missing,
        })
    };
    carpentry.body.faults.iter().filter_map(one).collect()
}

/// By how much the windows of a board are wider than it.
fn too_wide(carpentry: &Carpentry, board: usize) -> [f64; 3] {
    let plan = &carpentry.body.plan.boards[board];
    let Some(panel) = carpentry.body.panel(PanelId::Board(board)) else {
        return [0.0; 3];
    };
    let axes: Vec<usize> = (0..3).filter(|axis| *axis != plan.across).collect();
    let mut missing = [0.0_f64; 3];
    for window in &plan.windows {
        for (side, axis) in axes.iter().enumerate() {
            let wide = window.high[side] - window.low[side] + 2.0 * boards::RIM;
            missing[*axis] = missing[*axis].max(wide - panel.blank[side]);
        }
    }
    missing
}

fn verdict(
    evidence: &Evidence<'_>,
    carpentry: &Carpentry,
    kind: Kind,
    wrong: &[&Wrong],
) -> Verdict {
    let mut names: Vec<String> = wrong.iter().map(|one| one.name.clone()).collect();
    names.dedup();
    let (title, advice) = titled(kind, &names);
    let cause = if kind == Kind::Corner && names.len() > 1 {
        let bare = names.iter().map(|name| name.replace("the corner ", ""));
        format!(
            "The corners {} are filled by none of the walls that meet there.",
            listed(&bare.collect::<Vec<_>>())
        )
    } else {
        let each = wrong.iter();
        sentence(each.map(|one| (one.name.clone(), one.clause.clone())))
    };
    let most = wrong.iter().map(|one| one.by).fold(0.0, f64::max);
    let place = wrong[0].board.map_or_else(
        || {
            let joints = &evidence.design().enclosure.carpentry.edges;
            joints.first().map(|joint| joint.place)
        },
        |board| carpentry.boards[board].place,
    );
    let said = Verdict::stop(title, cause).advice(advice).at(place);
    let said = match kind {
        Kind::Nothing | Kind::Corner => said,
        Kind::Off | Kind::Window | Kind::Windows => said.measured(-1e3 * most, 0.0, "mm"),
    };
    let said = wrong
        .iter()
        .fold(said, |said, one| said.about([&one.thing], 1e3 * one.by));
    let mut boards: Vec<usize> = wrong.iter().filter_map(|one| one.board).collect();
    boards.dedup();
    said.mends(boards::mends(evidence, carpentry, &boards))
        .mends(if kind == Kind::Corner {
            corners(evidence, &carpentry.body.faults)
        } else {
            Vec::new()
        })
        .ladders(movers::easing(evidence))
}

/// Title and advice.
fn titled(kind: Kind, names: &[String]) -> (String, &'static str) {
    let all = if kind == Kind::Corner && names.len() > 2 {
        format!("{} corners", names.len())
    } else {
        capital(&listed(names))
    };
    let (one, many, advice) = match kind {
        Kind::Nothing => (
            "has no room",
            "have no room",
            "measure from the inner face of the wall it starts from, or take it out",
        ),
        Kind::Off => (
            "reaches out of the box",
            "reach out of the box",
            "measure from the inner face of the wall it starts from, or make it shorter",
        ),
        Kind::Window => (
            "is smaller than its window",
            "are smaller than their windows",
            "make the window smaller, so that some 20 mm of board are left around it",
        ),
        Kind::Windows => (
            "has windows that run into one another",
            "have windows that run into one another",
            "move them apart, or make one window of the two",
        ),
        Kind::Corner => (
            "stays open",
            "stay open",
            "let one of the three run through on both of its edges there",
        ),
    };
    let verb = if names.len() == 1 { one } else { many };
    (format!("{all} {verb}"), advice)
}

/// "A cleat reaches 3 mm beyond the top and 3 mm beyond the bottom.": each board once.
fn sentence(clauses: impl Iterator<Item = (String, String)>) -> String {
    let mut known: Vec<(String, Vec<String>)> = Vec::new();
    for (name, clause) in clauses {
        match known.iter_mut().find(|(other, _)| *other == name) {
            Some((_, own)) => own.push(clause),
            None => known.push((name, vec![clause])),
        }
    }
    let said: Vec<String> = known
        .iter()
        .map(|(name, clauses)| format!("{name} {}", listed(clauses)))
        .collect();
    format!("{}.", capital(&said.join("; ")))
}

/// Joints at open corners taken out: each alone, then all.
fn corners(evidence: &Evidence<'_>, faults: &[Fault]) -> Vec<Candidate> {
    let open: Vec<[Wall; 3]> = faults
        .iter()
        .filter_map(|fault| match *fault {
            Fault::OpenCorner { walls, .. } => Some(walls),
            _ => None,
        })
        .collect();
    let said = &evidence.design().enclosure.carpentry.edges;
    let concerned: Vec<(usize, String)> = said
        .iter()
        .enumerate()
        .filter_map(|(index, joint)| {
            let (a, b) = joint.between;
            let (a, b) = (carpentry::wall(a), carpentry::wall(b));
            let is_at = |corner: &[Wall; 3]| corner.contains(&a) && corner.contains(&b);
            let name = format!("{}-{}", wall(a), wall(b));
            open.iter().any(is_at).then_some((index + 1, name))
        })
        .collect();
    let key = |number: usize| Edit::remove(format!("box.joint.{number}"));
    let single = concerned.iter().map(|(number, name)| {
        Candidate::new(format!("joint {name} as the others"), [key(*number)])
    });
    let names: Vec<String> = concerned.iter().map(|(_, name)| name.clone()).collect();
    // From the last one on: those before it keep their numbers.
    let keys: Vec<Edit> = concerned.iter().rev().map(|one| key(one.0)).collect();
    let all = format!("joints {} as the others", listed(&names));
    let all = (keys.len() > 1).then(|| Candidate::new(all, keys));
    single.chain(all).collect()
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
    /// Rebates of two depths leave holes where three walls meet.
    #[test]
    fn each_open_corner_is_named() {
        let found = with(&[
            ("box.joints", "rebated"),
            ("box.joint.1.edge", "left-top"),
            ("box.joint.1.within", "left"),
            ("box.joint.1.kind", "rebate"),
            ("box.joint.1.depth", "10 mm"),
            ("box.joint.2.edge", "right-top"),
            ("box.joint.2.within", "right"),
            ("box.joint.2.kind", "rebate"),
            ("box.joint.2.depth", "10 mm"),
        ])
        .check(CHECK.id, &[Stop]);
        assert_eq!(found[0].title, "4 corners stay open");
        for side in ["left", "right"] {
            for end in ["front", "back"] {
                let named = format!("{end}-{side}-top");
                let cause = &found[0].cause;
                assert!(cause.contains(&named), "{named}: {cause}");
            }
        }
        let mend = found[0].mend.as_ref().expect("both joints can go");
        assert_eq!(mend.edits.len(), 2, "{mend:?}");
    }
}
