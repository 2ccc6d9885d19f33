//! Holes against edges, joints, boards, and one another.

use super::movers::Demand;
use super::timber::{capital, grown, listed, mm};
use super::{Candidate, Check, Evidence, Verdict, movers, things, tune};
use crate::carpentry::Carpentry;
use design::Design;
use wood::vector::{Vector, add, length, scale};
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

/// What is wrong with one hole.
struct Wrong<'a> {
    /// Index of the hole in the plan.
    index: usize,
    hole: &'a Hole,
    /// How far it must be changed, in m.
    by: f64,
    cause: String,
    /// How its middle is to be moved, across and up, in m.
    shift: Option<[f64; 2]>,
    /// The other thing, where there is one.
    other: Option<String>,
    advice: &'static str,
}

impl Wrong<'_> {
    /// What the hole is for.
    fn thing(&self, carpentry: &Carpentry) -> String {
        things::origin_key(&carpentry.holes[self.index])
    }

    /// Whether two faults are one finding: holes for one thing, or for equal things with the
    /// same in their way.
    fn is_like(&self, other: &Self, carpentry: &Carpentry) -> bool {
        let table = |wrong: &Self| &carpentry.holes[wrong.index].table;
        let alike = self.other == other.other && self.advice == other.advice;
        self.thing(carpentry) == other.thing(carpentry) || alike && table(self) == table(other)
    }
}

fn run(evidence: &Evidence<'_>) -> Vec<Verdict> {
    let Some(carpentry) = evidence.carpentry else {
        return Vec::new();
    };
    let holes = &carpentry.body.plan.holes;
    if holes.is_empty() {
        return Vec::new();
    }
    let design = evidence.design();
    let faults = carpentry.body.faults.iter();
    let mut worst: Vec<Wrong<'_>> = Vec::new();
    for wrong in faults.filter_map(|fault| wrong(design, carpentry, fault)) {
        // Of all holes for one thing with the same in their way, the worst is told.
        let same = |old: &&mut Wrong<'_>| {
            old.thing(carpentry) == wrong.thing(carpentry) && old.other == wrong.other
        };
        match worst.iter_mut().find(same) {
            Some(old) if old.by >= wrong.by => {}
            Some(old) => *old = wrong,
            None => worst.push(wrong),
        }
    }
    if worst.is_empty() {
        let cause = format!(
            "All {} holes lie clear of edges, joints and one another.",
            holes.len()
        );
        return vec![Verdict::good("Holes lie clear", cause)];
    }
    let mut findings: Vec<Vec<Wrong<'_>>> = Vec::new();
    for wrong in worst {
        match findings
            .iter_mut()
            .find(|known| known.iter().any(|one| one.is_like(&wrong, carpentry)))
        {
            Some(known) => known.push(wrong),
            None => findings.push(vec![wrong]),
        }
    }
    findings
        .iter()
        .map(|wrong| verdict(evidence, carpentry, wrong))
        .collect()
}

fn wrong<'a>(design: &Design, carpentry: &'a Carpentry, fault: &Fault) -> Option<Wrong<'a>> {
    let plan = &carpentry.body.plan;
    let named = |index: usize| capital(&of(design, carpentry, index));
    let found = |index: usize, by: f64, cause: String, advice: &'static str| Wrong {
        index,
        hole: &plan.holes[index],
        by,
        cause,
        shift: None,
        other: None,
        advice,
    };
    match *fault {
        Fault::HoleOff {
            hole,
            towards,
            by,
            shift,
        } => {
            let on = things::wall_name(plan.holes[hole].wall);
            let cause = format!(
                "{} reaches {} too far towards {} on {on}: over its edge or a joint.",
                named(hole),
                mm(by),
                things::wall_name(towards)
            );
            let advice = "move it, make it smaller, or make the panel larger";
            Some(Wrong {
                shift,
                ..found(hole, by, cause, advice)
            })
        }
        Fault::HoleBlocked {
            hole,
            by,
            depth,
            shift,
        } => {
            let of = &plan.holes[hole];
            if of.purpose.is_filled() || is_own(carpentry, of, by) {
                return None;
            }
            let cause = format!(
                "{} opens onto {}, which covers {} of it.",
                named(hole),
                things::panel_name(carpentry, by),
                mm(depth)
            );
            Some(Wrong {
                shift,
                other: Some(things::panel_key(carpentry, by)),
                ..found(hole, depth, cause, "move the hole or what is behind it")
            })
        }
        Fault::HolesOverlap { holes, by, away } => {
            // A screw of a wall has gone aside as far as its row lets it: the other has to move.
            let screw = plan.holes[holes[1]].purpose == Purpose::Closing;
            let (holes, away) = if screw {
                ([holes[1], holes[0]], away.map(|part| -part))
            } else {
                (holes, away)
            };
            let cause = format!(
                "{} runs {} into {}.",
                named(holes[1]),
                mm(by),
                of(design, carpentry, holes[0])
            );
            Some(Wrong {
                shift: Some(away.map(|part| part * by)),
                other: Some(things::origin_key(&carpentry.holes[holes[0]])),
                ..found(holes[1], by, cause, "move one of the two")
            })
        }
        Fault::Pocket { hole, by } => {
            let pocket = plan.holes[hole].pocket.unwrap_or(0.0);
            let cause = format!(
                "{} is {} deep, {} more than the wall is thick.",
                named(hole),
                mm(pocket),
                mm(by)
            );
            let advice = "take a thicker wall, or let the part lie on it";
            Some(found(hole, by, cause, advice))
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

/// A hole as a sentence speaks of it.
fn of(design: &Design, carpentry: &Carpentry, index: usize) -> String {
    let hole = &carpentry.body.plan.holes[index];
    let name = things::origin_name(design, carpentry, &carpentry.holes[index]);
    match hole.purpose {
        Purpose::Driver if hole.pocket.is_some() => format!("the pocket for {name}"),
        Purpose::Driver | Purpose::Radiator | Purpose::Vent => format!("the hole for {name}"),
        Purpose::Control => format!("the {}", hole.label),
        Purpose::Bay => "an air hole of the bay".into(),
        Purpose::Fastening if name.contains("the feet") || name.contains("the handle") => {
            format!("a hole for a {}", hole.label)
        }
        Purpose::Fastening => format!("a hole for a {} of {name}", hole.label),
        Purpose::Closing => format!("a hole for a screw of {}", things::wall_name(hole.wall)),
    }
}

fn verdict(evidence: &Evidence<'_>, carpentry: &Carpentry, wrong: &[Wrong<'_>]) -> Verdict {
    let design = evidence.design();
    let mut names: Vec<String> = wrong
        .iter()
        .map(|one| of(design, carpentry, one.index))
        .collect();
    names.dedup();
    let title = if names.len() == 1 {
        format!("{} does not lie clear", capital(&names[0]))
    } else {
        format!("{} do not lie clear", capital(&listed(&names)))
    };
    let causes: Vec<&str> = wrong.iter().map(|one| one.cause.as_str()).collect();
    let most = wrong.iter().map(|one| one.by).fold(0.0, f64::max);
    let first = wrong[0].thing(carpentry);
    let place = movers::middle(design, carpentry, &first).map_or_else(
        || carpentry.holes[wrong[0].index].place,
        |(_, middle)| Some(middle.place),
    );
    let said = Verdict::stop(title, causes.join(" "))
        .measured(-1e3 * most, 0.0, "mm")
        .advice(wrong[0].advice)
        .at(place);
    let said = wrong.iter().fold(said, |said, one| {
        let things = core::iter::once(one.thing(carpentry)).chain(one.other.clone());
        said.about(things, 1e3 * one.by)
    });
    let own = match carpentry.holes[wrong[0].index].table.as_str() {
        "feet" => inset(evidence, most),
        "handle" => spacing(evidence, most),
        "bay" => air_holes(evidence),
        "control" => shallower(evidence, &wrong[0]),
        table => shallower_drivers(design, table, &wrong[0]),
    };
    said.mends(moved(evidence, carpentry, wrong))
        .mends(own)
        .ladders(movers::easing(evidence))
        .mends(vent_tubes(evidence, &first))
        .ladder(grown(evidence, missing(carpentry, wrong)))
}

/// The holes moved off what is in their way, that moved out of theirs.
fn moved(evidence: &Evidence<'_>, carpentry: &Carpentry, wrong: &[Wrong<'_>]) -> Vec<Candidate> {
    let mut things: Vec<(String, Vec<Demand>)> = Vec::new();
    for one in wrong {
        let Some(demand) = demand(carpentry, one) else {
            return Vec::new();
        };
        let thing = one.thing(carpentry);
        match things.iter_mut().find(|(known, _)| *known == thing) {
            Some((_, demands)) => demands.push(demand),
            None => things.push((thing, vec![demand])),
        }
    }
    if let [(thing, demands)] = &things[..] {
        let steps = movers::steps(demands);
        let mut found: Vec<Candidate> = steps
            .into_iter()
            .flat_map(|step| movers::further(evidence, carpentry, thing, step))
            .collect();
        if let ([one], [demand]) = (wrong, &demands[..]) {
            let back = scale(demand.away, -demand.by);
            let other = one.other.as_deref().unwrap_or_default();
            found.extend(movers::further(evidence, carpentry, other, back));
        }
        return found;
    }
    let each = things.into_iter().map(|(thing, demands)| {
        let step = movers::steps(&demands).into_iter().next();
        Some((thing, step?))
    });
    let all: Option<Vec<(String, Vector)>> = each.collect();
    all.map_or_else(Vec::new, |all| movers::together(evidence, carpentry, &all))
}

/// Where to a hole must go.
fn demand(carpentry: &Carpentry, one: &Wrong<'_>) -> Option<Demand> {
    let frame = &carpentry.body.wall(one.hole.wall).frame;
    let shift = one.shift?;
    let way = add(scale(frame.across, shift[0]), scale(frame.up, shift[1]));
    let by = length(way);
    (by > 1e-9).then(|| Demand {
        away: scale(way, 1.0 / by),
        by,
    })
}

/// By how much the box would have to be larger for what reaches too far right, up or back.
fn missing(carpentry: &Carpentry, wrong: &[Wrong<'_>]) -> [f64; 3] {
    wrong.iter().fold([0.0; 3], |most, one| {
        if one.other.is_some() {
            return most;
        }
        let frame = &carpentry.body.wall(one.hole.wall).frame;
        let shift = one.shift.unwrap_or_default();
        let back = add(scale(frame.across, shift[0]), scale(frame.up, shift[1]));
        [0, 1, 2].map(|axis| f64::max(most[axis], back[axis].abs()))
    })
}

/// Feet further in.
fn inset(evidence: &Evidence<'_>, by: f64) -> Option<Candidate> {
    let feet = evidence.design().feet.as_ref()?;
    let inset = (1e3 * (feet.inset.si + by + movers::SPARE)).ceil();
    let words = format!("inset of the feet {} → {inset:.0} mm", mm(feet.inset.si));
    Some(Candidate::set(
        words,
        "feet.inset",
        format!("{inset:.0} mm"),
    ))
}

/// The bolts of the handle closer together.
fn spacing(evidence: &Evidence<'_>, by: f64) -> Option<Candidate> {
    let handle = evidence.design().handle.as_ref()?;
    let closer = (1e3 * (handle.spacing.si - 2.0 * (by + movers::SPARE))).floor();
    (closer > LEAST_SPACING).then(|| {
        let words = format!(
            "spacing of the handle {} → {closer:.0} mm",
            mm(handle.spacing.si)
        );
        Candidate::set(words, "handle.spacing", format!("{closer:.0} mm"))
    })
}

/// A hand wants so much between the bolts of a handle, in mm: common practice, no source.
const LEAST_SPACING: f64 = 80.0;

/// Fewer air holes for the bay.
fn air_holes(evidence: &Evidence<'_>) -> Option<Candidate> {
    let bay = evidence.design().bay.as_ref()?;
    let fewer = bay.holes.checked_sub(1).filter(|holes| *holes >= 2)?;
    let words = format!("{} → {fewer} holes of the bay", bay.holes);
    Some(Candidate::set(words, "bay.holes", fewer.to_string()))
}

/// The control panel let in no deeper than the wall bears.
fn shallower(evidence: &Evidence<'_>, wrong: &Wrong<'_>) -> Option<Candidate> {
    let recess = evidence.design().control.as_ref()?.recess?;
    let less = (1e3 * (recess.si - wrong.by - movers::SPARE)).floor();
    let deep = wrong.hole.pocket.is_some() && less >= 0.0;
    deep.then(|| {
        let words = format!("recess of the panel {} → {less:.0} mm", mm(recess.si));
        Candidate::set(words, "control.recess", format!("{less:.0} mm"))
    })
}

/// Frames laid on the wall instead of let into it.
fn shallower_drivers(design: &Design, table: &str, wrong: &Wrong<'_>) -> Option<Candidate> {
    let group: usize = table.strip_prefix("drivers.")?.parse().ok()?;
    let flush = design.drivers.get(group.checked_sub(1)?)?.flush.value;
    (flush && wrong.hole.pocket.is_some()).then(|| {
        let key = format!("{table}.flush");
        Candidate::set("frames laid on the wall", &key, "false")
    })
}

/// Narrower tubes for a vent.
fn vent_tubes(evidence: &Evidence<'_>, thing: &str) -> Vec<Candidate> {
    let vent = evidence.vent().filter(|_| thing.starts_with("box.vent"));
    vent.map_or_else(Vec::new, |vent| {
        tune::other_tubes(evidence, |diameter| diameter < vent.diameter.si)
    })
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
