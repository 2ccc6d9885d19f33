//! Faces of pieces become faces of their union.

use super::{Surface, SurfaceFace, basis, flat, loops};
use crate::polytope::{Plane, Polytope};
use crate::vector::{Vector, add, dot, length, scale, sub};

/// Corners nearer than this in m are one.
const SAME: f64 = 1e-8;

/// How far beside an edge it is asked what lies there, in m.
const BESIDE: f64 = 1e-7;

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
        let pieces = self.split(points, &basis);
        let view = View {
            flat: points.all.iter().map(|p| flat(&basis, *p)).collect(),
        };
        let mut up = Vec::new();
        let mut down = Vec::new();
        for [a, b] in pieces {
            let [left, right] = view.beside(a, b).map(|at| self.side(&view, at));
            up.extend((left == 1 && right != 1).then_some([a, b]));
            up.extend((right == 1 && left != 1).then_some([b, a]));
            down.extend((left == -1 && right != -1).then_some([b, a]));
            down.extend((right == -1 && left != -1).then_some([a, b]));
        }
        let mut faces = loops::faces(&self.plane, &points.all, up);
        faces.extend(loops::faces(&self.plane.flipped(), &points.all, down));
        faces
    }

    /// Which side is wood's outside at a point: 1 along the normal, −1 against it, 0 neither.
    fn side(&self, view: &View, at: [f64; 2]) -> i32 {
        let along = self.along.iter().any(|ring| view.holds(ring, 1.0, at));
        let against = self.against.iter().any(|ring| view.holds(ring, -1.0, at));
        i32::from(along) - i32::from(against)
    }

    /// All edges, cut where they cross or touch, each once.
    fn split(&self, points: &mut Points, basis: &[Vector; 2]) -> Vec<[usize; 2]> {
        let rings = self.along.iter().chain(&self.against);
        let mut edges: Vec<[usize; 2]> = rings
            .flat_map(|ring| {
                let next = ring.iter().cycle().skip(1);
                ring.iter().zip(next).map(|(a, b)| [*a.min(b), *a.max(b)])
            })
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
        let mut pieces: Vec<[usize; 2]> = edges
            .iter()
            .flat_map(|edge| {
                let stops = stops(&points.all, *edge, &corners);
                let pairs: Vec<[usize; 2]> = stops
                    .windows(2)
                    .map(|pair| [pair[0].min(pair[1]), pair[0].max(pair[1])])
                    .collect();
                pairs
            })
            .collect();
        pieces.sort_unstable();
        pieces.dedup();
        pieces
    }
}

/// Corners as seen along the normal of a plane.
struct View {
    flat: Vec<[f64; 2]>,
}

impl View {
    /// Points just left and just right of the middle of an edge.
    fn beside(&self, a: usize, b: usize) -> [[f64; 2]; 2] {
        let (from, to) = (self.flat[a], self.flat[b]);
        let way = [to[0] - from[0], to[1] - from[1]];
        let step = BESIDE / (way[0] * way[0] + way[1] * way[1]).sqrt();
        let middle = [0.5 * (from[0] + to[0]), 0.5 * (from[1] + to[1])];
        [1.0, -1.0].map(|side| {
            [
                middle[0] - side * step * way[1],
                middle[1] + side * step * way[0],
            ]
        })
    }

    /// Whether a convex ring holds a point; `sign` is −1 for clockwise rings.
    fn holds(&self, ring: &[usize], sign: f64, at: [f64; 2]) -> bool {
        let mut pairs = ring.iter().zip(ring.iter().cycle().skip(1));
        pairs.all(|(a, b)| {
            let (a, b) = (self.flat[*a], self.flat[*b]);
            sign * ((b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0])) > 0.0
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
        let next = ring.iter().cycle().skip(1);
        let pairs: Vec<[usize; 2]> = ring.iter().zip(next).map(|(a, b)| [*a, *b]).collect();
        *ring = pairs
            .into_iter()
            .flat_map(|edge| {
                let mut stops = stops(points, edge, &used);
                stops.pop();
                stops
            })
            .collect();
    }
}
