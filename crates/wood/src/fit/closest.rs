//! Distance of two convex solids: the point of their Minkowski difference that lies closest
//! to the origin, after Gilbert, Johnson and Keerthi (key `gilbert-1988`).

use super::convex::Convex;
use crate::vector::{Vector, add, cross, dot, length, scale, sub};

/// Steps after which the answer so far is taken: solids with curved faces come closer by a
/// share with each step, flat ones are done within a dozen.
const STEPS: usize = 200;
/// Share of the distance by which it may be too large.
const CLOSE_ENOUGH: f64 = 1e-10;
/// Distance below which solids count as touching, in m.
pub(crate) const TOUCHING: f64 = 1e-9;

/// From the second solid to the first along the shortest way; `None` where they touch or
/// overlap.
pub(crate) fn closest(a: &Convex, b: &Convex) -> Option<Vector> {
    match search(a, b, f64::INFINITY) {
        Found::Closest(way) => Some(way),
        Found::Beyond(_) | Found::Touching => None,
    }
}

/// Distance of two solids, of which only the part below `limit` is of interest: where it is
/// larger, some number between the limit and the distance. 0 where they touch or overlap.
pub(crate) fn distance_up_to(a: &Convex, b: &Convex, limit: f64) -> f64 {
    let blocks = a.block_distance(b);
    if blocks >= limit {
        return blocks;
    }
    match search(a, b, limit) {
        Found::Closest(way) => length(way),
        Found::Beyond(distance) => distance,
        Found::Touching => 0.0,
    }
}

enum Found {
    /// The shortest way from b to a.
    Closest(Vector),
    /// They are at least so far apart, which is more than was asked.
    Beyond(f64),
    /// They touch or overlap.
    Touching,
}

fn search(a: &Convex, b: &Convex, limit: f64) -> Found {
    let difference = |along: Vector| sub(a.support(along), b.support(scale(along, -1.0)));
    let middle = |c: &Convex| scale(add(c.low, c.high), 0.5);
    let mut toward = sub(middle(a), middle(b));
    if length(toward) <= TOUCHING {
        toward = [1.0, 0.0, 0.0];
    }
    let mut corners = Corners::default();
    let mut way = difference(scale(toward, -1.0));
    corners.push(way);
    for _ in 0..STEPS {
        let far = length(way);
        if far <= TOUCHING {
            return Found::Touching;
        }
        let next = difference(scale(way, -1.0));
        let least = dot(way, next) / far;
        if least >= limit {
            return Found::Beyond(least);
        }
        if far - least <= CLOSE_ENOUGH * far || corners.has(next) {
            return Found::Closest(way);
        }
        corners.push(next);
        let Some((closer, kept)) = corners.closest() else {
            return Found::Touching;
        };
        // Rounding: no step may lead away again.
        if length(closer) >= far {
            return Found::Closest(way);
        }
        way = closer;
        corners = kept;
    }
    Found::Closest(way)
}

/// Up to four corners of the difference.
#[derive(Clone, Copy, Default)]
struct Corners {
    at: [Vector; 4],
    count: usize,
}

impl Corners {
    fn of(at: &[Vector]) -> Self {
        let mut corners = Self::default();
        for point in at {
            corners.push(*point);
        }
        corners
    }

    fn push(&mut self, point: Vector) {
        self.at[self.count] = point;
        self.count += 1;
    }

    fn has(&self, point: Vector) -> bool {
        self.at[..self.count].contains(&point)
    }

    /// The point of their hull closest to the origin and the corners that span its face;
    /// `None` where the origin lies within.
    fn closest(&self) -> Option<(Vector, Self)> {
        match self.count {
            1 => Some((self.at[0], *self)),
            2 => Some(on_segment(self.at[0], self.at[1])),
            3 => Some(on_triangle(self.at[0], self.at[1], self.at[2])),
            _ => on_tetrahedron(self.at),
        }
    }
}

fn on_segment(a: Vector, b: Vector) -> (Vector, Corners) {
    let along = sub(b, a);
    let share = -dot(a, along) / dot(along, along);
    if share >= 1.0 {
        (b, Corners::of(&[b]))
    } else if share > 0.0 {
        (add(a, scale(along, share)), Corners::of(&[a, b]))
    } else {
        (a, Corners::of(&[a]))
    }
}

fn on_triangle(a: Vector, b: Vector, c: Vector) -> (Vector, Corners) {
    let normal = cross(sub(b, a), sub(c, a));
    let area = dot(normal, normal);
    let within = |p: Vector, q: Vector| dot(cross(sub(q, p), normal), p) >= 0.0;
    if area > 0.0 && within(a, b) && within(b, c) && within(c, a) {
        let foot = scale(normal, dot(a, normal) / area);
        return (foot, Corners::of(&[a, b, c]));
    }
    nearer([on_segment(a, b), on_segment(b, c), on_segment(c, a)])
}

fn on_tetrahedron(at: [Vector; 4]) -> Option<(Vector, Corners)> {
    let faces = [[0, 1, 2, 3], [0, 1, 3, 2], [0, 2, 3, 1], [1, 2, 3, 0]];
    let within = faces.iter().all(|[i, j, k, other]| {
        let normal = cross(sub(at[*j], at[*i]), sub(at[*k], at[*i]));
        dot(sub(at[*other], at[*i]), normal) * -dot(at[*i], normal) > 0.0
    });
    // All four faces are asked: which of them the origin sees is uncertain where the
    // tetrahedron is nearly flat.
    let closest = || nearer(faces.map(|[i, j, k, _]| on_triangle(at[i], at[j], at[k])));
    (!within).then(closest)
}

fn nearer<const N: usize>(found: [(Vector, Corners); N]) -> (Vector, Corners) {
    let mut best = found[0];
    for this in &found[1..] {
        if dot(this.0, this.0) < dot(best.0, best.0) {
            best = *this;
        }
    }
    best
}
