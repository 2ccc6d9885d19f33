//! Where two pieces of wood touch.

use wood::vector::{Vector, add, cross, dot, scale, sub};
use wood::{Face, Panel, Plane, Polytope};

/// Distance in m below which two faces touch: a thousandth of what wood moves in a day,
/// and far above what rounding errors of doubles make of metres.
const TOUCH: f64 = 1e-7;

/// Area in m² in which two panels touch, holes and windows not taken off.
pub(super) fn contact(a: &Panel, b: &Panel) -> f64 {
    let pairs = a
        .pieces
        .iter()
        .flat_map(|one| b.pieces.iter().map(move |other| (one, other)));
    pairs.map(|(one, other)| between(one, other)).sum()
}

fn between(one: &Polytope, other: &Polytope) -> f64 {
    let faces = one
        .faces
        .iter()
        .flat_map(|a| other.faces.iter().map(move |b| (a, b)));
    faces
        .filter(|(a, b)| touch(&a.plane, &b.plane))
        .map(|(a, b)| common(one, a, other, b))
        .sum()
}

/// Whether two faces look at each other in the same plane.
fn touch(a: &Plane, b: &Plane) -> bool {
    dot(a.normal, b.normal) < TOUCH - 1.0 && (a.offset + b.offset).abs() < TOUCH
}

/// Area of the part of a face that lies within a face of another solid in its plane.
fn common(one: &Polytope, face: &Face, other: &Polytope, against: &Face) -> f64 {
    let whole: Vec<Vector> = face.corners.iter().map(|k| one.vertices[*k]).collect();
    let around = other.faces.iter().filter(|face| *face != against);
    let rest = around.fold(whole, |corners, side| clip(&corners, &side.plane));
    area(&rest)
}

/// What a half space leaves of a convex polygon.
fn clip(corners: &[Vector], plane: &Plane) -> Vec<Vector> {
    let next = corners.iter().cycle().skip(1);
    let mut kept = Vec::with_capacity(corners.len() + 1);
    for (a, b) in corners.iter().zip(next) {
        let (from, to) = (plane.distance(*a), plane.distance(*b));
        if from <= 0.0 {
            kept.push(*a);
        }
        if (from < 0.0 && to > 0.0) || (from > 0.0 && to < 0.0) {
            kept.push(add(*a, scale(sub(*b, *a), from / (from - to))));
        }
    }
    kept
}

fn area(corners: &[Vector]) -> f64 {
    let Some((apex, rest)) = corners.split_first() else {
        return 0.0;
    };
    let sum = rest.windows(2).fold([0.0; 3], |sum, pair| {
        add(sum, cross(sub(pair[0], *apex), sub(pair[1], *apex)))
    });
    0.5 * dot(sum, sum).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blocks_touch_where_their_faces_overlap() {
        let low = Polytope::block([0.0; 3], [0.3, 0.2, 0.1]);
        let above = Polytope::block([0.2, 0.1, 0.1], [0.5, 0.15, 0.2]);
        assert!((between(&low, &above) - 0.1 * 0.05).abs() < 1e-12);
        let apart = Polytope::block([0.2, 0.1, 0.101], [0.5, 0.15, 0.2]);
        assert_eq!(between(&low, &apart), 0.0);
        let within = Polytope::block([0.1, 0.1, 0.05], [0.2, 0.2, 0.1]);
        assert_eq!(between(&low, &within), 0.0);
    }
}
