//! Convex solids bounded by planes.

use crate::vector::Vector;

/// A half space: the points p with normal · p ≤ offset.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// Outwards; of length 1.
    pub normal: Vector,
    /// Distance from the origin along the normal, in m.
    pub offset: f64,
}

/// A convex solid.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Polytope {
    /// Its corners in m.
    pub vertices: Vec<Vector>,
    /// Its faces.
    pub faces: Vec<Face>,
}

/// A face of a convex solid.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// Its plane, outwards.
    pub plane: Plane,
    /// Corners by index, counter-clockwise as seen from outside.
    pub corners: Vec<usize>,
}
