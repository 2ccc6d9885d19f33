//! Mode shapes of slender beams, from which those of plates are put together.
//!
//! A shape on the unit length is X(x) = cosh βx − cos βx − σ(sinh βx − sin βx)
//! where its first end is held fast, √2·sin βx where both are supported; then
//! ∫X² = 1 and X'''' = β⁴X. Roots and integrals: `leissa-1973`, recomputed here.

use crate::math::{cos, cosh, sin, sinh};
use core::f64::consts::PI;

/// How a pair of opposite edges is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hold {
    /// Both free to turn.
    Supported,
    /// Both held fast.
    Clamped,
    /// One free to turn, the other held fast.
    OneOfEach,
}

/// Shapes used along each axis.
pub(super) const COUNT: usize = 6;

/// One mode shape of a beam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Beam {
    hold: Hold,
    /// β for the unit length.
    pub(super) root: f64,
    /// σ of the shape; 0 where both ends are supported.
    ratio: f64,
}

impl Beam {
    /// The lowest shapes of a hold, such that those which are coupled stand together.
    pub(super) fn all(hold: Hold) -> [Self; COUNT] {
        let parity_first = |place: usize| match hold {
            Hold::OneOfEach => place,
            // Even ones first, then odd ones.
            _ => 2 * (place % (COUNT / 2)) + place / (COUNT / 2),
        };
        core::array::from_fn(|place| Self::new(hold, parity_first(place)))
    }

    /// The shape with so many nodes between the ends.
    fn new(hold: Hold, nodes: usize) -> Self {
        let root = root(hold, nodes as f64);
        let ratio = match hold {
            Hold::Supported => 0.0,
            _ => (cosh(root) - cos(root)) / (sinh(root) - sin(root)),
        };
        Self { hold, root, ratio }
    }

    /// ∫X'Y' over the unit length for two shapes of one hold that are coupled.
    pub(super) fn slopes(&self, other: &Self) -> f64 {
        let held = match self.hold {
            Hold::Supported => {
                return if self.root == other.root {
                    self.root * self.root
                } else {
                    0.0
                };
            }
            Hold::Clamped => 2.0,
            Hold::OneOfEach => 1.0,
        };
        let (mine, theirs) = (self.ratio * self.root, other.ratio * other.root);
        if self.root == other.root {
            return mine * (mine - held);
        }
        // Partial integration leaves the products of curvature and shear at held ends.
        let (b, c) = (self.root * self.root, other.root * other.root);
        4.0 * held * b * c * (mine - theirs) / (c * c - b * b)
    }
}

/// Groups of shapes between which nothing couples: those alike about the
/// middle, and those that change sign there, where both ends are held alike.
pub(super) fn uncoupled(beams: &[Beam; COUNT]) -> impl Iterator<Item = &[Beam]> {
    let group = match beams[0].hold {
        Hold::OneOfEach => COUNT,
        _ => COUNT / 2,
    };
    beams.chunks(group)
}

/// β of the shape with so many nodes, by Newton's rule on a function without a pole.
fn root(hold: Hold, nodes: f64) -> f64 {
    match hold {
        Hold::Supported => (nodes + 1.0) * PI,
        // cos β = 1 / cosh β.
        Hold::Clamped => newton((nodes + 1.5) * PI, |b| {
            let inverse = 1.0 / cosh(b);
            (cos(b) - inverse, -sin(b) + inverse * sinh(b) / cosh(b))
        }),
        // sin β = cos β · tanh β.
        Hold::OneOfEach => newton((nodes + 1.25) * PI, |b| {
            let tanh = sinh(b) / cosh(b);
            (
                sin(b) - cos(b) * tanh,
                cos(b) + sin(b) * tanh - cos(b) * (1.0 - tanh * tanh),
            )
        }),
    }
}

fn newton(start: f64, function: impl Fn(f64) -> (f64, f64)) -> f64 {
    (0..8).fold(start, |at, _| {
        let (value, slope) = function(at);
        at - value / slope
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    impl Beam {
        /// X and X' at a point of the unit length.
        fn at(&self, x: f64) -> [f64; 2] {
            let (b, s) = (self.root, self.ratio);
            if self.hold == Hold::Supported {
                let root = core::f64::consts::SQRT_2;
                return [root * sin(b * x), root * b * cos(b * x)];
            }
            [
                cosh(b * x) - cos(b * x) - s * (sinh(b * x) - sin(b * x)),
                b * (sinh(b * x) + sin(b * x) - s * (cosh(b * x) - cos(b * x))),
            ]
        }
    }

    /// Simpson's rule: at 4000 steps good to 1e-9 for six waves.
    fn integral(function: impl Fn(f64) -> f64) -> f64 {
        let steps = 4000;
        let weight = |step| match step {
            0 | 4000 => 1.0,
            odd if odd % 2 == 1 => 4.0,
            _ => 2.0,
        };
        let sum: f64 = (0..=steps)
            .map(|step| weight(step) * function(f64::from(step) / f64::from(steps)))
            .sum();
        sum / (3.0 * f64::from(steps))
    }

    #[test]
    fn shapes_are_normal_and_their_slopes_integrate_as_said() {
        for hold in [Hold::Supported, Hold::Clamped, Hold::OneOfEach] {
            let beams = Beam::all(hold);
            for group in uncoupled(&beams) {
                for one in group {
                    for other in group {
                        let product = integral(|x| one.at(x)[0] * other.at(x)[0]);
                        let unit = f64::from(u8::from(one == other));
                        assert!((product - unit).abs() < 1e-6, "{one:?} {other:?} {product}");
                        let slopes = integral(|x| one.at(x)[1] * other.at(x)[1]);
                        let said = one.slopes(other);
                        let scale = one.root * other.root;
                        assert!(
                            (slopes - said).abs() < 1e-6 * scale,
                            "{slopes} {said} {one:?} {other:?}"
                        );
                    }
                }
            }
        }
    }

    #[test]
    fn groups_do_not_couple() {
        for hold in [Hold::Supported, Hold::Clamped] {
            let beams = Beam::all(hold);
            let slopes = integral(|x| beams[0].at(x)[1] * beams[3].at(x)[1]);
            assert!(slopes.abs() < 1e-6, "{slopes}");
        }
    }
}
