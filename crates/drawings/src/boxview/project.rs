//! The view: parallel rays, the same scale along all three axes of sight.

use crate::geometry::Point;
use crate::math;

/// Turn about the upright axis, degrees: how far to the right one stands.
const AZIMUTH: f64 = 31.0;
/// Height of the eye above the level, degrees.
const ELEVATION: f64 = 27.0;

/// Orthographic view of the box, in mm on the sheet per metre of the box.
#[derive(Clone, Copy)]
pub(crate) struct View {
    scale: f64,
    origin: Point,
    azimuth: (f64, f64),
    elevation: (f64, f64),
}

impl View {
    /// A view in which the middle of the front stands at `origin`.
    pub(crate) fn new(scale: f64, origin: Point) -> Self {
        let turn = |degrees: f64| {
            let r = degrees.to_radians();
            (math::sin(r), math::cos(r))
        };
        Self {
            scale,
            origin,
            azimuth: turn(AZIMUTH),
            elevation: turn(ELEVATION),
        }
    }

    /// Where a point of the box is seen.
    pub(crate) fn at(&self, [x, y, z]: [f64; 3]) -> Point {
        let ((sa, ca), (se, ce)) = (self.azimuth, self.elevation);
        self.origin.moved(
            self.scale * (x * ca + z * sa),
            self.scale * (x * sa * se - z * ca * se - y * ce),
        )
    }

    /// Distance from the eye, up to a constant, in metres.
    pub(crate) fn depth(&self, [x, y, z]: [f64; 3]) -> f64 {
        let ((sa, ca), (se, ce)) = (self.azimuth, self.elevation);
        z * ca * ce - x * sa * ce - y * se
    }

    /// The pictures of the half-diameters of a circle parallel to the front.
    pub(crate) fn circle(&self, radius: f64) -> ((f64, f64), (f64, f64)) {
        let zero = self.at([0.0; 3]);
        let across = self.at([radius, 0.0, 0.0]);
        let up = self.at([0.0, radius, 0.0]);
        (
            (across.x - zero.x, across.y - zero.y),
            (up.x - zero.x, up.y - zero.y),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_view_keeps_lengths_across_the_line_of_sight() {
        // Picture and distance together are a turn of space: lengths hold.
        let view = View::new(1.0, Point::default());
        for p in [
            [1.0, 0.0, 0.0],
            [0.0, 1.0, 0.0],
            [0.0, 0.0, 1.0],
            [0.3, -0.5, 0.7],
        ] {
            let (s, d) = (view.at(p), view.depth(p));
            let seen = s.x * s.x + s.y * s.y + d * d;
            let true_length: f64 = p.iter().map(|v| v * v).sum();
            assert!((seen - true_length).abs() < 1e-12, "{p:?}");
        }
    }
}
