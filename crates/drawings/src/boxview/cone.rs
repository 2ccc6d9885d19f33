//! The front of a driver or radiator: surround, cone and cap, laid on its frame.

use crate::role::Role;
use crate::sheet::pen;
use crate::view::{Look, Scene};
use studies::carpentry::{PartKind, PlacedPart};
use wood::Solid;
use wood::vector::{Vector, add, dot, length, scale, sub};

/// Colours from the outside inwards, with radii as shares of the hole's.
const DISCS: [(Role, f64); 3] = [
    (Role::MetalDark, 0.98),
    (Role::Metal, 0.78),
    (Role::MetalDark, 0.3),
];
/// Each disc lies so far, in m, before the one under it.
const APART: f64 = 2e-4;

/// Adds the discs of a part that has a cone; gives their things.
pub(super) fn add_front(scene: &mut Scene, part: &PlacedPart) -> Vec<usize> {
    let coned = matches!(part.kind, PartKind::Driver | PartKind::Radiator);
    let Some((middle, out, hole)) = coned.then(|| front(part)).flatten() else {
        return Vec::new();
    };
    let discs = DISCS.iter().enumerate();
    let things = discs.map(|(i, (role, share))| {
        let thing = scene.thing(Look::Plain(*role), pen::FINE);
        let before = add(middle, scale(out, APART * (i + 1) as f64));
        scene.disc(thing, before, out, share * hole);
        thing
    });
    things.collect()
}

/// Middle of the frame's front, where it looks, and the radius of the hole behind it.
fn front(part: &PlacedPart) -> Option<(Vector, Vector, f64)> {
    let pose = &part.part.pose;
    let placed = |p: &Vector| add(pose.turn.map(|row| dot(row, *p)), pose.at);
    let (frame, behind) = part.part.shape.solids.split_first()?;
    let Solid::Frustum { from, to, .. } = frame else {
        return None;
    };
    let widest = behind.iter().map(|solid| match solid {
        Solid::Frustum {
            from_radius,
            to_radius,
            ..
        } => from_radius.max(*to_radius),
        Solid::Hull(_) => 0.0,
    });
    let hole = widest.fold(0.0, f64::max);
    let way = sub(placed(from), placed(to));
    let thick = length(way);
    (hole > 0.0 && thick > 0.0).then(|| (placed(from), scale(way, 1.0 / thick), hole))
}
