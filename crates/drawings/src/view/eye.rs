//! From where a scene is seen: parallel rays.

use crate::math;
use wood::vector::{Vector, dot};

/// A direction of sight with its sheet axes, a right-handed frame.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Eye {
    /// Runs to the right on the sheet.
    pub(crate) right: Vector,
    /// Runs upwards on the sheet.
    pub(crate) up: Vector,
    /// Points from the scene to the eye.
    pub(crate) near: Vector,
}

impl Eye {
    /// As the listener sees the box.
    pub(crate) const FRONT: Self = Self {
        right: [1.0, 0.0, 0.0],
        up: [0.0, 0.0, 1.0],
        near: [0.0, -1.0, 0.0],
    };
    /// From above, the front edge down.
    pub(crate) const TOP: Self = Self {
        right: [1.0, 0.0, 0.0],
        up: [0.0, 1.0, 0.0],
        near: [0.0, 0.0, 1.0],
    };
    /// From the right, the front to the left.
    pub(crate) const RIGHT: Self = Self {
        right: [0.0, 1.0, 0.0],
        up: [0.0, 0.0, 1.0],
        near: [1.0, 0.0, 0.0],
    };

    /// From the right, the front and above: turned by `azimuth` about the
    /// upright axis and raised by `elevation`, both in degrees.
    pub(crate) fn raised(azimuth: f64, elevation: f64) -> Self {
        let turn = |degrees: f64| {
            let r = degrees.to_radians();
            (math::sin(r), math::cos(r))
        };
        let ((sa, ca), (se, ce)) = (turn(azimuth), turn(elevation));
        Self {
            right: [ca, sa, 0.0],
            up: [-sa * se, ca * se, ce],
            near: [sa * ce, -ca * ce, se],
        }
    }

    /// A point in the frame of the eye: right, up, nearness.
    pub(crate) fn see(&self, p: Vector) -> [f64; 3] {
        [dot(p, self.right), dot(p, self.up), dot(p, self.near)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wood::vector::cross;

    #[test]
    fn every_eye_is_a_right_handed_frame() {
        for eye in [Eye::FRONT, Eye::TOP, Eye::RIGHT, Eye::raised(31.0, 27.0)] {
            let turned = cross(eye.right, eye.up);
            for (a, b) in turned.iter().zip(eye.near) {
                assert!((a - b).abs() < 1e-12, "{eye:?}");
            }
            assert!((dot(eye.near, eye.near) - 1.0).abs() < 1e-12);
        }
    }
}
