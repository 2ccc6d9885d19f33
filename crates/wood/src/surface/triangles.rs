//! Surfaces in triangles, by cutting ears.
//!
//! Every corner of a face becomes a corner of a triangle, also where the outline runs
//! straight through it, so that triangles of neighbouring faces share whole edges.

use super::{Surface, SurfaceFace, basis, flat};
use crate::vector::{Vector, cross, dot, sub};

/// Twice the area in m² below which three corners lie on a line.
const FLAT: f64 = 1e-13;

/// A closed surface in triangles.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mesh {
    /// Its corners in m.
    pub vertices: Vec<Vector>,
    /// Corners by index, counter-clockwise as seen from outside.
    pub triangles: Vec<[usize; 3]>,
}

impl Mesh {
    /// The corners of its triangles in m.
    #[must_use]
    pub fn corners(&self) -> Vec<[Vector; 3]> {
        let corners = |triangle: &[usize; 3]| triangle.map(|k| self.vertices[k]);
        self.triangles.iter().map(corners).collect()
    }

    /// Volume it encloses in m³.
    #[must_use]
    pub fn volume(&self) -> f64 {
        let apex = self.vertices.first().copied().unwrap_or_default();
        let six = |triangle: [Vector; 3]| {
            let [a, b, c] = triangle.map(|corner| sub(corner, apex));
            dot(a, cross(b, c))
        };
        self.corners().into_iter().map(six).sum::<f64>() / 6.0
    }
}

impl Surface {
    /// The same surface in triangles.
    #[must_use]
    pub fn mesh(&self) -> Mesh {
        Mesh {
            vertices: self.vertices.clone(),
            triangles: self.faces.iter().flat_map(|face| self.cut(face)).collect(),
        }
    }

    fn cut(&self, face: &SurfaceFace) -> Vec<[usize; 3]> {
        let basis = basis(face.plane.normal);
        let see = |corner: usize| flat(&basis, self.vertices[corner]);
        Ring::new(&see, &face.loops).ears()
    }
}

type Flat = [f64; 2];

/// Twice the area of a triangle, positive counter-clockwise.
fn turn(a: Flat, b: Flat, c: Flat) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

/// One closed outline.
struct Ring {
    /// Corner of the surface at each place.
    corner: Vec<usize>,
    at: Vec<Flat>,
}

impl Ring {
    /// The outline joined with what is cut out of it by bridges there and back.
    fn new(see: &impl Fn(usize) -> Flat, loops: &[Vec<usize>]) -> Self {
        let mut corner = loops[0].clone();
        let mut inner: Vec<&Vec<usize>> = loops[1..].iter().collect();
        let right = |ring: &[usize]| {
            let right = ring.iter().map(|k| see(*k)[0]);
            right.fold(f64::NEG_INFINITY, f64::max)
        };
        inner.sort_by(|a, b| right(b).total_cmp(&right(a)));
        for (k, hole) in inner.iter().enumerate() {
            corner = bridged(see, &corner, hole, &inner[k..]);
        }
        let at = corner.iter().map(|k| see(*k)).collect();
        Self { corner, at }
    }

    fn ears(&self) -> Vec<[usize; 3]> {
        let count = self.corner.len();
        let mut rest: Vec<usize> = (0..count).collect();
        let mut triangles = Vec::with_capacity(count);
        let mut place = 0;
        let mut waited = 0;
        while rest.len() > 2 {
            let left = rest.len();
            place %= left;
            let [a, b, c] = [(place + left - 1) % left, place, (place + 1) % left].map(|k| rest[k]);
            // What no ear is found in is flat to rounding; cutting it keeps the surface closed.
            let stuck = waited > left;
            if self.corner[a] == self.corner[c] {
                rest.remove(place);
                let again = if place < rest.len() { place } else { 0 };
                rest.remove(again);
                waited = 0;
            } else if self.is_ear(&rest, [a, b, c]) || stuck {
                triangles.push([a, b, c].map(|k| self.corner[k]));
                rest.remove(place);
                // Going on behind the next corner keeps triangles from fanning out of one.
                place += 1;
                waited = 0;
            } else {
                place += 1;
                waited += 1;
            }
        }
        triangles
    }

    fn is_ear(&self, rest: &[usize], [a, b, c]: [usize; 3]) -> bool {
        let [p, q, r] = [a, b, c].map(|k| self.at[k]);
        if turn(p, q, r) <= FLAT {
            return false;
        }
        let tip = [a, b, c].map(|k| self.corner[k]);
        !rest.iter().any(|k| {
            let at = self.at[*k];
            turn(p, q, at) >= -FLAT
                && turn(q, r, at) >= -FLAT
                && turn(r, p, at) >= -FLAT
                && !tip.contains(&self.corner[*k])
        })
    }
}

/// An outline with a bridge to a ring cut out of it; `others` are all rings not yet joined.
fn bridged(
    see: &impl Fn(usize) -> Flat,
    outline: &[usize],
    ring: &[usize],
    others: &[&Vec<usize>],
) -> Vec<usize> {
    let right = |k: &usize| see(ring[*k])[0];
    let from = (0..ring.len())
        .max_by(|a, b| right(a).total_cmp(&right(b)))
        .unwrap_or(0);
    let start = see(ring[from]);
    let far = |k: usize| {
        let at = see(outline[k]);
        (at[0] - start[0]) * (at[0] - start[0]) + (at[1] - start[1]) * (at[1] - start[1])
    };
    let mut places: Vec<usize> = (0..outline.len()).collect();
    places.sort_by(|a, b| far(*a).total_cmp(&far(*b)));
    let open = |place: &usize| {
        opens_towards(see, outline, *place, start)
            && is_free(see, outline, [ring[from], outline[*place]])
            && others
                .iter()
                .all(|other| is_free(see, other, [ring[from], outline[*place]]))
    };
    let to = places.iter().copied().find(open).unwrap_or(places[0]);
    let around = ring.iter().cycle().skip(from).take(ring.len() + 1);
    outline[..=to]
        .iter()
        .chain(around)
        .chain(&outline[to..])
        .copied()
        .collect()
}

/// Whether the face lies, at a corner of its outline, in the direction of a point.
fn opens_towards(
    see: &impl Fn(usize) -> Flat,
    outline: &[usize],
    place: usize,
    towards: Flat,
) -> bool {
    let count = outline.len();
    let [before, here, after] =
        [(place + count - 1) % count, place, (place + 1) % count].map(|k| see(outline[k]));
    let left_in = turn(before, here, towards) > 0.0;
    let left_out = turn(here, after, towards) > 0.0;
    if turn(before, here, after) > 0.0 {
        left_in && left_out
    } else {
        left_in || left_out
    }
}

/// Whether a bridge meets a ring nowhere but in its own ends.
fn is_free(see: &impl Fn(usize) -> Flat, ring: &[usize], bridge: [usize; 2]) -> bool {
    let [a, b] = bridge.map(see);
    let pairs = ring.iter().zip(ring.iter().cycle().skip(1));
    pairs.into_iter().all(|(c, d)| {
        let ([p, q], own) = (
            [see(*c), see(*d)],
            [*c, *d].map(|corner| bridge.contains(&corner)),
        );
        match own {
            [true, true] => true,
            [true, false] => !lies_on([a, b], q),
            [false, true] => !lies_on([a, b], p),
            [false, false] => {
                let apart =
                    turn(a, b, p) * turn(a, b, q) > 0.0 || turn(p, q, a) * turn(p, q, b) > 0.0;
                apart && !lies_on([a, b], p) && !lies_on([a, b], q)
            }
        }
    })
}

fn lies_on([a, b]: [Flat; 2], at: Flat) -> bool {
    let along = (at[0] - a[0]) * (b[0] - a[0]) + (at[1] - a[1]) * (b[1] - a[1]);
    let long = (b[0] - a[0]) * (b[0] - a[0]) + (b[1] - a[1]) * (b[1] - a[1]);
    turn(a, b, at).abs() <= FLAT && along > 0.0 && along < long
}
