//! Convex solids bounded by planes.
//!
//! Made by cutting a larger solid plane by plane, which keeps neighbouring faces
//! on the same corners. A corner within [`TOUCH`] of a plane lies on it; boxes
//! are metres large, so that is a thousand times what doubles lose on the way.

use crate::math;
use crate::vector::{Vector, add, cross, dot, scale, sub, unit};

/// Distance in m below which a point lies on a plane.
pub(crate) const TOUCH: f64 = 1e-9;

/// Half the edge of the cube a solid is cut out of, in m; what still reaches it is unbounded.
const WORLD: f64 = 1e3;

/// A half space: the points p with normal · p ≤ offset.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// Outwards; of length 1.
    pub normal: Vector,
    /// Distance from the origin along the normal, in m.
    pub offset: f64,
}

impl Plane {
    /// The plane through a point; the normal may have any length but zero.
    #[must_use]
    pub fn through(point: Vector, normal: Vector) -> Self {
        let normal = unit(normal);
        Self {
            normal,
            offset: dot(normal, point),
        }
    }

    /// Distance of a point in m, positive outside.
    #[must_use]
    pub fn distance(&self, point: Vector) -> f64 {
        dot(self.normal, point) - self.offset
    }

    /// The plane moved outwards, in m.
    #[must_use]
    pub fn moved(&self, by: f64) -> Self {
        Self {
            normal: self.normal,
            offset: self.offset + by,
        }
    }

    /// The half space on the other side.
    #[must_use]
    pub fn flipped(&self) -> Self {
        Self {
            normal: scale(self.normal, -1.0),
            offset: -self.offset,
        }
    }

    /// The point in which three planes meet; `None` where two are parallel.
    #[must_use]
    pub fn meet(a: &Self, b: &Self, c: &Self) -> Option<Vector> {
        let bc = cross(b.normal, c.normal);
        let det = dot(a.normal, bc);
        (det.abs() > 1e-9).then(|| {
            let sum = add(
                scale(bc, a.offset),
                add(
                    scale(cross(c.normal, a.normal), b.offset),
                    scale(cross(a.normal, b.normal), c.offset),
                ),
            );
            scale(sum, 1.0 / det)
        })
    }
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

impl Polytope {
    /// The upright block between two corners; empty unless `low` is below `high` on every axis.
    #[must_use]
    pub fn block(low: Vector, high: Vector) -> Self {
        if (0..3).any(|axis| high[axis] - low[axis] <= TOUCH) {
            return Self::default();
        }
        let pick = |bit: usize, axis: usize| if bit >> axis & 1 == 1 { high } else { low }[axis];
        let vertices = (0..8)
            .map(|bit| [pick(bit, 0), pick(bit, 1), pick(bit, 2)])
            .collect();
        let face = |axis: usize, up: bool, corners: [usize; 4]| {
            let mut normal = [0.0; 3];
            normal[axis] = if up { 1.0 } else { -1.0 };
            Face {
                plane: Plane {
                    normal,
                    offset: if up { high[axis] } else { -low[axis] },
                },
                corners: corners.to_vec(),
            }
        };
        Self {
            vertices,
            faces: vec![
                face(0, false, [0, 4, 6, 2]),
                face(0, true, [1, 3, 7, 5]),
                face(1, false, [0, 1, 5, 4]),
                face(1, true, [2, 6, 7, 3]),
                face(2, false, [0, 2, 3, 1]),
                face(2, true, [4, 5, 7, 6]),
            ],
        }
    }

    /// The solid within some half spaces, no wider than a kilometre; `None` where it is
    /// empty, flat or unbounded.
    #[must_use]
    pub fn from_planes(planes: &[Plane]) -> Option<Self> {
        let world = Self::block([-WORLD; 3], [WORLD; 3]);
        let cut = world.clip_all(planes)?;
        let bounded = cut
            .vertices
            .iter()
            .all(|vertex| vertex.iter().all(|c| c.abs() < 0.5 * WORLD));
        bounded.then_some(cut)
    }

    /// What lies within a half space; `None` where nothing does.
    #[must_use]
    pub fn clip(&self, plane: &Plane) -> Option<Self> {
        let heights: Vec<f64> = self.vertices.iter().map(|v| plane.distance(*v)).collect();
        if heights.iter().all(|h| *h >= -TOUCH) {
            return None;
        }
        if heights.iter().all(|h| *h <= TOUCH) {
            return Some(self.clone());
        }
        Some(Cut::new(self, heights).finish(plane))
    }

    /// What lies within all of some half spaces; `None` where nothing does.
    #[must_use]
    pub fn clip_all<'a>(&self, planes: impl IntoIterator<Item = &'a Plane>) -> Option<Self> {
        let mut rest = self.clone();
        for plane in planes {
            if rest.vertices.iter().all(|v| plane.distance(*v) <= TOUCH) {
                continue;
            }
            rest = rest.clip(plane)?;
        }
        (!rest.faces.is_empty()).then_some(rest)
    }

    /// Volume in m³.
    #[must_use]
    pub fn volume(&self) -> f64 {
        self.tetrahedra().map(|(_, volume)| volume).sum()
    }

    /// Centre of its volume in m; the origin where it is empty.
    #[must_use]
    pub fn centroid(&self) -> Vector {
        let (moment, volume) = self
            .tetrahedra()
            .fold(([0.0; 3], 0.0), |(moment, sum), (centre, volume)| {
                (add(moment, scale(centre, volume)), sum + volume)
            });
        if volume > 0.0 {
            scale(moment, 1.0 / volume)
        } else {
            moment
        }
    }

    /// Centre and volume of the tetrahedra from one corner to the triangles of the faces.
    fn tetrahedra(&self) -> impl Iterator<Item = (Vector, f64)> + '_ {
        let apex = self.vertices.first().copied().unwrap_or_default();
        self.faces.iter().flat_map(move |face| {
            let at = |k: usize| self.vertices[face.corners[k]];
            (2..face.corners.len()).map(move |k| {
                let (a, b, c) = (at(0), at(k - 1), at(k));
                let volume = dot(sub(a, apex), cross(sub(b, apex), sub(c, apex))) / 6.0;
                (scale(add(add(a, b), add(c, apex)), 0.25), volume)
            })
        })
    }

    /// Lowest and highest corner of the upright box around it, in m; zero where it is empty.
    #[must_use]
    pub fn bounds(&self) -> [Vector; 2] {
        bounds(self.vertices.iter().copied()).unwrap_or_default()
    }

    /// Whether a point lies in it or within 1 nm of it.
    #[must_use]
    pub fn contains(&self, point: Vector) -> bool {
        !self.faces.is_empty()
            && self
                .faces
                .iter()
                .all(|face| face.plane.distance(point) <= TOUCH)
    }

    /// The part common with another convex solid; `None` where they at most touch.
    #[must_use]
    pub fn intersection(&self, other: &Self) -> Option<Self> {
        let [low, high] = self.bounds();
        let [from, to] = other.bounds();
        let apart = (0..3).any(|k| low[k] >= to[k] - TOUCH || from[k] >= high[k] - TOUCH);
        if apart {
            return None;
        }
        self.clip_all(other.faces.iter().map(|face| &face.plane))
    }

    /// Convex pieces of what lies outside another convex solid.
    #[must_use]
    pub fn minus(&self, other: &Self) -> Vec<Self> {
        if self.intersection(other).is_none() {
            return vec![self.clone()];
        }
        let mut pieces = Vec::new();
        let mut rest = Some(self.clone());
        for face in &other.faces {
            let Some(part) = rest else { break };
            pieces.extend(part.clip(&face.plane.flipped()));
            rest = part.clip(&face.plane);
        }
        pieces
    }
}

/// Lowest and highest corner of the upright box around some points.
pub(crate) fn bounds(points: impl IntoIterator<Item = Vector>) -> Option<[Vector; 2]> {
    points.into_iter().fold(None, |so_far, p| {
        let [low, high] = so_far.unwrap_or([p, p]);
        Some([
            [low[0].min(p[0]), low[1].min(p[1]), low[2].min(p[2])],
            [high[0].max(p[0]), high[1].max(p[1]), high[2].max(p[2])],
        ])
    })
}

/// A solid while a plane cuts it.
struct Cut<'a> {
    from: &'a Polytope,
    /// Of its corners above the plane, in m.
    heights: Vec<f64>,
    vertices: Vec<Vector>,
    /// Edges that cross the plane, lower index first, and the corner that is there now.
    crossings: Vec<([usize; 2], usize)>,
}

impl<'a> Cut<'a> {
    fn new(from: &'a Polytope, heights: Vec<f64>) -> Self {
        Self {
            from,
            heights,
            vertices: from.vertices.clone(),
            crossings: Vec::new(),
        }
    }

    fn finish(mut self, plane: &Plane) -> Polytope {
        let from = self.from;
        let mut faces: Vec<Face> = from
            .faces
            .iter()
            .filter_map(|face| self.face(face))
            .collect();
        faces.extend(self.cap(&faces, plane));
        compact(&self.vertices, faces)
    }

    /// What is left of a face.
    fn face(&mut self, face: &Face) -> Option<Face> {
        let inside = |corner: &usize| self.heights[*corner] < -TOUCH;
        if !face.corners.iter().any(inside) {
            return None;
        }
        let count = face.corners.len();
        let mut corners = Vec::with_capacity(count + 1);
        for k in 0..count {
            let (a, b) = (face.corners[k], face.corners[(k + 1) % count]);
            if self.heights[a] <= TOUCH {
                corners.push(a);
            }
            let (above, below) = (
                self.heights[a].max(self.heights[b]),
                self.heights[a].min(self.heights[b]),
            );
            if above > TOUCH && below < -TOUCH {
                corners.push(self.crossing(a, b));
            }
        }
        (corners.len() >= 3).then_some(Face {
            plane: face.plane,
            corners,
        })
    }

    /// The corner where an edge crosses the plane.
    fn crossing(&mut self, a: usize, b: usize) -> usize {
        let edge = [a.min(b), a.max(b)];
        if let Some((_, corner)) = self.crossings.iter().find(|(known, _)| *known == edge) {
            return *corner;
        }
        let [low, high] = edge.map(|corner| self.from.vertices[corner]);
        let [h_low, h_high] = edge.map(|corner| self.heights[corner]);
        let along = h_low / (h_low - h_high);
        self.vertices.push(add(low, scale(sub(high, low), along)));
        let corner = self.vertices.len() - 1;
        self.crossings.push((edge, corner));
        corner
    }

    /// The new face in the plane, its corners sorted around their middle.
    fn cap(&self, faces: &[Face], plane: &Plane) -> Option<Face> {
        let old = self.heights.len();
        let on = |corner: &usize| *corner >= old || self.heights[*corner].abs() <= TOUCH;
        let mut corners: Vec<usize> = faces
            .iter()
            .flat_map(|face| face.corners.iter().copied().filter(on))
            .collect();
        corners.sort_unstable();
        corners.dedup();
        if corners.len() < 3 {
            return None;
        }
        let middle = scale(
            corners
                .iter()
                .fold([0.0; 3], |sum, k| add(sum, self.vertices[*k])),
            1.0 / corners.len() as f64,
        );
        let across = unit(sub(self.vertices[corners[0]], middle));
        let up = cross(plane.normal, across);
        let angle = |corner: usize| {
            let arm = sub(self.vertices[corner], middle);
            math::atan2(dot(arm, up), dot(arm, across))
        };
        let mut sorted: Vec<(f64, usize)> = corners.into_iter().map(|k| (angle(k), k)).collect();
        sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
        Some(Face {
            plane: *plane,
            corners: sorted.into_iter().map(|(_, corner)| corner).collect(),
        })
    }
}

/// The solid of some faces with the corners that none uses left out.
fn compact(vertices: &[Vector], faces: Vec<Face>) -> Polytope {
    let mut place: Vec<Option<usize>> = vec![None; vertices.len()];
    let mut kept = Vec::with_capacity(vertices.len());
    let faces = faces
        .into_iter()
        .map(|face| Face {
            plane: face.plane,
            corners: face
                .corners
                .into_iter()
                .map(|corner| {
                    *place[corner].get_or_insert_with(|| {
                        kept.push(vertices[corner]);
                        kept.len() - 1
                    })
                })
                .collect(),
        })
        .collect();
    Polytope {
        vertices: kept,
        faces,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(a: f64, b: f64) {
        assert!((a - b).abs() < 1e-12, "{a} against {b}");
    }

    #[test]
    fn a_block_is_its_three_lengths() {
        let block = Polytope::block([0.1, 0.2, 0.3], [0.4, 0.6, 0.8]);
        close(block.volume(), 0.3 * 0.4 * 0.5);
        assert_eq!(block.bounds(), [[0.1, 0.2, 0.3], [0.4, 0.6, 0.8]]);
        for (centre, wanted) in block.centroid().into_iter().zip([0.25, 0.4, 0.55]) {
            close(centre, wanted);
        }
        assert!(block.contains([0.2, 0.3, 0.4]) && !block.contains([0.2, 0.3, 0.81]));
    }

    #[test]
    fn a_corner_cut_off_takes_a_sixth_of_its_cube() {
        let block = Polytope::block([0.0; 3], [1.0; 3]);
        let plane = Plane::through([0.5, 0.0, 0.0], [-1.0, -1.0, -1.0]);
        let cut = block.clip(&plane).unwrap();
        close(cut.volume(), 1.0 - 0.125 / 6.0);
        assert_eq!(cut.faces.len(), 7);
        let corner = block.clip(&plane.flipped()).unwrap();
        close(corner.volume(), 0.125 / 6.0);
    }

    #[test]
    fn a_plane_along_a_face_adds_none() {
        let block = Polytope::block([0.0; 3], [1.0; 3]);
        let face = Plane::through([1.0, 0.0, 0.0], [1.0, 0.0, 0.0]);
        assert_eq!(block.clip(&face).unwrap().faces.len(), 6);
        assert!(block.clip(&face.flipped()).is_none());
    }

    #[test]
    fn a_plane_through_two_edges_halves_a_block() {
        let block = Polytope::block([0.0; 3], [1.0; 3]);
        let half = block
            .clip(&Plane::through([0.5; 3], [1.0, -1.0, 0.0]))
            .unwrap();
        close(half.volume(), 0.5);
        assert_eq!((half.faces.len(), half.vertices.len()), (5, 6));
    }

    #[test]
    fn planes_that_close_nothing_make_no_solid() {
        let block = Polytope::block([0.0; 3], [1.0; 3]);
        let planes: Vec<Plane> = block.faces.iter().map(|face| face.plane).collect();
        assert!(Polytope::from_planes(&planes[..5]).is_none());
        close(Polytope::from_planes(&planes).unwrap().volume(), 1.0);
    }

    #[test]
    fn what_is_taken_out_and_what_is_left_make_the_whole() {
        let block = Polytope::block([0.0; 3], [1.0; 3]);
        let other = Polytope::block([0.25, 0.5, -1.0], [0.75, 2.0, 0.5]);
        let rest: f64 = block.minus(&other).iter().map(Polytope::volume).sum();
        close(rest + block.intersection(&other).unwrap().volume(), 1.0);
    }
}
