//! The surface of a panel: plane faces with holes that close without gap or overlap.
//!
//! The pieces of a panel touch in faces that cancel; what is left is merged plane by
//! plane, so that no seam between pieces shows. Round holes are polygons with their
//! corners on the true outline.

mod edges;
mod holes;
mod loops;
mod merge;
mod triangles;

pub use edges::SurfaceEdge;
pub use triangles::Mesh;

use crate::board;
use crate::panel::{Panel, PanelId};
use crate::polytope::{Plane, Polytope};
use crate::vector::{Vector, cross, dot, unit};

/// How far a polygon may lie within the round hole it stands for where nothing else is
/// asked, in m: invisible on paper.
pub const DRAWN_CHORD: f64 = 1e-4;

/// The closed surface of a panel.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Surface {
    /// Its corners in m.
    pub vertices: Vec<Vector>,
    /// Its faces.
    pub faces: Vec<SurfaceFace>,
}

/// A plane face of a surface.
#[derive(Clone, Debug, PartialEq)]
pub struct SurfaceFace {
    /// Its plane, facing out of the wood.
    pub plane: Plane,
    /// Corners by index: first the outline, counter-clockwise as seen from outside, then
    /// what is cut out of it, clockwise.
    pub loops: Vec<Vec<usize>>,
    /// The hole of the panel whose side it is; `None` elsewhere.
    pub side_of: Option<usize>,
}

/// A plane face by its corners.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanarFace {
    /// Its plane, facing out of the wood.
    pub plane: Plane,
    /// Corners in m: first the outline, counter-clockwise as seen from outside, then
    /// what is cut out of it, clockwise.
    pub loops: Vec<Vec<Vector>>,
}

impl Panel {
    /// Its surface; polygons stand at most `chord` (in m) within the round holes they stand
    /// for. Holes of walls that run over an edge or into another hole, which are faults, are
    /// left out.
    #[must_use]
    pub fn surface(&self, chord: f64) -> Surface {
        let cut;
        let (pieces, with_holes) = match self.id {
            PanelId::Board(_) if !holes::all_fit(self) => {
                cut = self.pieces_without_windows();
                (&cut, false)
            }
            _ => (&self.pieces, true),
        };
        let mut surface = merge::surface(pieces);
        if with_holes {
            holes::add(&mut surface, self, chord);
        }
        surface
    }

    /// Its plane faces, coplanar ones merged, round holes to within [`DRAWN_CHORD`].
    #[must_use]
    pub fn faces(&self) -> Vec<PlanarFace> {
        self.surface(DRAWN_CHORD).planar_faces()
    }

    /// Its edges, round holes to within [`DRAWN_CHORD`].
    #[must_use]
    pub fn outline_edges(&self) -> Vec<SurfaceEdge> {
        self.surface(DRAWN_CHORD).edges()
    }

    /// Its surface in triangles, round holes to within `chord` in m.
    #[must_use]
    pub fn mesh(&self, chord: f64) -> Mesh {
        self.surface(chord).mesh()
    }

    fn pieces_without_windows(&self) -> Vec<Polytope> {
        let windows = self.holes.iter().filter_map(|hole| self.prism(hole));
        board::cut_back(&self.pieces, &windows.collect::<Vec<_>>())
    }
}

impl Surface {
    /// Its faces by their corners.
    #[must_use]
    pub fn planar_faces(&self) -> Vec<PlanarFace> {
        let corners = |ring: &Vec<usize>| ring.iter().map(|k| self.vertices[*k]).collect();
        self.faces
            .iter()
            .map(|face| PlanarFace {
                plane: face.plane,
                loops: face.loops.iter().map(corners).collect(),
            })
            .collect()
    }
}

/// Two directions that span a plane, so that with its normal they are right-handed.
fn basis(normal: Vector) -> [Vector; 2] {
    let away = if normal[0].abs() < 0.7 {
        [1.0, 0.0, 0.0]
    } else {
        [0.0, 1.0, 0.0]
    };
    let across = unit(cross(away, normal));
    [across, cross(normal, across)]
}

/// A point in the directions of a plane.
fn flat(basis: &[Vector; 2], point: Vector) -> [f64; 2] {
    [dot(basis[0], point), dot(basis[1], point)]
}
