//! The four edges of a front, lit by the source and by one another.

use core::f64::consts::PI;

use super::Face;
use super::wedge::{along_face, toward_listener};
use crate::math::{atan, atan2, sincos};

/// A point or a direction on the front.
type Plane = [f64; 2];

/// A wave from the rim: path relative to one from the middle of the front
/// straight to the listener, and amplitude relative to a free point source.
pub(super) struct Echo {
    pub(super) path: f64,
    pub(super) amplitude: f64,
}

/// The rim as lit by a source and seen by a listener.
pub(super) struct Rim<'a> {
    face: &'a Face,
    direction: Plane,
    edges: [Edge; 4],
}

/// One edge of the front.
#[derive(Clone, Copy)]
struct Edge {
    middle: Plane,
    along: Plane,
    inward: Plane,
    half_length: f64,
    /// Angle of the listener from the front, through the air.
    theta: f64,
    /// Sine of the angle of the listener from the edge's normal plane.
    listener: f64,
}

/// Directions of the points that stand for the source's area.
const SPOKES: u32 = 8;

/// Directions from a source point to one edge.
const RAYS: u32 = 64;

/// Points on one edge that light the other edges, and are lit.
const ELEMENTS: u32 = 16;

/// The nearest that a source point counts to an edge, in widths of the front.
const NEAREST: f64 = 1e-3;

impl<'a> Rim<'a> {
    /// `direction` is the part of the unit vector to the listener that lies in
    /// the plane of the front, `forward` the rest.
    pub(super) fn new(face: &'a Face, direction: Plane, forward: f64) -> Self {
        let (w, h) = (0.5 * face.width, 0.5 * face.height);
        let edge = |middle: Plane, along: Plane, inward: Plane, half_length| Edge {
            middle,
            along,
            inward,
            half_length,
            theta: atan2(forward, dot(direction, inward)),
            listener: dot(direction, along),
        };
        let edges = [
            edge([0.0, -h], [1.0, 0.0], [0.0, 1.0], w),
            edge([w, 0.0], [0.0, 1.0], [-1.0, 0.0], h),
            edge([0.0, h], [-1.0, 0.0], [0.0, -1.0], w),
            edge([-w, 0.0], [0.0, -1.0], [1.0, 0.0], h),
        ];
        Self {
            face,
            direction,
            edges,
        }
    }

    /// Waves diffracted once, from all points of the source.
    pub(super) fn once(&self) -> Vec<Echo> {
        let mut echoes = Vec::new();
        for (source, share) in source_points(self.face) {
            for edge in &self.edges {
                self.light(edge, source, share, &mut echoes);
            }
        }
        echoes
    }

    /// Rays at even angles from a source point to an edge: dz/m = dα/cos α.
    fn light(&self, edge: &Edge, source: Plane, share: f64, echoes: &mut Vec<Echo>) {
        let offset = minus(source, edge.middle);
        let nearest = NEAREST * self.face.width;
        let (across, along) = (
            dot(offset, edge.inward).max(nearest),
            dot(offset, edge.along),
        );
        let first = atan((-edge.half_length - along) / across);
        let last = atan((edge.half_length - along) / across);
        let width = (last - first) / f64::from(RAYS);
        for i in 0..RAYS {
            let (sine, cosine) = sincos(first + (f64::from(i) + 0.5) * width);
            let distance = across / cosine;
            let place = edge.at(along + distance * sine);
            let strength = toward_listener(-sine, edge.listener, edge.theta);
            echoes.push(Echo {
                path: distance - dot(place, self.direction),
                amplitude: share * strength * width / cosine,
            });
        }
    }

    /// Waves diffracted at one edge, then at another, from the middle of the source.
    pub(super) fn twice(&self) -> Vec<Echo> {
        let source = [self.face.source_x, self.face.source_y];
        let mut echoes = Vec::new();
        for (i, first) in self.edges.iter().enumerate() {
            for (j, second) in self.edges.iter().enumerate() {
                if i != j {
                    self.pass_on(first, second, source, &mut echoes);
                }
            }
        }
        echoes
    }

    fn pass_on(&self, first: &Edge, second: &Edge, source: Plane, echoes: &mut Vec<Echo>) {
        for here in first.elements() {
            let lit = minus(source, here);
            let m = length(lit);
            for there in second.elements() {
                let leg = minus(there, here);
                let n = length(leg);
                let onward = along_face(dot(lit, first.along) / m, dot(leg, first.along) / n);
                let back = -dot(leg, second.along) / n;
                let out = toward_listener(back, second.listener, second.theta);
                echoes.push(Echo {
                    path: m + n - dot(there, self.direction),
                    amplitude: onward * out * first.element() * second.element() / (m * n),
                });
            }
        }
    }
}

impl Edge {
    /// A point of the edge, from its middle.
    fn at(&self, along: f64) -> Plane {
        [
            self.middle[0] + along * self.along[0],
            self.middle[1] + along * self.along[1],
        ]
    }

    /// Length of one element.
    fn element(&self) -> f64 {
        2.0 * self.half_length / f64::from(ELEMENTS)
    }

    /// Middles of the elements.
    fn elements(&self) -> impl Iterator<Item = Plane> {
        let first = 0.5 * (1.0 - f64::from(ELEMENTS));
        (0..ELEMENTS).map(move |i| self.at((first + f64::from(i)) * self.element()))
    }
}

/// Points over the area of the source and their shares of it: three rings at
/// Gauss's nodes in radius squared, eight directions each, so that mirrored
/// and turned fronts give mirrored and turned sounds.
fn source_points(face: &Face) -> impl Iterator<Item = (Plane, f64)> {
    let outer = 0.6_f64.sqrt();
    let rings = [
        (0.5 - 0.5 * outer, 5.0 / 18.0),
        (0.5, 8.0 / 18.0),
        (0.5 + 0.5 * outer, 5.0 / 18.0),
    ];
    rings.into_iter().flat_map(move |(square, share)| {
        let radius = face.source_radius * square.sqrt();
        (0..SPOKES).map(move |i| {
            let (sine, cosine) = sincos(2.0 * PI * (f64::from(i) + 0.5) / f64::from(SPOKES));
            let point = [
                face.source_x + radius * cosine,
                face.source_y + radius * sine,
            ];
            (point, share / f64::from(SPOKES))
        })
    })
}

fn dot(a: Plane, b: Plane) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

fn minus(a: Plane, b: Plane) -> Plane {
    [a[0] - b[0], a[1] - b[1]]
}

fn length(a: Plane) -> f64 {
    dot(a, a).sqrt()
}
