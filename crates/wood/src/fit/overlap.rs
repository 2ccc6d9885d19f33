//! Overlap of two convex solids: the shortest move that parts them.
//!
//! The Minkowski difference is enclosed from within by a growing polytope, whose closest face
//! is pushed outwards until it lies on the surface (the expanding polytope of van den Bergen,
//! key `van-den-bergen-2001`). Every direction tried gives a move that parts the solids, so the
//! answer is never too short, however rounding falls.

use super::convex::Convex;
use crate::vector::{Vector, cross, dot, length, scale, sub, unit};

/// Faces pushed outwards at most.
const STEPS: usize = 160;
/// Error of the depth that is good enough, in m.
const CLOSE_ENOUGH: f64 = 1e-8;
/// Distances below this are rounding, in m.
const ROUNDING: f64 = 1e-12;

/// How far `a` must move, and in which direction, to be clear of `b`, which it overlaps. The
/// direction has length 1; the distance is negative where they do not overlap.
pub(crate) fn overlap(a: &Convex, b: &Convex) -> (f64, Vector) {
    let mut hull = Hull::around(a, b);
    hull.expand(|least, face| face >= least - CLOSE_ENOUGH);
    let (depth, out) = hull.best;
    (depth, scale(out, -1.0))
}

/// Whether two solids overlap by more than a depth: sooner known than how far.
pub(crate) fn overlaps_by(a: &Convex, b: &Convex, depth: f64) -> bool {
    if a.block_overlap(b) <= depth {
        return false;
    }
    let mut hull = Hull::around(a, b);
    hull.expand(|least, face| least <= depth || face > depth);
    hull.best.0 > depth
}

/// How far `a` must move along a direction of length 1 to lie wholly beyond `b`.
pub(crate) fn exit(a: &Convex, b: &Convex, along: Vector) -> f64 {
    b.reach(along) + a.reach(scale(along, -1.0))
}

struct Hull<'a> {
    a: &'a Convex,
    b: &'a Convex,
    points: Vec<Vector>,
    faces: Vec<Face>,
    /// Least reach of the difference found, and the direction of it.
    best: (f64, Vector),
}

#[derive(Clone, Copy)]
struct Face {
    corners: [usize; 3],
    normal: Vector,
    distance: f64,
    done: bool,
}

impl<'a> Hull<'a> {
    /// A tetrahedron of four points of the difference; faces of length zero are left out
    /// where it is flat.
    fn around(a: &'a Convex, b: &'a Convex) -> Self {
        let mut hull = Self {
            a,
            b,
            points: Vec::new(),
            faces: Vec::new(),
            best: (f64::INFINITY, [1.0, 0.0, 0.0]),
        };
        for i in 0..3 {
            let mut along = [0.0; 3];
            for side in [-1.0, 1.0] {
                along[i] = side;
                hull.push(along);
            }
        }
        let axis = (0..3).max_by(|i, j| hull.width(*i).total_cmp(&hull.width(*j)));
        let axis = axis.unwrap_or(0);
        let (p, q) = (hull.points[2 * axis], hull.points[2 * axis + 1]);
        let along = unit(sub(q, p));
        let (first, second) = across(along);
        let off = |point: Vector| length(cross(sub(point, p), along));
        let r = hull.furthest(
            &[first, second, scale(first, -1.0), scale(second, -1.0)],
            off,
        );
        let normal = unit(cross(sub(q, p), sub(r, p)));
        let off = |point: Vector| dot(sub(point, p), normal).abs();
        let s = hull.furthest(&[normal, scale(normal, -1.0)], off);
        hull.points = vec![p, q, r, s];
        let inwards = dot(sub(s, p), normal) > 0.0;
        let corners = if inwards {
            [[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]]
        } else {
            [[0, 1, 2], [0, 3, 1], [1, 3, 2], [2, 3, 0]]
        };
        for corners in corners {
            hull.face(corners);
        }
        hull
    }

    /// Pushes the closest face outwards until enough is known of the least reach found and the
    /// distance of the closest face.
    fn expand(&mut self, known: impl Fn(f64, f64) -> bool) {
        for _ in 0..STEPS {
            let Some((index, face)) = self.closest() else {
                break;
            };
            if known(self.best.0, face.distance) {
                break;
            }
            let point = self.push(face.normal);
            if dot(point, face.normal) - face.distance <= ROUNDING {
                self.faces[index].done = true;
            } else {
                self.grow(point);
            }
        }
    }

    fn width(&self, axis: usize) -> f64 {
        length(sub(self.points[2 * axis], self.points[2 * axis + 1]))
    }

    fn furthest(&mut self, directions: &[Vector], off: impl Fn(Vector) -> f64) -> Vector {
        let found: Vec<Vector> = directions.iter().map(|d| self.push(*d)).collect();
        let best = found.into_iter().max_by(|p, q| off(*p).total_cmp(&off(*q)));
        best.expect("there is at least one direction")
    }

    /// The furthest point of the difference along a direction, whose reach is kept if it is
    /// the least.
    fn push(&mut self, along: Vector) -> Vector {
        let point = sub(self.a.support(along), self.b.support(scale(along, -1.0)));
        let reach = dot(point, along);
        if reach < self.best.0 - ROUNDING && length(along) > 0.5 {
            self.best = (reach, along);
        }
        if self.faces.is_empty() {
            self.points.push(point);
        }
        point
    }

    fn face(&mut self, corners: [usize; 3]) {
        let [p, q, r] = corners.map(|i| self.points[i]);
        let normal = cross(sub(q, p), sub(r, p));
        let flat = length(normal) <= ROUNDING * ROUNDING;
        let normal = unit(normal);
        self.faces.push(Face {
            corners,
            normal,
            distance: dot(p, normal),
            done: flat,
        });
    }

    fn closest(&self) -> Option<(usize, Face)> {
        let open = self.faces.iter().copied().enumerate();
        open.filter(|(_, face)| !face.done)
            .min_by(|(_, f), (_, g)| f.distance.total_cmp(&g.distance))
    }

    /// Takes a point in: the faces it sees give way to new ones up to it.
    fn grow(&mut self, point: Vector) {
        let index = self.points.len();
        self.points.push(point);
        let mut rim: Vec<[usize; 2]> = Vec::new();
        self.faces.retain(|face| {
            let seen = dot(point, face.normal) - face.distance > ROUNDING;
            if seen {
                let [p, q, r] = face.corners;
                for edge in [[p, q], [q, r], [r, p]] {
                    match rim.iter().position(|other| *other == [edge[1], edge[0]]) {
                        Some(at) => {
                            rim.swap_remove(at);
                        }
                        None => rim.push(edge),
                    }
                }
            }
            !seen
        });
        for [p, q] in rim {
            self.face([p, q, index]);
        }
    }
}

/// Two directions square to one and to each other.
pub(crate) fn across(along: Vector) -> (Vector, Vector) {
    let other = if along[0].abs() < 0.7 {
        [1.0, 0.0, 0.0]
    } else {
        [0.0, 1.0, 0.0]
    };
    let first = unit(cross(along, other));
    (first, cross(along, first))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::closest::closest;

    /// Directions spread evenly over the sphere on a spiral.
    fn directions(count: usize) -> impl Iterator<Item = Vector> {
        (0..count).map(move |i| {
            let z = 1.0 - (2.0 * i as f64 + 1.0) / count as f64;
            let angle = 2.399_963_229_728_653 * i as f64;
            let r = (1.0 - z * z).sqrt();
            [r * crate::math::cos(angle), r * crate::math::sin(angle), z]
        })
    }

    #[test]
    fn no_direction_parts_solids_sooner() {
        let mut tried = 0;
        for i in 0..400_u32 {
            let s = |k: u32| f64::from((i * 7919 + k * 104_729) % 1000) / 1000.0 - 0.5;
            let tilt = unit([s(1), s(2), s(3) + 0.01]);
            let a = Convex::round(
                [scale(tilt, 0.1 * s(4)), scale(tilt, 0.1 + 0.1 * s(5))],
                [0.06 + 0.1 * s(6), 0.06 + 0.1 * s(7)],
            );
            let other = unit([s(8), s(9) + 0.01, s(10)]);
            let at = [0.1 * s(11), 0.1 * s(12), 0.1 * s(13)];
            let b = Convex::round(
                [at, crate::vector::add(at, scale(other, 0.1))],
                [0.06 + 0.1 * s(14), 0.06 + 0.1 * s(15)],
            );
            if closest(&a, &b).is_some() {
                continue;
            }
            tried += 1;
            let (depth, away) = overlap(&a, &b);
            let least = directions(20_000)
                .map(|n| exit(&a, &b, n))
                .fold(f64::INFINITY, f64::min);
            assert!(depth <= least + 1e-8, "{i}: {depth} {least}");
            let parted = a.moved(scale(away, depth));
            let gap = closest(&parted, &b).map_or(0.0, length);
            assert!(
                gap < 1e-5,
                "{i}: {gap} after {depth} {away:?}, {least}\n{a:?}\n{b:?}"
            );
        }
        assert!(tried > 100, "{tried}");
    }
}
