//! Shadows of parts against openings, and what can be proven from sizes alone.

use super::convex::Convex;
use super::opening::Aperture;
use super::overlap::overlap;
use crate::math::{cos, sin};
use crate::vector::{Vector, add, cross, dot, length, scale, sub};
use crate::{Frame, Outline, Shape, Solid};

/// Directions in which the reach of a shadow is taken for round openings.
const DIRECTIONS: usize = 64;
/// Lengths that differ by less are equal, in m.
const EQUAL: f64 = 1e-7;

/// The shadow of a part on a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Shadow {
    /// Its middle along the two axes of the wall, from the origin of space.
    pub(crate) middle: [f64; 2],
    /// Width and height.
    pub(crate) size: [f64; 2],
}

impl Shadow {
    pub(crate) fn of(solids: &[Convex], frame: &Frame) -> Self {
        let reach = |along: Vector| {
            let each = solids.iter().map(|solid| solid.reach(along));
            each.fold(f64::NEG_INFINITY, f64::max)
        };
        let span = |axis: Vector| (-reach(scale(axis, -1.0)), reach(axis));
        let spans = [span(frame.across), span(frame.up)];
        Self {
            middle: spans.map(|(low, high)| 0.5 * (low + high)),
            size: spans.map(|(low, high)| high - low),
        }
    }

    /// Radius of the circle about its middle that holds the shadow of these solids.
    fn radius(&self, solids: &[Convex], frame: &Frame) -> f64 {
        let full = 2.0 * core::f64::consts::PI;
        let mut radius = 0.0_f64;
        for i in 0..DIRECTIONS {
            let angle = full * i as f64 / DIRECTIONS as f64;
            let along = add(scale(frame.across, cos(angle)), scale(frame.up, sin(angle)));
            for solid in solids {
                let point = solid.support(along);
                let off = [
                    dot(point, frame.across) - self.middle[0],
                    dot(point, frame.up) - self.middle[1],
                ];
                radius = radius.max((off[0] * off[0] + off[1] * off[1]).sqrt());
            }
        }
        radius
    }

    /// How much narrower the shadow of these solids is than an opening, both sides together,
    /// in m; negative where it is wider.
    pub(crate) fn spare(&self, solids: &[Convex], aperture: &Aperture) -> f64 {
        match aperture.outline {
            Outline::Circle { diameter } => diameter - 2.0 * self.radius(solids, &aperture.frame),
            Outline::Rectangle { width, height, .. } => {
                (width - self.size[0]).min(height - self.size[1])
            }
        }
    }
}

/// By how much a part is too large for an opening in whatever way it is turned and moved, in
/// m; `None` where that cannot be said from sizes.
///
/// As a convex solid goes through a flat opening, its middle passes the plane of the opening at
/// some moment. The section in that plane holds the ball about the middle that fits into the
/// solid; and of a block with sides a ≤ b ≤ c it also holds a chord of the rectangle b × c
/// through the middle, which is at least b long. The opening must hold both.
pub(crate) fn surely_too_large(shape: &Shape, outline: &Outline) -> Option<f64> {
    let (narrowest, widest) = match outline {
        Outline::Circle { diameter } => (*diameter, *diameter),
        Outline::Rectangle { width, height, .. } => {
            (width.min(*height), (width * width + height * height).sqrt())
        }
    };
    let excess = |solid: &Solid| {
        let ball = ball(solid) - narrowest;
        let chord = block_sides(solid).map_or(f64::NEG_INFINITY, |sides| sides[1] - widest);
        ball.max(chord)
    };
    let most = shape.solids.iter().map(excess).fold(0.0, f64::max);
    (most > EQUAL).then_some(most)
}

/// Diameter of the ball about the middle of a solid that fits into it.
fn ball(solid: &Solid) -> f64 {
    if let Some(sides) = block_sides(solid) {
        return sides[0];
    }
    match solid {
        Solid::Frustum {
            from,
            to,
            from_radius,
            to_radius,
        } => {
            let long = length(sub(*to, *from));
            let taper = (to_radius - from_radius) / long;
            long.min((from_radius + to_radius) / (1.0 + taper * taper).sqrt())
        }
        Solid::Hull(_) => {
            let solid = Convex::placed(solid, &crate::Pose::at([0.0; 3]));
            let middle = Convex::hull(vec![scale(add(solid.low, solid.high), 0.5)]);
            2.0 * overlap(&middle, &solid).0.max(0.0)
        }
    }
}

/// The sides of a rectangular block in rising order; `None` for anything else.
fn block_sides(solid: &Solid) -> Option<[f64; 3]> {
    let Solid::Hull(points) = solid else {
        return None;
    };
    let [first, rest @ ..] = points.as_slice() else {
        return None;
    };
    if points.len() != 8 {
        return None;
    }
    let mut ways: Vec<Vector> = rest.iter().map(|p| sub(*p, *first)).collect();
    ways.sort_by(|p, q| length(*p).total_cmp(&length(*q)));
    // The two shortest ways from a corner are sides; the third is the first one square to both.
    let normal = cross(ways[0], ways[1]);
    let third = ways[2..].iter().find(|way| {
        length(cross(normal, **way)) <= EQUAL * length(normal) && length(**way) > EQUAL
    })?;
    let sides = [ways[0], ways[1], *third];
    let square = dot(sides[0], sides[1]).abs() <= EQUAL * EQUAL.sqrt();
    let corner = |i: usize| {
        let mut at = *first;
        for (axis, side) in sides.iter().enumerate() {
            if i >> axis & 1 == 1 {
                at = add(at, *side);
            }
        }
        at
    };
    let full = (0..8).all(|i| points.iter().any(|p| length(sub(*p, corner(i))) <= EQUAL));
    let mut long = sides.map(length);
    long.sort_by(f64::total_cmp);
    (square && full).then_some(long)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn circle(diameter: f64) -> Outline {
        Outline::Circle { diameter }
    }

    #[test]
    fn a_block_is_known_by_its_corners() {
        let solid = Solid::block([0.1, 0.2, 0.3], [0.2, 0.5, 0.35]);
        let sides = block_sides(&solid).unwrap();
        for (got, wanted) in sides.iter().zip([0.05, 0.1, 0.3]) {
            assert!((got - wanted).abs() < 1e-12);
        }
        assert!((ball(&solid) - 0.05).abs() < 1e-6);
        let Solid::Hull(mut points) = solid else {
            panic!()
        };
        points[7][0] += 0.01;
        let bulged = Solid::Hull(points);
        assert!(block_sides(&bulged).is_none());
        assert!((ball(&bulged) - 0.05).abs() < 0.01);
        let cone = Solid::Frustum {
            from: [0.0; 3],
            to: [0.0, 0.0, 0.1],
            from_radius: 0.05,
            to_radius: 0.0,
        };
        // The middle of the axis lies 0.025 · cos(atan 0.5) off the flank.
        assert!((ball(&cone) - 0.05 / 1.25_f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn only_what_cannot_pass_is_called_too_large() {
        let battery = Shape::block([0.15, 0.065, 0.095]);
        assert!(surely_too_large(&battery, &circle(0.12)).is_none());
        // Between the middle side and the diagonal of the section nothing is proven.
        assert!(surely_too_large(&battery, &circle(0.10)).is_none());
        let excess = surely_too_large(&battery, &circle(0.09)).unwrap();
        assert!((excess - 0.005).abs() < 1e-6, "{excess}");
        let slot = Outline::Rectangle {
            width: 0.3,
            height: 0.06,
            corner: 0.0,
        };
        let excess = surely_too_large(&battery, &slot).unwrap();
        assert!((excess - 0.005).abs() < 1e-6, "{excess}");
    }
}
