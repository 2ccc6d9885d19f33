//! Things that reach out of the box, and by how much it is too small for them.

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
