//! What opens on which wall, where the wall ends, and what each is called.

use super::super::{Evidence, things};
use crate::carpentry::{Carpentry, Opening};
use crate::subject::SpotKind;
use wood::Wall;

pub(super) fn openings<'a>(evidence: &'a Evidence<'_>) -> &'a [Opening] {
    &evidence.subject.enclosure.plan.openings
}

/// Lowest and highest corner of each wall, across and up.
pub(super) type Faces = [[[f64; 2]; 2]; 6];

/// Lowest and highest corner of the outer face of each wall on its side of the block.
pub(super) fn faces(evidence: &Evidence<'_>) -> Option<Faces> {
    let body = &evidence.carpentry?.body;
    Some(Wall::ALL.map(|side| {
        let panel = body.wall(side);
        let [u, v] = body.plan.block.frame(side).flat(panel.frame.origin);
        let mut low = [f64::INFINITY; 2];
        let mut high = [f64::NEG_INFINITY; 2];
        for point in panel.edges.iter().flat_map(|edge| edge.outer) {
            for (axis, offset) in [u, v].into_iter().enumerate() {
                low[axis] = low[axis].min(point[axis] + offset);
                high[axis] = high[axis].max(point[axis] + offset);
            }
        }
        [low, high]
    }))
}

/// Lengths across and up a wall as lengths along x, y and z.
pub(super) const fn along_box(side: Wall, [across, up]: [f64; 2]) -> [f64; 3] {
    match side {
        Wall::Front | Wall::Back => [across, 0.0, up],
        Wall::Left | Wall::Right => [0.0, across, up],
        Wall::Top | Wall::Bottom => [across, up, 0.0],
    }
}

/// The table of an opening.
pub(super) fn table(opening: &Opening) -> String {
    match opening.kind {
        SpotKind::Driver(group) => format!("drivers.{}", group + 1),
        SpotKind::Vent => "box.vent".into(),
        SpotKind::Radiator => "box.radiator".into(),
    }
}

/// The key of what is at an opening.
pub(super) fn thing(carpentry: &Carpentry, opening: &Opening) -> String {
    let found = things::part_of(carpentry, &table(opening), opening.index);
    found.map_or_else(
        || things::middle_key(&table(opening), opening.index),
        |index| things::key(carpentry, index),
    )
}

pub(super) fn name(carpentry: &Carpentry, opening: &Opening) -> String {
    let found = things::part_of(carpentry, &table(opening), opening.index);
    found.map_or_else(|| table(opening), |index| things::name(carpentry, index))
}
