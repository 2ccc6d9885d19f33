//! Faces of pieces become faces of their union.

use super::{Surface, SurfaceFace, basis, flat, loops};
use crate::polytope::{Plane, Polytope};
use crate::vector::{Vector, add, dot, length, scale, sub};
use std::collections::BTreeSet;

/// Corners nearer than this in m are one.
const SAME: f64 = 1e-8;

/// The surface of pieces that may touch but not overlap.
pub(super) fn surface(pieces: &[Polytope]) -> Surface {
    let mut points = Points::default();
    let mut sheets: Vec<Sheet> = Vec::new();
    for piece in pieces {
        let known: Vec<usize> = piece.vertices.iter().map(|v| points.index(*v)).collect();
        for face in &piece.faces {
            let mut ring: Vec<usize> = face.corners.iter().map(|k| known[*k]).collect();
            ring.dedup();
            if ring.len() > 1 && ring.first() == ring.last() {
                ring.pop();
            }
            if ring.len() > 2 {
                lay(&mut sheets, &face.plane, ring);
            }
        }
    }
    let mut faces: Vec<SurfaceFace> = sheets
        .iter()
        .flat_map(|sheet| sheet.merged(&mut points))
        .collect();
    straighten(&points.all, &mut faces);
    heal(&points.all, &mut faces);
    Surface {
        vertices: points.all,
        faces,
    }
}

/// Corners without doubles.
#[derive(Default)]
struct Points {
    all: Vec<Vector>,
}

impl Points {
    fn index(&mut self, point: Vector) -> usize {
        let near = |known: &Vector| (0..3).all(|k| (known[k] - point[k]).abs() < SAME);
        self.all.iter().position(near).unwrap_or_else(|| {
            self.all.push(point);
            self.all.len() - 1
        })
    }
}

/// Faces in one plane, on either side.
struct Sheet {
    plane: Plane,
    /// Rings that face along the plane's normal, counter-clockwise...
    along: Vec<Vec<usize>>,
    /// ...and against it, clockwise.
    against: Vec<Vec<usize>>,
}

fn lay(sheets: &mut Vec<Sheet>, plane: &Plane, ring: Vec<usize>) {
    let same = |sheet: &Sheet, sign: f64| {
        let turned = scale(plane.normal, sign);
        length(sub(sheet.plane.normal, turned)) < 1e-7
            && (sheet.plane.offset - sign * plane.offset).abs() < SAME
    };
    if let Some(sheet) = sheets.iter_mut().find(|sheet| same(sheet, 1.0)) {
        sheet.along.push(ring);
    } else if let Some(sheet) = sheets.iter_mut().find(|sheet| same(sheet, -1.0)) {
        sheet.against.push(ring);
    } else {
        sheets.push(Sheet {
            plane: *plane,
            along: vec![ring],
            against: Vec::new(),
        });
    }
}

impl Sheet {
    fn merged(&self, points: &mut Points) -> Vec<SurfaceFace> {
        if self.along.len() == 1 && self.against.is_empty() {
            return vec![SurfaceFace {
                plane: self.plane,
                loops: self.along.clone(),
                side_of: None,
            }];
        }
        let basis = basis(self.plane.normal);
        let corners = self.corners(points, &basis);
        let flat: Vec<[f64; 2]> = points.all.iter().map(|p| flat(&basis, *p)).collect();
        let [along, against] = [&self.along, &self.against].map(|rings| {
            let outlines = rings
                .iter()
                .map(|ring| Outline::new(ring, &points.all, &corners));
            outlines.collect::<Vec<_>>()
        });
        let mut pieces: Vec<[usize; 2]> = along
            .iter()
            .chain(&against)
            .flat_map(|outline| &outline.pieces)
            .map(|[a, b]| [*a.min(b), *a.max(b)])
            .collect();
        pieces.sort_unstable();
        pieces.dedup();
        let mut up = Vec::new();
        let mut down = Vec::new();
        for [a, b] in pieces {
            let [left, right] = [[a, b], [b, a]].map(|piece| {
                let along = along.iter().any(|ring| ring.has_left(piece, &flat, 1.0));
                let against = against.iter().any(|ring| ring.has_left(piece, &flat, -1.0));
                i32::from(along) - i32::from(against)
            });
            up.extend((left == 1 && right != 1).then_some([a, b]));
            up.extend((right == 1 && left != 1).then_some([b, a]));
            down.extend((left == -1 && right != -1).then_some([b, a]));
            down.extend((right == -1 && left != -1).then_some([a, b]));
        }
        let mut faces = loops::faces(&self.plane, &points.all, up);
        faces.extend(loops::faces(&self.plane.flipped(), &points.all, down));
        faces
    }

    /// All corners, also those where edges cross.
    fn corners(&self, points: &mut Points, basis: &[Vector; 2]) -> Vec<usize> {
        let rings = self.along.iter().chain(&self.against);
        let mut edges: Vec<[usize; 2]> = rings
            .flat_map(|ring| sides(ring))
            .map(|[a, b]| [a.min(b), a.max(b)])
            .collect();
        edges.sort_unstable();
        edges.dedup();
        let mut corners: Vec<usize> = edges.iter().flatten().copied().collect();
        for (k, first) in edges.iter().enumerate() {
            for second in &edges[k + 1..] {
                if let Some(point) = crossing(&points.all, basis, *first, *second) {
                    corners.push(points.index(point));
                }
            }
        }
        corners.sort_unstable();
        corners.dedup();
        corners
    }
}

/// From each corner of a ring to the next.
fn sides(ring: &[usize]) -> impl Iterator<Item = [usize; 2]> + '_ {
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).map(|(a, b)| [*a, *b])
}

/// A convex ring whose sides are cut at every corner that lies on them, so that where rings
/// run along each other they share whole pieces, and no piece of one crosses another.
struct Outline<'a> {
    ring: &'a [usize],
    pieces: BTreeSet<[usize; 2]>,
}

impl<'a> Outline<'a> {
    fn new(ring: &'a [usize], points: &[Vector], corners: &[usize]) -> Self {
        let cut = |side| {
            let stops = stops(points, side, corners);
            let pieces = stops.windows(2).map(|pair| [pair[0], pair[1]]);
            pieces.collect::<Vec<_>>()
        };
        Self {
            ring,
            pieces: sides(ring).flat_map(cut).collect(),
        }
    }

    /// Whether what lies just left of a piece is within; `sign` is −1 for clockwise rings.
    ///
    /// On the outline its own direction tells; away from it the whole piece lies on one
    /// side, and its middle tells. No distance beside the piece has to be chosen, which
    /// would be too long for some sliver.
    fn has_left(&self, [a, b]: [usize; 2], flat: &[[f64; 2]], sign: f64) -> bool {
        let (ahead, back) = if sign > 0.0 {
            ([a, b], [b, a])
        } else {
            ([b, a], [a, b])
        };
        if self.pieces.contains(&ahead) || self.pieces.contains(&back) {
            return !self.pieces.contains(&back);
        }
        let middle = [0, 1].map(|k| 0.5 * (flat[a][k] + flat[b][k]));
        sides(self.ring).all(|[from, to]| {
            let (from, to) = (flat[from], flat[to]);
            let way = [to[0] - from[0], to[1] - from[1]];
            sign * (way[0] * (middle[1] - from[1]) - way[1] * (middle[0] - from[0])) > 0.0
        })
    }
}

/// Where two edges cross within both; `None` where they touch at an end or not at all.
fn crossing(
    points: &[Vector],
    basis: &[Vector; 2],
    first: [usize; 2],
    second: [usize; 2],
) -> Option<Vector> {
    let [a, b] = first.map(|k| flat(basis, points[k]));
    let [c, d] = second.map(|k| flat(basis, points[k]));
    let turn = |p: [f64; 2], q: [f64; 2], r: [f64; 2]| {
        (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])
    };
    let (over_c, over_d) = (turn(a, b, c), turn(a, b, d));
    let (over_a, over_b) = (turn(c, d, a), turn(c, d, b));
    let apart = over_c * over_d < 0.0 && over_a * over_b < 0.0;
    apart.then(|| {
        let share = over_a / (over_a - over_b);
        let [from, to] = first.map(|k| points[k]);
        add(from, scale(sub(to, from), share))
    })
}

/// Corners on an edge from end to end.
fn stops(points: &[Vector], [a, b]: [usize; 2], corners: &[usize]) -> Vec<usize> {
    let mut stops: Vec<(f64, usize)> = corners
        .iter()
        .filter(|corner| **corner != a && **corner != b)
        .filter_map(|corner| on(points, [a, b], *corner).map(|along| (along, *corner)))
        .collect();
    stops.sort_by(|p, q| p.0.total_cmp(&q.0));
    let between = stops.into_iter().map(|(_, corner)| corner);
    core::iter::once(a).chain(between).chain([b]).collect()
}

/// How far along an edge a corner lies on it, as a share; `None` where it lies beside.
fn on(points: &[Vector], [a, b]: [usize; 2], corner: usize) -> Option<f64> {
    let (way, arm) = (sub(points[b], points[a]), sub(points[corner], points[a]));
    let along = dot(way, arm) / dot(way, way);
    let off = length(sub(arm, scale(way, along)));
    (off < SAME && along > 0.0 && along < 1.0).then_some(along)
}

/// Leaves out corners at which no face turns.
fn straighten(points: &[Vector], faces: &mut [SurfaceFace]) {
    let mut turns = vec![false; points.len()];
    for ring in faces.iter().flat_map(|face| &face.loops) {
        let count = ring.len();
        for k in 0..count {
            let [a, b, c] = [(k + count - 1) % count, k, (k + 1) % count].map(|k| ring[k]);
            turns[b] |= on(points, [a, c], b).is_none();
        }
    }
    for ring in faces.iter_mut().flat_map(|face| &mut face.loops) {
        ring.retain(|corner| turns[*corner]);
    }
}

/// Gives every edge the corners of its neighbours that lie on it.
fn heal(points: &[Vector], faces: &mut [SurfaceFace]) {
    let mut used: Vec<usize> = faces
        .iter()
        .flat_map(|face| face.loops.iter().flatten().copied())
        .collect();
    used.sort_unstable();
    used.dedup();
    for ring in faces.iter_mut().flat_map(|face| &mut face.loops) {
        *ring = sides(ring)
            .flat_map(|edge| {
                let mut stops = stops(points, edge, &used);
                stops.pop();
                stops
            })
            .collect();
    }
}
