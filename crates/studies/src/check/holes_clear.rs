//! Holes against edges, joints, boards, and one another.

use super::timber::{Middle, capital, middles, mm};
use super::{Candidate, Check, Edit, Evidence, Verdict, drivers_fit};
use crate::carpentry::Carpentry;
use crate::words::wall;
use physics::math::hypot;
use wood::{BoardKind, Fault, Hole, PanelId, Purpose};

pub(super) const CHECK: Check = Check {
    id: "holes-clear",
    title: "Holes in the panels",
    what: "Whether every hole and every pocket lies on the flat of its panel, clear of joints, braces \
and other holes, with wood left under pockets.",
    why: "A hole over a joint opens the box along the glue line, and one over a brace ends on the \
brace's edge. Both are seen when the drill is through.",
    limits: "As drawn, without the tolerances of drilling. Frames that overlap on the outside are told \
under drivers-fit. How strong a narrow bridge between two holes is, is not judged.",
    bad: "a 93 mm hole whose edge lies 5 mm from the edge of a 12 mm panel",
    good: "the same hole 25 mm from the edge",
    sources: &["common practice, no source"],
    run,
};

/// Room beyond the least when a hole is moved, in m.
const SPARE: f64 = 0.001;

/// What is wrong with one hole.
struct Wrong<'a> {
    hole: &'a Hole,
    /// How far it must be changed, in m.
    by: f64,
    cause: String,
    /// How its middle is to be moved, across and up, in m.
    shift: Option<[f64; 2]>,
    advice: &'static str,
}

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let holes = &carpentry.body.plan.holes;
    if holes.is_empty() {
        return Vec::new();
    }
    let middles = middles(evidence.design());
    let told = drivers_fit::at_fault(evidence);
    let mut seen: Vec<(usize, Wrong<'_>)> = Vec::new();
    for wrong in carpentry
        .body
        .faults
        .iter()
        .filter_map(|fault| wrong(carpentry, fault))
    {
        let owner = owner(&middles, wrong.hole);
        let at = owner.map_or(wrong.hole.at, |owner| owner.1.at);
        let is_told = told.iter().any(|(wall, place)| {
            *wall == wrong.hole.wall && hypot(place[0] - at[0], place[1] - at[1]) < 1e-6
        });
        if is_told {
            continue;
        }
        // Screws and pockets of one thing are one finding: the worst of them.
        let key = owner.map_or(usize::MAX, |owner| owner.0);
        let known = seen.iter_mut().find(|(other, old)| {
            *other == key && (key != usize::MAX || old.hole.label == wrong.hole.label)
        });
        match known {
            Some((_, old)) if old.by >= wrong.by => {}
            Some(old) => old.1 = wrong,
            None => seen.push((key, wrong)),
        }
    }
    if seen.is_empty() && told.is_empty() {
        let cause = format!(
            "All {} holes lie clear of edges, joints and one another.",
            holes.len()
        );
        return vec![Verdict::good("Holes lie clear", cause)];
    }
    let said = |(key, wrong): &(usize, Wrong<'_>)| {
        let middle = middles.get(*key).map(|(_, middle)| middle);
        verdict(wrong, middle, evidence)
    };
    seen.iter().map(said).collect()
}

fn wrong<'a>(carpentry: &'a Carpentry, fault: &Fault) -> Option<Wrong<'a>> {
    let plan = &carpentry.body.plan;
    let name = |hole: &Hole| format!("The hole for {} in the {}", of(hole), wall(hole.wall));
    match *fault {
        Fault::HoleOff {
            hole,
            towards,
            by,
            shift,
        } => {
            let hole = &plan.holes[hole];
            let towards = wall(towards);
            Some(Wrong {
                hole,
                by,
                cause: format!(
                    "{} reaches {} too far towards the {towards}: over its edge or a joint.",
                    name(hole),
                    mm(by)
                ),
                shift,
                advice: "move it, make it smaller, or make the panel larger",
            })
        }
        Fault::HoleBlocked {
            hole,
            by,
            depth,
            shift,
        } => {
            let hole = &plan.holes[hole];
            if hole.purpose == Purpose::Fastening || is_own(carpentry, hole, by) {
                return None;
            }
            let behind = match by {
                PanelId::Wall(side) => format!("the {}", wall(side)),
                PanelId::Board(index) => plan.boards[index].name.clone(),
            };
            Some(Wrong {
                hole,
                by: depth,
                cause: format!(
                    "{} opens onto {behind}, which covers {} of it.",
                    name(hole),
                    mm(depth)
                ),
                shift,
                advice: "move the hole or what is behind it",
            })
        }
        Fault::HolesOverlap { holes, by, away } => {
            let [first, second] = holes.map(|hole| &plan.holes[hole]);
            Some(Wrong {
                hole: second,
                by,
                cause: format!(
                    "{} runs {} into that for {}.",
                    name(second),
                    mm(by),
                    of(first)
                ),
                shift: Some(away.map(|part| part * by)),
                advice: "move one of the two",
            })
        }
        Fault::Pocket { hole, by } => {
            let hole = &plan.holes[hole];
            let pocket = hole.pocket.unwrap_or(0.0);
            Some(Wrong {
                hole,
                by,
                cause: format!(
                    "{} is {} deep, {} more than the wall is thick.",
                    name(hole).replacen("hole", "pocket", 1),
                    mm(pocket),
                    mm(by)
                ),
                shift: None,
                advice: "take a thicker wall, or let the part lie on it",
            })
        }
        _ => None,
    }
}

/// Whether a board is there for the hole: the recess around a control panel, the walls of a bay.
fn is_own(carpentry: &Carpentry, hole: &Hole, by: PanelId) -> bool {
    let PanelId::Board(index) = by else {
        return false;
    };
    matches!(
        (hole.purpose, carpentry.body.plan.boards[index].kind),
        (Purpose::Control, BoardKind::RecessWall) | (Purpose::Bay, BoardKind::BayWall)
    )
}

/// What a hole is for, in words.
fn of(hole: &Hole) -> String {
    match hole.purpose {
        Purpose::Driver | Purpose::Control | Purpose::Bay | Purpose::Fastening => {
            format!("the {}", hole.label)
        }
        Purpose::Radiator => "the passive radiator".into(),
        Purpose::Vent => "the vent".into(),
    }
    .replace("the the ", "the ")
}

/// What a hole belongs to, of all whose middle is stated: that at the same place, or for
/// screws the nearest on the wall.
fn owner<'a>(middles: &'a [(wood::Wall, Middle)], hole: &Hole) -> Option<(usize, &'a Middle)> {
    let reach = match hole.purpose {
        Purpose::Fastening => f64::INFINITY,
        _ => 1e-6,
    };
    let here = middles
        .iter()
        .enumerate()
        .filter(|(_, (wall, _))| *wall == hole.wall)
        .map(|(index, (_, middle))| {
            let off = [0, 1].map(|axis| middle.at[axis] - hole.at[axis]);
            (index, middle, hypot(off[0], off[1]))
        });
    here.filter(|(_, _, off)| *off <= reach)
        .min_by(|a, b| a.2.total_cmp(&b.2))
        .map(|(index, middle, _)| (index, middle))
}

fn verdict(wrong: &Wrong<'_>, middle: Option<&Middle>, evidence: &Evidence<'_>) -> Verdict {
    let title = format!(
        "{} does not lie clear",
        capital(&format!("the hole for {}", of(wrong.hole)))
    );
    let said = Verdict::stop(title, wrong.cause.clone())
        .measured(-1e3 * wrong.by, 0.0, "mm")
        .advice(wrong.advice);
    let foot = wrong.hole.label == "foot screw";
    if let (true, Some(feet)) = (foot, &evidence.design().feet) {
        let inset = (1e3 * (feet.inset.si + wrong.by + SPARE)).ceil();
        let words = format!("inset of the feet {} → {inset:.0} mm", mm(feet.inset.si));
        let further = Candidate::new(words, [Edit::set("feet.inset", format!("{inset:.0} mm"))]);
        return said.at(feet.place).mends([further]);
    }
    let Some(middle) = middle else {
        return said;
    };
    let moved = wrong.shift.map(|shift| {
        let spare = |part: f64| {
            if part.abs() < 1e-6 {
                0.0
            } else {
                part + SPARE.copysign(part)
            }
        };
        middle.moved(shift.map(spare))
    });
    said.at(middle.place).mends(moved.into_iter().flatten())
}

#[cfg(test)]
mod tests {
    use super::super::probe::{PANEL, check, with};
    use super::CHECK;
    use crate::check::Severity::{Good, Stop};

    #[test]
    fn holes_keep_off_joints_braces_and_one_another() {
        check(CHECK.id, &[], &[Good]);
        check(CHECK.id, PANEL, &[Good]);
        // A panel 140 mm wide whose middle is 60 mm from the edge.
        let off = with(PANEL).with(&[("control.at", "60 x 180 mm")]);
        let found = off.check(CHECK.id, &[Stop]);
        assert!(found[0].mend.is_some(), "{found:#?}");
        let handle = [
            ("handle.on", "back"),
            ("handle.at", "200 x 180 mm"),
            ("handle.spacing", "100 mm"),
            ("handle.bolt", "5 mm"),
        ];
        let found = with(PANEL).with(&handle).check(CHECK.id, &[Stop]);
        assert!(found[0].cause.contains("runs"), "{found:#?}");
    }

    #[test]
    fn a_driver_does_not_open_onto_a_brace() {
        let brace = with(&[
            ("brace.1.name", "across"),
            ("brace.1.parallel", "left"),
            ("brace.1.at", "120 mm"),
            ("brace.1.window", "100 x 100 mm"),
        ]);
        let found = brace.check(CHECK.id, &[Stop]);
        assert!(found[0].cause.contains("across"), "{found:#?}");
    }
}
