//! Solids turned into facets and edges.

use super::scene::{Edge, Facet, Scene};
use crate::math;
use core::f64::consts::TAU;
use std::collections::BTreeMap;
use wood::vector::{Vector, add, cross, dot, length, scale, sub, unit};
use wood::{DRAWN_CHORD, Panel, Pose, Solid};

/// Sides that stand for a round.
const SIDES: usize = 48;
/// Faces that meet at less than this (cosine) bend; at more they have an edge.
const BEND: f64 = 0.9;
/// Faces whose normals agree so well (cosine) are one plane.
const PLANE: f64 = 1.0 - 1e-9;

impl Scene {
    /// Adds a convex solid in its place to a thing.
    pub(crate) fn solid(&mut self, thing: usize, solid: &Solid, pose: &Pose) {
        let placed = |p: &Vector| add(pose.turn.map(|row| dot(row, *p)), pose.at);
        match solid {
            Solid::Hull(points) => {
                let points: Vec<Vector> = points.iter().map(placed).collect();
                self.closed(thing, hull(&points));
            }
            Solid::Frustum {
                from,
                to,
                from_radius,
                to_radius,
            } => {
                let loops = frustum((placed(from), *from_radius), (placed(to), *to_radius));
                self.closed(thing, loops);
            }
        }
    }

    /// Adds a panel with its holes to a thing.
    pub(crate) fn panel(&mut self, thing: usize, panel: &Panel) {
        let surface = panel.surface(DRAWN_CHORD);
        self.facets
            .extend(surface.planar_faces().into_iter().map(|face| Facet {
                thing,
                loops: face.loops,
                normal: face.plane.normal,
                cut: false,
            }));
        self.edges
            .extend(surface.edges().into_iter().map(|edge| Edge {
                thing,
                ends: edge.ends,
                bend: edge.bend.then_some(edge.normals),
            }));
    }

    /// Adds faces that close a solid; edges lie where two of them meet at an angle.
    pub(crate) fn closed(&mut self, thing: usize, loops: Vec<Vec<Vector>>) {
        let mut normals: BTreeMap<[[i64; 3]; 2], (Edge, Vec<Vector>)> = BTreeMap::new();
        for points in loops {
            let facet = Facet::new(thing, vec![points]);
            let points = &facet.loops[0];
            for (i, a) in points.iter().enumerate() {
                let ends = [*a, points[(i + 1) % points.len()]];
                let mut key = ends.map(spot);
                key.sort_unstable();
                let edge = Edge {
                    thing,
                    ends,
                    bend: None,
                };
                let entry = normals.entry(key).or_insert((edge, Vec::new()));
                entry.1.push(facet.normal);
            }
            self.facets.push(facet);
        }
        for (mut edge, meeting) in normals.into_values() {
            if let [a, b] = meeting[..] {
                let turn = dot(a, b);
                if turn > PLANE {
                    continue;
                }
                edge.bend = (turn > BEND).then_some([a, b]);
            }
            self.edges.push(edge);
        }
    }
}

/// A point to the hundredth of a micrometre, to find it again.
pub(super) fn spot(p: Vector) -> [i64; 3] {
    p.map(|c| math::round(c * 1e8) as i64)
}

/// Faces of a cylinder, a cone, or what lies between.
fn frustum((from, r0): (Vector, f64), (to, r1): (Vector, f64)) -> Vec<Vec<Vector>> {
    let axis = unit(sub(to, from));
    let (low, high) = (ring(from, axis, r0), ring(to, axis, r1));
    let mut faces = Vec::new();
    for i in 0..SIDES {
        let j = (i + 1) % SIDES;
        let mut face = Vec::with_capacity(4);
        if r0 > 0.0 {
            face.extend([low[i], low[j]]);
        } else {
            face.push(from);
        }
        if r1 > 0.0 {
            face.extend([high[j], high[i]]);
        } else {
            face.push(to);
        }
        faces.push(face);
    }
    if r0 > 0.0 {
        faces.push(low.into_iter().rev().collect());
    }
    if r1 > 0.0 {
        faces.push(high);
    }
    faces
}

/// Corners that stand for a circle, counter-clockwise about its axis.
pub(crate) fn ring(middle: Vector, axis: Vector, radius: f64) -> Vec<Vector> {
    let (u, v) = beside(axis);
    (0..SIDES)
        .map(|i| {
            let turn = TAU * i as f64 / SIDES as f64;
            let arm = add(scale(u, math::cos(turn)), scale(v, math::sin(turn)));
            add(middle, scale(arm, radius))
        })
        .collect()
}

/// Two directions square to an axis and to one another, right-handed with it.
fn beside(axis: Vector) -> (Vector, Vector) {
    let least = (0..3).min_by(|a, b| axis[*a].abs().total_cmp(&axis[*b].abs()));
    let mut other = [0.0; 3];
    other[least.unwrap_or(0)] = 1.0;
    let u = unit(cross(other, axis));
    (u, cross(axis, u))
}

/// Faces of the hull of a few points: every plane through three of them that has
/// all others on one side.
fn hull(points: &[Vector]) -> Vec<Vec<Vector>> {
    let size = points
        .iter()
        .map(|p| length(sub(*p, points[0])))
        .fold(0.0, f64::max);
    let close = 1e-9 * size.max(1e-3);
    let mut done: Vec<(Vector, f64)> = Vec::new();
    let mut faces = Vec::new();
    for (i, a) in points.iter().enumerate() {
        for (j, b) in points.iter().enumerate().skip(i + 1) {
            for c in &points[j + 1..] {
                let across = cross(sub(*b, *a), sub(*c, *a));
                if length(across) < close * size {
                    continue;
                }
                let plane = unit(across);
                for normal in [plane, scale(plane, -1.0)] {
                    let offset = dot(normal, *a);
                    let outside = points.iter().any(|p| dot(normal, *p) > offset + close);
                    let known = done
                        .iter()
                        .any(|(n, o)| dot(*n, normal) > PLANE && (o - offset).abs() < 4.0 * close);
                    if !outside && !known {
                        done.push((normal, offset));
                        let on = |p: &&Vector| dot(normal, **p) > offset - close;
                        faces.push(around(points.iter().filter(on).copied().collect(), normal));
                    }
                }
            }
        }
    }
    faces
}

/// Corners of a convex face, counter-clockwise about its normal; points on its
/// sides or within are left out.
fn around(points: Vec<Vector>, normal: Vector) -> Vec<Vector> {
    let (u, v) = beside(normal);
    let mut flat: Vec<(f64, f64, Vector)> = points
        .into_iter()
        .map(|p| (dot(p, u), dot(p, v), p))
        .collect();
    flat.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let half = |points: &mut dyn Iterator<Item = &(f64, f64, Vector)>| {
        let mut chain: Vec<(f64, f64, Vector)> = Vec::new();
        for p in points {
            while let [.., a, b] = chain[..] {
                if (b.0 - a.0) * (p.1 - a.1) - (b.1 - a.1) * (p.0 - a.0) > 1e-14 {
                    break;
                }
                chain.pop();
            }
            chain.push(*p);
        }
        chain.pop();
        chain
    };
    let mut out = half(&mut flat.iter());
    out.extend(half(&mut flat.iter().rev()));
    out.into_iter().map(|(_, _, p)| p).collect()
}
