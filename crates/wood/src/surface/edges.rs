//! Edges of a surface.

use super::{Surface, SurfaceFace};
use crate::vector::{Vector, dot};

/// Faces that meet at less than this angle stand for one round surface: cos 10°, above the
/// 7.5° between the facets of a rounded edge.
const BEND: f64 = 0.984_807_753;

/// An edge of a surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SurfaceEdge {
    /// Its ends in m.
    pub ends: [Vector; 2],
    /// Normals of the faces on both sides.
    pub normals: [Vector; 2],
    /// Whether the surface only bends there, as round surfaces do: such an edge is seen
    /// only where it bounds what is seen.
    pub bend: bool,
}

impl Surface {
    /// All edges, each once.
    #[must_use]
    pub fn edges(&self) -> Vec<SurfaceEdge> {
        let mut sides: Vec<([usize; 2], bool, usize)> = self
            .faces
            .iter()
            .enumerate()
            .flat_map(|(face, what)| {
                let rings = what.loops.iter();
                rings.flat_map(move |ring| {
                    let pairs = ring.iter().zip(ring.iter().cycle().skip(1));
                    pairs.map(move |(a, b)| ([*a.min(b), *a.max(b)], a > b, face))
                })
            })
            .collect();
        sides.sort_unstable();
        sides
            .chunk_by(|a, b| a.0 == b.0)
            .flat_map(|sides| sides.chunks(2))
            .filter_map(|pair| {
                let [(ends, _, a), (_, _, b)] = pair else {
                    return None;
                };
                Some(self.edge(*ends, &self.faces[*a], &self.faces[*b]))
            })
            .collect()
    }

    fn edge(&self, ends: [usize; 2], a: &SurfaceFace, b: &SurfaceFace) -> SurfaceEdge {
        let normals = [a.plane.normal, b.plane.normal];
        let round = a.side_of.is_some() && a.side_of == b.side_of && self.is_round(a, b);
        SurfaceEdge {
            ends: ends.map(|k| self.vertices[k]),
            normals,
            bend: round || dot(normals[0], normals[1]) > BEND,
        }
    }

    /// Whether two sides of a hole belong to one curve: not at the corner of a rectangle.
    fn is_round(&self, a: &SurfaceFace, b: &SurfaceFace) -> bool {
        dot(a.plane.normal, b.plane.normal) > 1e-9
    }
}
