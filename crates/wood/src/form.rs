//! Rounded and chamfered outer edges as half spaces.
//!
//! A rounding is a cylinder that touches both faces. The solid has [`FACETS`] flat
//! facets in its place, moved towards the cylinder's axis so far that together they
//! take off just the area the cylinder does: volumes are true along edges, and the
//! surface is nowhere off by more than 0.2 % of the radius.

use crate::math;
use crate::plan::EdgeForm;
use crate::polytope::Plane;
use crate::vector::{Vector, add, dot, scale, sub, unit};

/// Flat facets that stand for a rounding.
pub(crate) const FACETS: usize = 12;

/// What two, and what three rounded edges of radius 1 that meet at a right-angled corner take
/// off more than once: one cylinder leaves π/4 of the corner's cube, two 2/3, three 2 − √2
/// (the volumes common to two and three equal cylinders at right angles).
pub(crate) const ROUND_TWICE: [f64; 2] = [
    5.0 / 3.0 - 0.5 * core::f64::consts::PI,
    4.0 - core::f64::consts::SQRT_2 - 0.75 * core::f64::consts::PI,
];

/// The same of chamfers of size 1, which leave 1/2, 1/3 and 1/4.
pub(crate) const CHAMFER_TWICE: [f64; 2] = [1.0 / 3.0, 0.75];

/// The half spaces that make the form on the edge of two faces.
pub(crate) fn planes(form: EdgeForm, a: &Plane, b: &Plane) -> Vec<Plane> {
    match form {
        EdgeForm::Round(radius) if radius > 0.0 => facets(radius, a, b),
        EdgeForm::Chamfer(size) if size > 0.0 => vec![bevel(size, a, b)],
        EdgeForm::Round(_) | EdgeForm::Chamfer(_) => Vec::new(),
    }
}

/// How far a form reaches into the faces of an edge, whose normals have this scalar product.
pub(crate) fn reach(form: EdgeForm, cos: f64) -> f64 {
    match form {
        EdgeForm::Round(radius) => radius * ((1.0 - cos) / (1.0 + cos)).sqrt(),
        EdgeForm::Chamfer(size) => size,
    }
}

/// The region a form takes off, in depths below the two faces, whose normals stand at `turn`
/// to each other.
pub(crate) fn outline(form: EdgeForm, turn: f64) -> Vec<[f64; 2]> {
    let sin = math::sin(turn);
    match form {
        EdgeForm::Chamfer(size) => vec![[0.0, 0.0], [size * sin, 0.0], [0.0, size * sin]],
        EdgeForm::Round(radius) => rounded(radius, turn),
    }
}

/// The region of a rounding's facets: first the edge itself, then from one face to the other.
fn rounded(radius: f64, turn: f64) -> Vec<[f64; 2]> {
    let step = turn / FACETS as f64;
    let reach = equal_area(turn, step);
    let along = (reach - math::cos(0.5 * step)) / math::sin(0.5 * step);
    let end = radius * (1.0 - math::cos(turn) - along * math::sin(turn));
    let far = radius * reach / math::cos(0.5 * step);
    let mut corners = vec![[0.0, 0.0], [0.0, end]];
    corners.extend((1..FACETS).map(|k| {
        let at = k as f64 * step;
        [
            radius - far * math::cos(at),
            radius - far * math::cos(turn - at),
        ]
    }));
    corners.push([end, 0.0]);
    corners
}

/// The plane of a chamfer that takes `size` off both faces.
fn bevel(size: f64, a: &Plane, b: &Plane) -> Plane {
    let cos = dot(a.normal, b.normal);
    let along = |from: &Plane, to: &Plane| unit(sub(scale(from.normal, cos), to.normal));
    let edge = on_both(a, b, 0.0);
    Plane::through(add(edge, scale(along(a, b), size)), add(a.normal, b.normal))
}

fn facets(radius: f64, a: &Plane, b: &Plane) -> Vec<Plane> {
    let axis = on_both(a, b, radius);
    let turn = math::acos(dot(a.normal, b.normal).clamp(-1.0, 1.0));
    let step = turn / FACETS as f64;
    let reach = radius * equal_area(turn, step);
    (0..FACETS)
        .map(|k| {
            let at = (k as f64 + 0.5) * step;
            let normal = between(a.normal, b.normal, turn, at);
            Plane {
                normal,
                offset: dot(normal, axis) + reach,
            }
        })
        .collect()
}

/// Distance of the facets from the axis, in radii: the root near 1 of
/// (n − 1) x² tan β + (2 x − (1 + x²) cos β) / sin β = n β, where β is half the angle from
/// one facet to the next and the faces themselves lie at 1.
fn equal_area(turn: f64, step: f64) -> f64 {
    let half = 0.5 * step;
    let (tan, sin) = (math::tan(half), math::sin(half));
    let square = (FACETS as f64 - 1.0) * tan - 1.0 / tan;
    let (linear, constant) = (2.0 / sin, -1.0 / tan - 0.5 * turn);
    let root = (linear * linear - 4.0 * square * constant).sqrt();
    (linear - root) / (-2.0 * square)
}

/// The point nearest the origin that lies `depth` below both faces.
fn on_both(a: &Plane, b: &Plane, depth: f64) -> Vector {
    let cos = dot(a.normal, b.normal);
    let (p, q) = (a.offset - depth, b.offset - depth);
    let det = 1.0 - cos * cos;
    add(
        scale(a.normal, (p - cos * q) / det),
        scale(b.normal, (q - cos * p) / det),
    )
}

/// The direction at an angle from `a` on the way to `b`, which lies at `turn`.
fn between(a: Vector, b: Vector, turn: f64, at: f64) -> Vector {
    let whole = math::sin(turn);
    add(
        scale(a, math::sin(turn - at) / whole),
        scale(b, math::sin(at) / whole),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::polytope::Polytope;

    fn taken(form: EdgeForm, lean: f64) -> f64 {
        let a = Plane {
            normal: [1.0, 0.0, 0.0],
            offset: 1.0,
        };
        let b = Plane {
            normal: [math::sin(lean), math::cos(lean), 0.0],
            offset: 1.0,
        };
        let block = Polytope::block([-1.0, -1.0, 0.0], [1.0, 3.0, 1.0]);
        let whole = block.clip_all([&a, &b]).unwrap();
        let cut = whole.clip_all(&planes(form, &a, &b)).unwrap();
        whole.volume() - cut.volume()
    }

    #[test]
    fn a_rounding_takes_what_a_cylinder_does() {
        for lean in [-0.3_f64, 0.0, 0.2] {
            let inside = core::f64::consts::FRAC_PI_2 + lean;
            let area = 1.0 / math::tan(0.5 * inside) - 0.5 * (core::f64::consts::PI - inside);
            let wanted = area * 0.1 * 0.1;
            let found = taken(EdgeForm::Round(0.1), lean);
            assert!((found - wanted).abs() < 1e-12, "{lean}: {found} {wanted}");
        }
    }

    #[test]
    fn a_chamfer_takes_a_triangle() {
        let found = taken(EdgeForm::Chamfer(0.1), 0.0);
        assert!((found - 0.005).abs() < 1e-12);
    }
}
