//! What is to be seen: things made of plane facets, and their edges.

use super::eye::Eye;
use super::flat::{Bounds, Flat};
use crate::role::Role;
use crate::sheet::Dash;
use wood::vector::{Vector, add, cross, dot, scale, sub, unit};

/// How a thing is painted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Look {
    /// As wood, its tone by the way a face is turned.
    Wood,
    /// In one colour, its tone by the way a face is turned.
    Plain(Role),
    /// As glass: it covers nothing but itself, and lines behind it are drawn.
    Glass,
}

/// Something that can be told apart.
#[derive(Clone, Debug)]
pub(crate) struct Thing {
    /// How it is painted.
    pub(crate) look: Look,
    /// Width of its visible lines in mm.
    pub(crate) pen: f64,
    /// Pattern of its visible lines.
    pub(crate) line: Dash,
    /// Whether its hidden lines are drawn, dashed.
    pub(crate) dashed: bool,
}

/// A plane face, closed loops counter-clockwise as seen from outside, holes the
/// other way round.
#[derive(Clone, Debug)]
pub(crate) struct Facet {
    /// Whose.
    pub(crate) thing: usize,
    /// Outline and holes.
    pub(crate) loops: Vec<Vec<Vector>>,
    /// Outwards; of length 1.
    pub(crate) normal: Vector,
    /// Whether it was made by a section.
    pub(crate) cut: bool,
}

/// An edge.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Edge {
    /// Whose.
    pub(crate) thing: usize,
    /// Its ends.
    pub(crate) ends: [Vector; 2],
    /// Normals to both sides where the surface only bends: it is then drawn where
    /// it bounds what is seen.
    pub(crate) bend: Option<[Vector; 2]>,
}

/// Things with their facets and edges. Every thing is closed, or stands open
/// only where nobody can look.
#[derive(Clone, Debug, Default)]
pub(crate) struct Scene {
    /// The things.
    pub(crate) things: Vec<Thing>,
    /// Their faces.
    pub(crate) facets: Vec<Facet>,
    /// Their edges.
    pub(crate) edges: Vec<Edge>,
}

impl Edge {
    /// Whether it is drawn at all.
    pub(crate) fn shows(&self, eye: &Eye) -> bool {
        self.bend.is_none_or(|[a, b]| {
            let (a, b) = (dot(a, eye.near), dot(b, eye.near));
            (a > FACING) != (b > FACING)
        })
    }
}

/// Faces whose normal stands steeper than this to the line of sight are seen
/// edge on.
pub(crate) const FACING: f64 = 1e-7;

impl Facet {
    /// A facet of loops, its normal taken from the first.
    pub(crate) fn new(thing: usize, loops: Vec<Vec<Vector>>) -> Self {
        let normal = loops.first().map_or([0.0; 3], |l| newell(l));
        Self {
            thing,
            loops,
            normal,
            cut: false,
        }
    }

    /// Its loops as seen.
    pub(crate) fn flat(&self, eye: &Eye) -> Vec<Vec<Flat>> {
        let see = |p: &Vector| [dot(*p, eye.right), dot(*p, eye.up)];
        self.loops
            .iter()
            .map(|l| l.iter().map(see).collect())
            .collect()
    }

    /// Nearness over the plane of sight: value at its origin, and slopes to the
    /// right and upwards.
    pub(crate) fn depth(&self, eye: &Eye) -> [f64; 3] {
        let facing = dot(self.normal, eye.near);
        let anchor = self.loops.first().and_then(|l| l.first()).copied();
        let offset = anchor.map_or(0.0, |p| dot(p, self.normal));
        [
            offset / facing,
            -dot(self.normal, eye.right) / facing,
            -dot(self.normal, eye.up) / facing,
        ]
    }
}

/// Normal of a closed loop (Newell's sums), of length 1.
fn newell(points: &[Vector]) -> Vector {
    let first = points.first().copied().unwrap_or_default();
    let sum = points.windows(2).fold([0.0; 3], |sum, pair| {
        add(sum, cross(sub(pair[0], first), sub(pair[1], first)))
    });
    unit(sum)
}

impl Scene {
    /// Adds a thing and gives its index.
    pub(crate) fn thing(&mut self, look: Look, pen: f64) -> usize {
        self.things.push(Thing {
            look,
            pen,
            line: Dash::Solid,
            dashed: false,
        });
        self.things.len() - 1
    }

    /// The scene with some things moved.
    pub(crate) fn shift(&mut self, by: Vector, which: impl Fn(usize) -> bool) {
        for facet in self.facets.iter_mut().filter(|f| which(f.thing)) {
            for p in facet.loops.iter_mut().flatten() {
                *p = add(*p, by);
            }
        }
        for edge in self.edges.iter_mut().filter(|e| which(e.thing)) {
            edge.ends = edge.ends.map(|p| add(p, by));
        }
    }

    /// What everything covers in the plane of sight; `None` when empty.
    pub(crate) fn bounds(&self, eye: &Eye) -> Option<Bounds> {
        let points = self.facets.iter().flat_map(|f| f.loops.iter().flatten());
        let mut seen = points
            .map(|p| [dot(*p, eye.right), dot(*p, eye.up)])
            .peekable();
        seen.peek()?;
        Some(Bounds::of(seen))
    }

    /// Middle of a thing's facets' corners.
    pub(crate) fn middle(&self, thing: usize) -> Option<Vector> {
        let own = self.facets.iter().filter(|f| f.thing == thing);
        let points: Vec<Vector> = own
            .flat_map(|f| f.loops.iter().flatten().copied())
            .collect();
        let count = points.len() as f64;
        let sum = points.iter().fold([0.0; 3], |s, p| add(s, *p));
        (count > 0.0).then(|| scale(sum, 1.0 / count))
    }
}
