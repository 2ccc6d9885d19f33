//! Edges of a plane become outlines with what is cut out of them.

use super::{SurfaceFace, basis, flat};
use crate::polytope::Plane;
use crate::vector::Vector;

/// The faces bounded by directed edges with the face on their left as seen against the normal.
pub(super) fn faces(plane: &Plane, points: &[Vector], edges: Vec<[usize; 2]>) -> Vec<SurfaceFace> {
    let basis = basis(plane.normal);
    let see = |corner: usize| flat(&basis, points[corner]);
    let rings = chain(&see, edges);
    let (outlines, cut_out): (Vec<_>, Vec<_>) =
        rings.into_iter().partition(|ring| area(&see, ring) > 0.0);
    let mut faces: Vec<SurfaceFace> = outlines
        .into_iter()
        .map(|ring| SurfaceFace {
            plane: *plane,
            loops: vec![ring],
            side_of: None,
        })
        .collect();
    for ring in cut_out {
        let around = faces
            .iter_mut()
            .filter(|face| surrounds(&see, &face.loops[0], &ring))
            .min_by(|a, b| area(&see, &a.loops[0]).total_cmp(&area(&see, &b.loops[0])));
        if let Some(face) = around {
            face.loops.push(ring);
        }
    }
    faces
}

/// Closed rings of directed edges; where several leave a corner, the one that keeps to the
/// same piece of face.
fn chain(see: &impl Fn(usize) -> [f64; 2], mut edges: Vec<[usize; 2]>) -> Vec<Vec<usize>> {
    let mut rings = Vec::new();
    while let Some([start, mut to]) = edges.pop() {
        let mut from = start;
        let mut ring = vec![start];
        while to != start {
            ring.push(to);
            let Some(next) = sharpest_right(see, &edges, from, to) else {
                break;
            };
            from = to;
            to = edges.swap_remove(next)[1];
        }
        if to == start && ring.len() > 2 {
            rings.push(ring);
        }
    }
    rings
}

/// The edge out of `at` that is met first when turning clockwise from the way back.
fn sharpest_right(
    see: &impl Fn(usize) -> [f64; 2],
    edges: &[[usize; 2]],
    from: usize,
    at: usize,
) -> Option<usize> {
    let (here, back) = (see(at), see(from));
    let turn = |to: usize| {
        let (p, q) = (
            [back[0] - here[0], back[1] - here[1]],
            [see(to)[0] - here[0], see(to)[1] - here[1]],
        );
        let angle = crate::math::atan2(q[0] * p[1] - q[1] * p[0], p[0] * q[0] + p[1] * q[1]);
        if angle <= 0.0 {
            angle + core::f64::consts::TAU
        } else {
            angle
        }
    };
    let leaving = edges.iter().enumerate().filter(|(_, edge)| edge[0] == at);
    leaving
        .min_by(|a, b| turn(a.1[1]).total_cmp(&turn(b.1[1])))
        .map(|(k, _)| k)
}

/// Area of a ring, negative where it runs clockwise.
pub(super) fn area(see: &impl Fn(usize) -> [f64; 2], ring: &[usize]) -> f64 {
    let pairs = ring.iter().zip(ring.iter().cycle().skip(1));
    0.5 * pairs
        .map(|(a, b)| {
            let (a, b) = (see(*a), see(*b));
            a[0] * b[1] - a[1] * b[0]
        })
        .sum::<f64>()
}

/// Whether a ring lies within an outline that it may touch but not cross.
fn surrounds(see: &impl Fn(usize) -> [f64; 2], outline: &[usize], ring: &[usize]) -> bool {
    let off = ring.iter().find(|corner| !outline.contains(corner));
    off.is_some_and(|corner| holds(see, outline, see(*corner)))
}

/// Whether a point lies within a ring.
pub(super) fn holds(see: &impl Fn(usize) -> [f64; 2], ring: &[usize], at: [f64; 2]) -> bool {
    let pairs = ring.iter().zip(ring.iter().cycle().skip(1));
    let crossed = pairs.filter(|(a, b)| {
        let (a, b) = (see(**a), see(**b));
        (a[1] > at[1]) != (b[1] > at[1])
            && at[0] < a[0] + (b[0] - a[0]) * (at[1] - a[1]) / (b[1] - a[1])
    });
    crossed.count() % 2 == 1
}
