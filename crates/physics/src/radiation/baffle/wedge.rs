//! The edge wave of a rigid wedge of 90°, as on a box (`svensson-1999`).

use core::f64::consts::PI;

use crate::math::{cbrt, cos, sin};

/// π over the angle of the air around the edge, 3π/2.
const INDEX: f64 = 2.0 / 3.0;

/// Strength of an edge element lit from a point on one of its faces at a
/// distance m, per dz/m: −ν/2π (β(π+θ) + β(π−θ)), for a receiver at the angle
/// θ from that face.
///
/// `source` and `receiver` are the sines of the angles between the edge's
/// normal plane and the rays from the element to the two, along the same
/// direction of the edge.
pub(super) fn toward_listener(source: f64, receiver: f64, theta: f64) -> f64 {
    let spread = spread(source, receiver);
    -INDEX / (2.0 * PI) * (beta(PI + theta, spread) + beta(PI - theta, spread))
}

/// The same for a receiver on the face itself, as a source for the next edge:
/// half of the pressure on the face is the incident wave.
pub(super) fn along_face(source: f64, receiver: f64) -> f64 {
    -INDEX / (2.0 * PI) * beta(PI, spread(source, receiver))
}

/// cosh νη with cosh η = (1 − sin α sin γ)/(cos α cos γ), both angles measured
/// the same way along the edge.
fn spread(source: f64, receiver: f64) -> f64 {
    let across = ((1.0 - source * source) * (1.0 - receiver * receiver)).sqrt();
    let cosh = ((1.0 - source * receiver) / across).max(1.0);
    let root = cbrt(cosh + (cosh * cosh - 1.0).sqrt());
    let power = root * root;
    (power + 1.0 / power) / 2.0
}

fn beta(angle: f64, spread: f64) -> f64 {
    sin(INDEX * angle) / (spread - cos(INDEX * angle))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// On the axis, square to the edge: ν/2π · sin(π/3)/(1 − cos(π/3)) by hand.
    #[test]
    fn square_on() {
        let expected = -(2.0 / 3.0) / (2.0 * PI) * 3.0_f64.sqrt();
        assert!((toward_listener(0.0, 0.0, PI / 2.0) - expected).abs() < 1e-12);
    }

    /// Reciprocity: source and receiver may change places on the face.
    #[test]
    fn reciprocal_on_the_face() {
        for (a, b) in [(0.1, -0.7), (0.5, 0.5), (-0.9, 0.3)] {
            assert!((along_face(a, b) - along_face(b, a)).abs() < 1e-15);
        }
    }
}
