//! Candidates that move things: parts, what sits in a wall, boards; several at once.

use super::things;
use super::timber::{Middle, middles, mm, moved, whole};
use super::{Candidate, Evidence, resize, swap};
use crate::carpentry::{self, Carpentry, PartKind};
use design::{BraceForm, Design, Tolerance};
use wood::Wall;
use wood::vector::{Vector, dot, length, scale};

/// How far something must go in some direction of length 1, in m.
#[derive(Clone, Copy, Debug)]
pub(super) struct Demand {
    pub(super) away: Vector,
    pub(super) by: f64,
}

/// Directions that lean further from an axis than this are not met by going along it.
const ALONG: f64 = 0.2;

/// Moves that meet all demands at once, the shortest first: straight along one axis, and by
/// what each axis asks for.
pub(super) fn steps(demands: &[Demand]) -> Vec<Vector> {
    let mut found: Vec<Vector> = Vec::new();
    for axis in 0..3 {
        for sign in [1.0, -1.0] {
            let mut needed = demands.iter().map(|demand| {
                let along = sign * demand.away[axis];
                (along > ALONG).then(|| demand.by / along)
            });
            let longest = needed.try_fold(0.0_f64, |most, by| Some(most.max(by?)));
            found.extend(longest.map(|by| {
                let mut step = [0.0; 3];
                step[axis] = sign * by;
                step
            }));
        }
    }
    let mut sum = [0.0; 3];
    for demand in demands {
        for (axis, total) in sum.iter_mut().enumerate() {
            let part = demand.away[axis] * demand.by;
            if part.abs() > f64::abs(*total) {
                *total = part;
            }
        }
    }
    let slanted = sum.iter().filter(|part| part.abs() > 2e-4).count() > 1;
    let meets = |demand: &Demand| dot(sum, demand.away) >= demand.by - 1e-9;
    if slanted && demands.iter().all(meets) {
        found.push(sum);
    }
    found.retain(|step| length(*step) > 0.0);
    found.sort_by(|a, b| length(*a).total_cmp(&length(*b)));
    found
}

/// Room beyond the least when something in a wall is moved, in m.
pub(super) const SPARE: f64 = 0.001;

/// A thing by its key, moved by so much, where the design states where it is.
pub(super) fn moves(
    evidence: &Evidence<'_>,
    carpentry: &Carpentry,
    thing: &str,
    by: Vector,
) -> Vec<Candidate> {
    let design = evidence.design();
    if let Some((wall, middle)) = middle(design, carpentry, thing) {
        let frame = &carpentry.body.panels[wall.index()].frame;
        let flat = [dot(by, frame.across), dot(by, frame.up)];
        let spare = flat.map(|part| {
            if part.abs() < 1e-6 {
                0.0
            } else {
                part + SPARE.copysign(part)
            }
        });
        return middle.moved(spare);
    }
    if let Some(index) = numbered(thing, "brace.") {
        return brace(design, carpentry, index, by);
    }
    if thing == "bay" {
        return bay(design, by).into_iter().collect();
    }
    let part = carpentry.parts.iter().find(|part| part.table == thing);
    part.and_then(|part| moved(design, part, by))
        .into_iter()
        .collect()
}

/// Several things moved at once, each by its own measure; nothing where one of them cannot be.
pub(super) fn together(
    evidence: &Evidence<'_>,
    carpentry: &Carpentry,
    all: &[(String, Vector)],
) -> Vec<Candidate> {
    let mut each = all
        .iter()
        .map(|(thing, by)| moves(evidence, carpentry, thing, *by));
    let Some(first) = each.next() else {
        return Vec::new();
    };
    each.fold(first, |sum, next| swap::pairs(&sum, &next))
}

/// The middle of a thing that sits in a wall, with the name it goes by.
pub(super) fn middle(
    design: &Design,
    carpentry: &Carpentry,
    thing: &str,
) -> Option<(Wall, Middle)> {
    let single = format!("{thing}.at");
    let (wall, middle) = middles(design)
        .into_iter()
        .find(|(_, middle)| middle.keys[0] == thing || middle.keys[0] == single)?;
    let index = (0..carpentry.parts.len())
        .find(|index| things::key(carpentry, *index) == thing)
        .filter(|index| carpentry.parts[*index].kind != PartKind::Control);
    let name = index.map_or(middle.name.clone(), |index| things::name(carpentry, index));
    Some((wall, Middle { name, ..middle }))
}

/// The number behind a table's name, from 0.
fn numbered(thing: &str, list: &str) -> Option<usize> {
    let number: usize = thing.strip_prefix(list)?.parse().ok()?;
    number.checked_sub(1)
}

fn brace(design: &Design, carpentry: &Carpentry, index: usize, by: Vector) -> Vec<Candidate> {
    let Some(brace) = design.braces.get(index) else {
        return Vec::new();
    };
    let key = format!("brace.{}.at", index + 1);
    let name = &brace.name.text;
    match &brace.form {
        BraceForm::Frame { parallel, at, .. } => {
            // Measured inwards from the front, the left or the top.
            let step = match carpentry::wall(*parallel) {
                Wall::Front | Wall::Back => by[1],
                Wall::Left | Wall::Right => by[0],
                Wall::Top | Wall::Bottom => -by[2],
            };
            let to = at.si + whole(step);
            if step.abs() < 2e-4 || to < 0.0 {
                return Vec::new();
            }
            let said = |length: f64| resize::lengths(&[length], Tolerance::Unstated);
            let words = format!("{name} {} → {}", said(at.si), said(to));
            vec![Candidate::set(
                words,
                &key,
                resize::lengths(&[to], at.tolerance),
            )]
        }
        BraceForm::Stick { from, at, .. } => {
            let side = carpentry.body.plan.block.frame(carpentry::wall(*from));
            let flat = [dot(by, side.across), dot(by, side.up)];
            let middle = Middle {
                name: name.clone(),
                keys: vec![key],
                at: [at.across.si, at.up.si],
                tolerance: at.across.tolerance,
                place: at.place,
            };
            middle.moved(flat)
        }
    }
}

fn bay(design: &Design, by: Vector) -> Option<Candidate> {
    let bay = design.bay.as_ref()?;
    // The file says width, height, depth; the box has x, y, z.
    let by = [by[0], by[2], by[1]].map(|step| if step.abs() < 2e-4 { 0.0 } else { whole(step) });
    let now = bay.at.map(|value| value.si);
    let to = [0, 1, 2].map(|axis| now[axis] + by[axis]);
    if by == [0.0; 3] || to.iter().any(|length| *length < 0.0) {
        return None;
    }
    let said = |lengths: &[f64; 3]| resize::lengths(lengths, Tolerance::Unstated);
    let words = format!("bay {} → {}", said(&now), said(&to));
    Some(Candidate::set(words, "bay.at", said(&to)))
}

/// Rungs of a ladder that takes something back.
const RUNGS: usize = 6;

/// What narrows the inside taken back step by step: a front or back that leans, a front set
/// back.
pub(super) fn easing(evidence: &Evidence<'_>) -> Vec<Vec<Candidate>> {
    let said = &evidence.design().enclosure.carpentry;
    let lean = |side: &str, value: Option<design::Value>| -> Vec<Candidate> {
        let now = value.map_or(0.0, |value| value.si.to_degrees());
        let rungs = shares().map(|share| (now * share).floor());
        let lower = rungs.filter(|degrees| *degrees < now - 0.5);
        lower
            .map(|degrees| {
                let words = format!("lean of the {side} {now:.0}° → {degrees:.0}°");
                Candidate::set(words, &format!("box.{side}_lean"), format!("{degrees:.0}°"))
            })
            .collect()
    };
    let now = said.setback.map_or(0.0, |value| value.si);
    let rungs = shares().map(|share| (1e3 * now * share).floor() / 1e3);
    let setback = rungs.filter(|length| *length < now - 5e-4).map(|length| {
        let words = format!("setback of the front {} → {}", mm(now), mm(length));
        let text = resize::lengths(&[length], Tolerance::Unstated);
        Candidate::set(words, "box.setback", text)
    });
    vec![
        lean("front", said.front_lean),
        lean("back", said.back_lean),
        setback.collect(),
    ]
}

/// From nearly all to nothing.
fn shares() -> impl Iterator<Item = f64> {
    (0..RUNGS).rev().map(|rung| rung as f64 / RUNGS as f64)
}

/// Smaller and smaller drivers of one group that cover the same range.
pub(super) fn smaller_drivers(evidence: &Evidence<'_>, group: usize) -> Vec<Candidate> {
    let frame = |part: &design::DriverPart| part.frame.or(part.size).map(|length| length.si);
    let Some(now) = frame(&evidence.design().drivers[group].part) else {
        return Vec::new();
    };
    swap::drivers(evidence, group, |part| {
        frame(part).is_some_and(|length| length < now - 1e-3)
    })
    .into_iter()
    .take(3)
    .collect()
}

/// One thing further and further off than it must go: the nearest place that is free may lie
/// behind one that is not.
pub(super) fn further(
    evidence: &Evidence<'_>,
    carpentry: &Carpentry,
    thing: &str,
    by: Vector,
) -> Vec<Candidate> {
    let long = length(by);
    if long < 1e-6 {
        return Vec::new();
    }
    BEYOND
        .into_iter()
        .flat_map(|more| moves(evidence, carpentry, thing, scale(by, 1.0 + more / long)))
        .collect()
}

/// How much further, in m.
const BEYOND: [f64; 6] = [0.0, 0.003, 0.006, 0.010, 0.016, 0.024];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_move_meets_all_demands() {
        let demand = |away, by| Demand { away, by };
        let found = steps(&[
            demand([-1.0, 0.0, 0.0], 0.010),
            demand([-0.8, 0.0, 0.6], 0.004),
        ]);
        // Along x the first asks for more; up is no use to it.
        assert_eq!(found[0], [-0.010, 0.0, 0.0]);
        assert_eq!(found.len(), 2, "{found:?}");
    }

    #[test]
    fn opposite_demands_are_met_by_going_sideways() {
        let demand = |away, by| Demand { away, by };
        let found = steps(&[
            demand([-0.8, 0.6, 0.0], 0.006),
            demand([0.8, 0.6, 0.0], 0.006),
        ]);
        assert!((found[0][1] - 0.010).abs() < 1e-12, "{found:?}");
    }
}
