//! Parts that are put into the box.

use crate::plan::Wall;
use crate::vector::Vector;

/// A part as it is made, in a frame of its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Convex solids that make it up; they may overlap.
    pub solids: Vec<Solid>,
    /// Air that must stay free around or behind it; it goes along when the part is
    /// placed, but not when it is carried.
    pub keep_free: Vec<Solid>,
    /// Heads of the screws that hold it, and the direction in which a screwdriver points
    /// at them, in the frame of the part.
    pub screws: Vec<Screw>,
}

/// A convex solid.
#[derive(Clone, Debug, PartialEq)]
pub enum Solid {
    /// The hull of some points.
    Hull(Vec<Vector>),
    /// A cylinder, a cone or what lies between, of circular section.
    Frustum {
        /// Middle of one end in m.
        from: Vector,
        /// Middle of the other.
        to: Vector,
        /// Radius there in m.
        from_radius: f64,
        /// Radius there.
        to_radius: f64,
    },
}

/// A screw that holds a part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screw {
    /// Its head in m.
    pub head: Vector,
    /// Where the screwdriver points; of length 1.
    pub along: Vector,
}

/// Where a part stands: its frame turned, then moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pose {
    /// Rows of the rotation.
    pub turn: [Vector; 3],
    /// Where the origin of its frame comes to lie, in m.
    pub at: Vector,
}

/// A part in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What it is called.
    pub name: String,
    /// As it is made.
    pub shape: Shape,
    /// Where it stands.
    pub pose: Pose,
    /// The wall in whose hole it sits, and which therefore does not collide with it.
    pub sits_in: Option<Wall>,
}
