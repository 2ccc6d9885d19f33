//! Convex solids where they stand, known by their furthest point in any direction.

use super::pose::apply;
use crate::Polytope;
use crate::vector::{Vector, add, dot, length, scale, sub, unit};
use crate::{Pose, Solid};

/// Sine of an angle below which directions count as parallel.
const PARALLEL: f64 = 1e-12;
/// Sine of an angle above which rounding along the axis is of no account.
const OBLIQUE: f64 = 1e-3;

/// A convex solid in the frame of the box.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Convex {
    form: Form,
    /// A straight way it is moved along, all of which it fills.
    sweep: Vector,
    /// Lowest corner of the upright block around it.
    pub(crate) low: Vector,
    /// Highest corner.
    pub(crate) high: Vector,
}

#[derive(Clone, Debug, PartialEq)]
enum Form {
    Points(Vec<Vector>),
    Round {
        ends: [Vector; 2],
        radii: [f64; 2],
        axis: Vector,
    },
}

impl Convex {
    /// A solid of a part, where the part stands.
    pub(crate) fn placed(solid: &Solid, pose: &Pose) -> Self {
        match solid {
            Solid::Hull(points) => Self::hull(points.iter().map(|p| apply(pose, *p)).collect()),
            Solid::Frustum {
                from,
                to,
                from_radius,
                to_radius,
            } => Self::round(
                [apply(pose, *from), apply(pose, *to)],
                [*from_radius, *to_radius],
            ),
        }
    }

    /// The hull of some points.
    pub(crate) fn hull(points: Vec<Vector>) -> Self {
        let mut low = [f64::INFINITY; 3];
        let mut high = [f64::NEG_INFINITY; 3];
        for point in &points {
            for i in 0..3 {
                low[i] = low[i].min(point[i]);
                high[i] = high[i].max(point[i]);
            }
        }
        Self {
            form: Form::Points(points),
            sweep: [0.0; 3],
            low,
            high,
        }
    }

    /// A piece of wood.
    pub(crate) fn of(piece: &Polytope) -> Self {
        Self::hull(piece.vertices.clone())
    }

    /// A frustum between two circles.
    pub(crate) fn round(ends: [Vector; 2], radii: [f64; 2]) -> Self {
        let axis = unit(sub(ends[1], ends[0]));
        let (mut low, mut high) = ([0.0; 3], [0.0; 3]);
        for i in 0..3 {
            // The share of a radius that points along this axis of the box.
            let (j, k) = ((i + 1) % 3, (i + 2) % 3);
            let share = (axis[j] * axis[j] + axis[k] * axis[k]).sqrt();
            let rims = [0, 1].map(|end| share * radii[end]);
            low[i] = (ends[0][i] - rims[0]).min(ends[1][i] - rims[1]);
            high[i] = (ends[0][i] + rims[0]).max(ends[1][i] + rims[1]);
        }
        Self {
            form: Form::Round { ends, radii, axis },
            sweep: [0.0; 3],
            low,
            high,
        }
    }

    /// A point of it that lies furthest along a direction.
    pub(crate) fn support(&self, along: Vector) -> Vector {
        let point = self.support_unswept(along);
        if dot(along, self.sweep) > 0.0 {
            add(point, self.sweep)
        } else {
            point
        }
    }

    fn support_unswept(&self, along: Vector) -> Vector {
        match &self.form {
            Form::Points(points) => furthest(points, along),
            Form::Round { ends, radii, axis } => {
                let radial = radial(along, *axis);
                let rims = [0, 1].map(|i| add(ends[i], scale(radial, radii[i])));
                if dot(rims[0], along) >= dot(rims[1], along) {
                    rims[0]
                } else {
                    rims[1]
                }
            }
        }
    }

    /// How far it reaches along a direction.
    pub(crate) fn reach(&self, along: Vector) -> f64 {
        dot(self.support(along), along)
    }

    /// The same solid, moved.
    pub(crate) fn moved(&self, by: Vector) -> Self {
        let form = match &self.form {
            Form::Points(points) => Form::Points(points.iter().map(|p| add(*p, by)).collect()),
            Form::Round { ends, radii, axis } => Form::Round {
                ends: ends.map(|end| add(end, by)),
                radii: *radii,
                axis: *axis,
            },
        };
        Self {
            form,
            sweep: self.sweep,
            low: add(self.low, by),
            high: add(self.high, by),
        }
    }

    /// All that the solid fills on a straight way.
    pub(crate) fn swept(mut self, along: Vector) -> Self {
        self.sweep = along;
        self.low = add(self.low, along.map(|c| c.min(0.0)));
        self.high = add(self.high, along.map(|c| c.max(0.0)));
        self
    }

    /// A distance that the two solids have at least: that of the blocks around them.
    pub(crate) fn block_distance(&self, other: &Self) -> f64 {
        self.block_distance_to(&other.low, &other.high)
    }

    /// Distance of the block around the solid to the one between two corners.
    pub(crate) fn block_distance_to(&self, low: &Vector, high: &Vector) -> f64 {
        let mut apart = [0.0; 3];
        for (i, apart) in apart.iter_mut().enumerate() {
            let gap = (self.low[i] - high[i]).max(low[i] - self.high[i]);
            *apart = f64::max(gap, 0.0);
        }
        length(apart)
    }

    /// A move that parts the two solids at most: that which parts the blocks around them.
    pub(crate) fn block_overlap(&self, other: &Self) -> f64 {
        let along = |i: usize| (self.high[i] - other.low[i]).min(other.high[i] - self.low[i]);
        along(0).min(along(1)).min(along(2))
    }
}

/// The part of a direction square to an axis, of length 1; nothing where the two are parallel
/// but for rounding.
fn radial(along: Vector, axis: Vector) -> Vector {
    let square = |v: Vector| sub(v, scale(axis, dot(v, axis)));
    let off = square(along);
    let (far, whole) = (length(off), length(along));
    if far > OBLIQUE * whole {
        return scale(off, 1.0 / far);
    }
    if far <= PARALLEL * whole {
        return [0.0; 3];
    }
    // Taken twice: what rounding leaves along the axis is as small against the first as the
    // first may be against the direction.
    unit(square(unit(off)))
}

fn furthest(points: &[Vector], along: Vector) -> Vector {
    let mut best = points[0];
    let mut reach = dot(best, along);
    for point in &points[1..] {
        let this = dot(*point, along);
        if this > reach {
            reach = this;
            best = *point;
        }
    }
    best
}
