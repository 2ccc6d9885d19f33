//! Things that reach out of the box, and by how much it is too small for them.

use super::Evidence;
use wood::Wall;

/// A kind of thing that may reach out of the box.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    Frame,
    Part,
    Board,
    Hole,
}

/// Something that reaches out of the box.
#[derive(Clone, Debug)]
pub(super) struct Outgrown {
    pub(super) kind: Kind,
    /// Its key.
    pub(super) thing: String,
    /// As a sentence speaks of it.
    pub(super) name: String,
    /// By how much the box is too small for it along x, y and z, in m.
    pub(super) missing: [f64; 3],
}

impl Outgrown {
    /// The most that is missing in any direction, in m.
    pub(super) fn most(&self) -> f64 {
        self.missing.into_iter().fold(0.0, f64::max)
    }
}

/// What is missing towards a wall along its axis; nothing towards those that places are
/// measured from.
pub(super) const fn towards_end(wall: Wall, by: f64) -> [f64; 3] {
    match wall {
        Wall::Right => [by, 0.0, 0.0],
        Wall::Back => [0.0, by, 0.0],
        Wall::Top => [0.0, 0.0, by],
        Wall::Left | Wall::Front | Wall::Bottom => [0.0; 3],
    }
}

/// A bay this near to a wall ends at it, in m.
const CLOSE: f64 = 1e-3;

/// How far a bay reaches into the right side, the back and the top, in m; nothing where the box
/// has none.
pub(super) fn bay(evidence: &Evidence<'_>) -> Option<[f64; 3]> {
    let bay = evidence.design().bay.as_ref()?;
    let size = [bay.size.width.si, bay.size.depth.si, bay.size.height.si];
    // The file says width, height, depth; the box has x, y, z.
    let at = [bay.at[0].si, bay.at[2].si, bay.at[1].si];
    let [width, height, depth] = evidence.build.enclosure.inside;
    let inside = [width, depth, height];
    Some([0, 1, 2].map(|axis| {
        let beyond = at[axis] + size[axis] - inside[axis];
        if beyond > CLOSE { beyond } else { 0.0 }
    }))
}
