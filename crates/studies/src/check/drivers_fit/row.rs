//! What nobody placed, laid out in one row that finds no room.

use super::super::resize::{self, Axis};
use super::super::timber::{capital, mm};
use super::super::{Evidence, Verdict, things};
use super::walls::{openings, thing};
use crate::carpentry::{Carpentry, Opening, extent};
use crate::subject::SpotKind;
use wood::Wall;

/// What is laid out in a row finds no room in it.
pub(super) fn verdict(evidence: &Evidence<'_>, carpentry: &Carpentry, side: Wall) -> Verdict {
    let plan = &evidence.subject.enclosure.plan;
    let block = plan.hull(&crate::vary::Draw::Nominal).block;
    let [width, height] = extent(&block, side);
    let (along, across) = (width.max(height), width.min(height));
    let own: Vec<&Opening> = openings(evidence)
        .iter()
        .filter(|opening| opening.wall == side)
        .collect();
    let sum = |drivers_only: bool| -> f64 {
        let is_driver = |opening: &Opening| matches!(opening.kind, SpotKind::Driver(_));
        own.iter()
            .filter(|opening| !drivers_only || is_driver(opening))
            .map(|opening| opening.diameter)
            .sum()
    };
    let widest = own
        .iter()
        .map(|opening| opening.diameter)
        .fold(0.0, f64::max);
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
    let axes = match side {
        Wall::Front | Wall::Back => [Axis::Width, Axis::Height],
        Wall::Left | Wall::Right => [Axis::Depth, Axis::Height],
        Wall::Top | Wall::Bottom => [Axis::Width, Axis::Depth],
    };
    let said = own.iter().fold(said, |said, opening| {
        let thing = thing(carpentry, opening);
        said.about([thing], 1e3 * (measured - limit).max(0.0))
    });
    said.measured(1e3 * measured, 1e3 * limit, "mm")
        .ladders(axes.map(|axis| resize::larger(evidence, axis)))
}
