//! What nobody placed, laid out in one row that finds no room.

use super::super::resize::{self, Axis};
use super::super::timber::{capital, mm};
use super::super::{Candidate, Evidence, Verdict, things};
use super::walls::{openings, thing};
use crate::carpentry::{Carpentry, Opening, extent};
use crate::subject::SpotKind;
use wood::Wall;

/// Lengths of a wall along its row and across it, in m.
fn room(evidence: &Evidence<'_>, side: Wall) -> [f64; 2] {
    let plan = &evidence.subject.enclosure.plan;
    let block = plan.hull(&crate::vary::Draw::Nominal).block;
    let [width, height] = extent(&block, side);
    [width.max(height), width.min(height)]
}

fn on<'a>(evidence: &'a Evidence<'_>, side: Wall) -> Vec<&'a Opening> {
    let all = openings(evidence).iter();
    all.filter(|opening| opening.wall == side).collect()
}

fn widest(own: &[&Opening]) -> f64 {
    own.iter()
        .map(|opening| opening.diameter)
        .fold(0.0, f64::max)
}

/// Whether nothing on a wall is placed by hand, and its row is longer or wider than the wall.
pub(super) fn is_full(evidence: &Evidence<'_>, side: Wall) -> bool {
    let own = on(evidence, side);
    let [along, across] = room(evidence, side);
    let sum: f64 = own.iter().map(|opening| opening.diameter).sum();
    own.iter().all(|opening| !opening.stated) && (sum > along || widest(&own) > across)
}

/// The box larger along a wall, one way and the other.
pub(super) fn larger(evidence: &Evidence<'_>, side: Wall) -> [Vec<Candidate>; 2] {
    let axes = match side {
        Wall::Front | Wall::Back => [Axis::Width, Axis::Height],
        Wall::Left | Wall::Right => [Axis::Depth, Axis::Height],
        Wall::Top | Wall::Bottom => [Axis::Width, Axis::Depth],
    };
    axes.map(|axis| resize::larger(evidence, axis))
}

/// What is laid out in a row finds no room in it.
pub(super) fn verdict(evidence: &Evidence<'_>, carpentry: &Carpentry, side: Wall) -> Verdict {
    let [along, across] = room(evidence, side);
    let own = on(evidence, side);
    let sum = |drivers_only: bool| -> f64 {
        let is_driver = |opening: &Opening| matches!(opening.kind, SpotKind::Driver(_));
        own.iter()
            .filter(|opening| !drivers_only || is_driver(opening))
            .map(|opening| opening.diameter)
            .sum()
    };
    let widest = widest(&own);
    let cause = format!(
        "Frames and openings in a row on {} take {} of {}, the widest {} of {}.",
        things::wall_name(side),
        mm(sum(false)),
        mm(along),
        mm(widest),
        mm(across)
    );
    let (measured, limit) = if widest >= across {
        (widest, across)
    } else {
        (sum(false), along)
    };
    let only_openings = sum(true) < along && widest < across && sum(true) > 0.0;
    let name = capital(things::wall_name(side));
    let said = if only_openings {
        Verdict::caution(format!("{name} has no room beside the drivers"), cause)
            .advice("put vent or radiator on another wall, place everything by hand, or make the box larger")
    } else {
        Verdict::stop(format!("{name} has no room for what sits in it"), cause)
            .advice("make the box larger, take smaller drivers, or place them by hand")
    };
    let said = own.iter().fold(said, |said, opening| {
        let thing = thing(carpentry, opening);
        said.about([thing], 1e3 * (measured - limit).max(0.0))
    });
    said.measured(1e3 * measured, 1e3 * limit, "mm")
        .ladders(larger(evidence, side))
}
