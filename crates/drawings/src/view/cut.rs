//! Sections: what lies in front of a plane is taken off, and the cut closed.

use super::flat::{Flat, sides};
use super::scene::{Edge, Facet, Scene};
use super::solids::spot;
use crate::math;
use std::collections::BTreeMap;
use wood::vector::{Vector, add, cross, dot, length, scale, sub, unit};

/// The plane is moved by so much, in m, off faces that lie in it.
const ASIDE: f64 = 1.37e-6;

impl Scene {
    /// What lies behind the plane through `at` square to `normal`; the cut faces
    /// look along the normal and are closed.
    pub(crate) fn cut(&self, at: Vector, normal: Vector) -> Self {
        let offset = dot(at, normal) - ASIDE;
        let height = |p: Vector| dot(p, normal) - offset;
        let mut out = Self {
            things: self.things.clone(),
            ..Self::default()
        };
        let mut rims: BTreeMap<usize, Vec<[Vector; 2]>> = BTreeMap::new();
        for facet in &self.facets {
            let rim = rims.entry(facet.thing).or_default();
            rim.extend(crossed(facet, normal, height));
            let loops: Vec<Vec<Vector>> = facet.loops.iter().map(|l| kept(l, height)).collect();
            let loops: Vec<Vec<Vector>> = loops.into_iter().filter(|l| l.len() > 2).collect();
            if !loops.is_empty() {
                out.facets.push(Facet {
                    loops,
                    ..facet.clone()
                });
            }
        }
        for edge in &self.edges {
            out.edges.extend(shortened(edge, height));
        }
        for (thing, rim) in rims {
            for points in closed(rim) {
                for (i, p) in points.iter().enumerate() {
                    let ends = [*p, points[(i + 1) % points.len()]];
                    let bend = None;
                    out.edges.push(Edge { thing, ends, bend });
                }
                out.caps(thing, points, normal);
            }
        }
        out
    }

    /// Adds a loop of a section to the cut face of its thing.
    fn caps(&mut self, thing: usize, points: Vec<Vector>, normal: Vector) {
        let own = |f: &&mut Facet| f.thing == thing && f.cut;
        match self.facets.iter_mut().find(own) {
            Some(facet) => facet.loops.push(points),
            None => self.facets.push(Facet {
                thing,
                loops: vec![points],
                normal,
                cut: true,
            }),
        }
    }
}

/// The part of a loop behind the plane.
fn kept(points: &[Vector], height: impl Fn(Vector) -> f64) -> Vec<Vector> {
    let mut out = Vec::new();
    for (i, a) in points.iter().enumerate() {
        let b = points[(i + 1) % points.len()];
        let (ha, hb) = (height(*a), height(b));
        if ha <= 0.0 {
            out.push(*a);
        }
        if (ha > 0.0) != (hb > 0.0) {
            out.push(met(*a, b, ha, hb));
        }
    }
    out
}

/// Where a stretch meets the plane, the same from both ends.
fn met(a: Vector, b: Vector, ha: f64, hb: f64) -> Vector {
    let (a, b, ha, hb) = if spot(a) <= spot(b) {
        (a, b, ha, hb)
    } else {
        (b, a, hb, ha)
    };
    add(a, scale(sub(b, a), ha / (ha - hb)))
}

fn shortened(edge: &Edge, height: impl Fn(Vector) -> f64) -> Option<Edge> {
    let [a, b] = edge.ends;
    let (ha, hb) = (height(a), height(b));
    let ends = match (ha > 0.0, hb > 0.0) {
        (true, true) => return None,
        (false, false) => [a, b],
        (true, false) => [met(a, b, ha, hb), b],
        (false, true) => [a, met(a, b, ha, hb)],
    };
    Some(Edge { ends, ..*edge })
}

/// Stretches along which a facet is cut, the solid to their left as seen along
/// the normal from outside.
fn crossed(facet: &Facet, normal: Vector, height: impl Fn(Vector) -> f64) -> Vec<[Vector; 2]> {
    let along = cross(normal, facet.normal);
    let mut points: Vec<Vector> = Vec::new();
    for l in &facet.loops {
        for (i, a) in l.iter().enumerate() {
            let b = l[(i + 1) % l.len()];
            let (ha, hb) = (height(*a), height(b));
            if (ha > 0.0) != (hb > 0.0) {
                points.push(met(*a, b, ha, hb));
            }
        }
    }
    if length(along) < 1e-9 {
        return Vec::new();
    }
    let along = unit(along);
    points.sort_by(|a, b| dot(*a, along).total_cmp(&dot(*b, along)));
    points
        .chunks_exact(2)
        .map(|pair| [pair[0], pair[1]])
        .collect()
}

/// Directed stretches put together into loops.
fn closed(rim: Vec<[Vector; 2]>) -> Vec<Vec<Vector>> {
    // A thousandth of a millimetre: ends of one corner differ by rounding only.
    let key = |p: Vector| p.map(|c| math::round(c * 1e6) as i64);
    let mut from: BTreeMap<[i64; 3], Vec<usize>> = BTreeMap::new();
    for (i, [a, b]) in rim.iter().enumerate() {
        if key(*a) != key(*b) {
            from.entry(key(*a)).or_default().push(i);
        }
    }
    let mut out = Vec::new();
    while let Some(start) = from.values().find_map(|held| held.first().copied()) {
        let mut points = Vec::new();
        let mut at = start;
        loop {
            let [a, b] = rim[at];
            if let Some(held) = from.get_mut(&key(a)) {
                held.retain(|i| *i != at);
            }
            points.push(a);
            match from.get(&key(b)).and_then(|held| held.first().copied()) {
                Some(next) if key(b) != key(rim[start][0]) => at = next,
                _ => break,
            }
        }
        if points.len() > 2 {
            out.push(points);
        }
    }
    out
}

/// Lines that hatch an area, at `angle` (rad) against the horizontal, `pitch` apart
/// in the units of the loops.
pub(crate) fn hatch(loops: &[Vec<Flat>], angle: f64, pitch: f64) -> Vec<[Flat; 2]> {
    let (s, c) = (math::sin(angle), math::cos(angle));
    let turned = |p: Flat| [p[0] * c + p[1] * s, p[1] * c - p[0] * s];
    let back = |p: Flat| [p[0] * c - p[1] * s, p[0] * s + p[1] * c];
    let turned: Vec<Vec<Flat>> = loops
        .iter()
        .map(|l| l.iter().map(|p| turned(*p)).collect())
        .collect();
    let heights = turned.iter().flatten().map(|p| p[1]);
    let (low, high) = heights.fold((f64::MAX, f64::MIN), |(l, h), y| (l.min(y), h.max(y)));
    let mut out = Vec::new();
    let mut row = math::floor(low / pitch) + 0.5;
    while row * pitch < high {
        let y = row * pitch;
        let mut xs: Vec<f64> = sides(&turned)
            .filter(|(a, b)| (a[1] > y) != (b[1] > y))
            .map(|(a, b)| a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]))
            .collect();
        xs.sort_by(f64::total_cmp);
        for pair in xs.chunks_exact(2) {
            out.push([back([pair[0], y]), back([pair[1], y])]);
        }
        row += 1.0;
    }
    out
}
