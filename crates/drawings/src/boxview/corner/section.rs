//! What a plane square to an edge cuts out of the panels' own solids.

use crate::math;
use crate::sheet::pen;
use crate::view::{Eye, Flat, Look, Scene};
use wood::vector::{Vector, dot, sub};
use wood::{Body, PanelId};

/// So much of each panel is shown, in m.
pub(super) const SHOWN: f64 = 0.050;

/// A panel cut through: an outline for each of the pieces it is made of.
pub(super) type Section = Vec<Vec<Flat>>;

/// Outlines of a panel cut square to the edge, about its outer corner; one for each
/// of the pieces it is made of. `angle` is that between the panels of the corner.
pub(super) fn section(body: &Body, id: PanelId, tip: Vector, eye: &Eye, angle: f64) -> Section {
    let Some(panel) = body.panel(id) else {
        return Vec::new();
    };
    let mut scene = Scene::default();
    for piece in &panel.pieces {
        let thing = scene.thing(Look::Wood, pen::MEDIUM);
        let corners = |f: &wood::Face| f.corners.iter().map(|i| piece.vertices[*i]).collect();
        scene.closed(thing, piece.faces.iter().map(corners).collect());
    }
    let cut = scene.cut(tip, eye.near);
    let caps = cut.facets.iter().filter(|f| f.cut);
    let own = |p: &Vector| {
        let arm = sub(*p, tip);
        [dot(arm, eye.right), dot(arm, eye.up)]
    };
    caps.flat_map(|f| &f.loops)
        .map(|l| kept_near(&l.iter().map(own).collect::<Vec<Flat>>(), angle))
        .filter(|l| l.len() > 2)
        .collect()
}

/// Sides of outlines.
pub(super) fn sides(loops: &[Vec<Flat>]) -> impl Iterator<Item = (usize, Flat, Flat)> + '_ {
    loops
        .iter()
        .enumerate()
        .flat_map(|(k, l)| (0..l.len()).map(move |i| (k, l[i], l[(i + 1) % l.len()])))
}

/// Where the stretch from `c` to `d` runs along that from `a` to `b`, as shares of the
/// latter; within a hundredth of a millimetre.
fn shared(a: Flat, b: Flat, c: Flat, d: Flat) -> Option<[f64; 2]> {
    let ab = [b[0] - a[0], b[1] - a[1]];
    let long = math::hypot(ab[0], ab[1]);
    if long < 1e-7 {
        return None;
    }
    let off = |p: Flat| ((p[0] - a[0]) * ab[1] - (p[1] - a[1]) * ab[0]) / long;
    if math::abs(off(c)) > 1e-5 || math::abs(off(d)) > 1e-5 {
        return None;
    }
    let at = |p: Flat| ((p[0] - a[0]) * ab[0] + (p[1] - a[1]) * ab[1]) / (long * long);
    let (s, t) = (at(c), at(d));
    let (low, high) = (s.min(t).max(0.0), s.max(t).min(1.0));
    ((high - low) * long > 1e-5).then_some([low, high])
}

/// Length over which two sets of outlines run along one another.
pub(super) fn touching(a: &[Vec<Flat>], b: &[Vec<Flat>]) -> f64 {
    contacts(a, b)
        .iter()
        .map(|[p, q]| math::hypot(q[0] - p[0], q[1] - p[1]))
        .sum()
}

pub(super) fn contacts(a: &[Vec<Flat>], b: &[Vec<Flat>]) -> Vec<[Flat; 2]> {
    let mut out = Vec::new();
    for (_, p, q) in sides(a) {
        for (_, r, s) in sides(b) {
            if let Some([low, high]) = shared(p, q, r, s) {
                let at = |t: f64| [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t];
                out.push([at(low), at(high)]);
            }
        }
    }
    out
}

/// A panel's outline without the lines between its own pieces.
pub(super) fn outline(loops: &[Vec<Flat>]) -> Vec<[Flat; 2]> {
    let mut out = Vec::new();
    for (k, p, q) in sides(loops) {
        let mut inner: Vec<[f64; 2]> = sides(loops)
            .filter(|(other, _, _)| *other != k)
            .filter_map(|(_, r, s)| shared(p, q, r, s))
            .collect();
        inner.sort_by(|x, y| x[0].total_cmp(&y[0]));
        let at = |t: f64| [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t];
        let mut from = 0.0;
        for [low, high] in inner {
            if low > from + 1e-6 {
                out.push([at(from), at(low)]);
            }
            from = from.max(high);
        }
        if from < 1.0 - 1e-6 {
            out.push([at(from), at(1.0)]);
        }
    }
    out
}

/// What of an outline lies near the corner, a little more than is shown: how far the
/// panels go on makes no other kind of corner. `angle` is that between the panels.
fn kept_near(l: &[Flat], angle: f64) -> Vec<Flat> {
    let far = 1.2 * SHOWN;
    let second = [math::cos(angle), -math::sin(angle)];
    [[1.0, 0.0], second].iter().fold(l.to_vec(), |points, way| {
        let height = |p: Flat| far - p[0] * way[0] - p[1] * way[1];
        let mut kept = Vec::new();
        for (i, a) in points.iter().enumerate() {
            let b = points[(i + 1) % points.len()];
            let (ha, hb) = (height(*a), height(b));
            if ha >= 0.0 {
                kept.push(*a);
            }
            if (ha < 0.0) != (hb < 0.0) {
                let t = ha / (ha - hb);
                kept.push([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
            }
        }
        kept
    })
}
