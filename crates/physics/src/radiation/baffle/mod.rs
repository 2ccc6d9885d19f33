//! The box's own front: what its edges do to the sound of a driver on it.
//!
//! A driver on a wide front radiates into half a sphere, +6 dB; the edges send
//! out a wave of their own that takes this away again at low frequency and
//! makes ripples above. The model follows the edge wave of the exact solution
//! for a wedge (`svensson-1999`): once diffracted, and twice diffracted across
//! the front; what comes after that goes with the second, so that the limit at
//! low frequency is a point source in free air.
//!
//! Left out: how deep the box is, its rear edges, paths round its sides, and
//! rounded edges. Against a boundary-element solution of two boxes (a cube,
//! and one of 2:3:1.5 with its source off centre), with k = 2πf/c:
//!
//! | direction | up to k·width = 6 | from 6 to 13 |
//! | --- | --- | --- |
//! | on the axis | 0.6 dB | 0.8 dB |
//! | 30° off | 0.8 dB | 0.5 dB |
//! | 60° off | 1.0 dB | 0.7 dB |
//!
//! Directions further off than 60° are not offered: there the depth matters.

mod rim;
mod wedge;

use crate::math::{Complex, omega, sincos};
use crate::radiation::piston::directivity;
use rim::{Echo, Rim};

/// A driver on the rectangular front of a box. Lengths in m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// Width of the front.
    pub width: f64,
    /// Height of the front.
    pub height: f64,
    /// Place of the source from the middle, to the right.
    pub source_x: f64,
    /// Place of the source from the middle, upwards.
    pub source_y: f64,
    /// Radius of the source.
    pub source_radius: f64,
}

/// The edge waves of a front in one direction, ready for any frequency.
#[derive(Clone, Debug, PartialEq)]
pub struct BaffleModel {
    /// Sine of the angle off the axis times the radius of the source.
    radius_sine: f64,
    /// How much nearer the middle of the source is than that of the front.
    lead: f64,
    once: Arrivals,
    twice: Arrivals,
}

impl BaffleModel {
    /// On the axis.
    #[must_use]
    pub fn new(face: &Face) -> Self {
        Self::toward(face, 0.0, 0.0)
    }

    /// Towards a listener `horizontal` rad to the right and `vertical` rad up;
    /// held within 60° of the axis in each.
    #[must_use]
    pub fn toward(face: &Face, horizontal: f64, vertical: f64) -> Self {
        let limit = core::f64::consts::FRAC_PI_3;
        let (sin_h, cos_h) = sincos(horizontal.clamp(-limit, limit));
        let (sin_v, cos_v) = sincos(vertical.clamp(-limit, limit));
        let direction = [sin_h * cos_v, sin_v];
        let rim = Rim::new(face, direction, cos_h * cos_v);
        let once = rim.once();
        let mut twice = rim.twice();
        let low_limit = 2.0 + total(&once);
        let rest = (1.0 - low_limit) / total(&twice);
        twice.iter_mut().for_each(|echo| echo.amplitude *= rest);
        let sine = (direction[0] * direction[0] + direction[1] * direction[1]).sqrt();
        Self {
            radius_sine: face.source_radius * sine,
            lead: face.source_x * direction[0] + face.source_y * direction[1],
            once: Arrivals::sort(&once),
            twice: Arrivals::sort(&twice),
        }
    }

    /// Far-field pressure at a frequency in Hz and a speed of sound in m/s,
    /// relative to a free-field monopole of the same volume velocity at the
    /// middle of the front.
    #[must_use]
    pub fn gain(&self, frequency: f64, sound_speed: f64) -> Complex {
        let k = omega(frequency) / sound_speed;
        let direct = phasor(k * self.lead) * (2.0 * directivity(k * self.radius_sine));
        direct + self.once.sum(k) + self.twice.sum(k)
    }
}

fn total(echoes: &[Echo]) -> f64 {
    echoes.iter().map(|echo| echo.amplitude).sum()
}

fn phasor(angle: f64) -> Complex {
    let (sine, cosine) = sincos(angle);
    Complex::new(cosine, sine)
}

/// Edge waves sorted by how far they travelled, into bins of equal width.
#[derive(Clone, Debug, PartialEq)]
struct Arrivals {
    shortest: f64,
    step: f64,
    amplitudes: Vec<f64>,
}

/// Bins of path length: a millimetre or two each, a fraction of a wave at 20 kHz.
const BINS: usize = 256;

impl Arrivals {
    /// Shares each wave between the two bins it lies between.
    fn sort(echoes: &[Echo]) -> Self {
        let path = |echo: &Echo| echo.path;
        let shortest = echoes.iter().map(path).fold(f64::INFINITY, f64::min);
        let longest = echoes.iter().map(path).fold(f64::NEG_INFINITY, f64::max);
        let step = (longest - shortest) / (BINS - 2) as f64;
        let mut amplitudes = vec![0.0; BINS];
        for echo in echoes {
            let position = if step > 0.0 {
                (echo.path - shortest) / step
            } else {
                0.0
            };
            let bin = (position as usize).min(BINS - 2);
            let part = position - bin as f64;
            amplitudes[bin] += echo.amplitude * (1.0 - part);
            amplitudes[bin + 1] += echo.amplitude * part;
        }
        Self {
            shortest,
            step,
            amplitudes,
        }
    }

    /// Σ a·exp(−jks).
    fn sum(&self, k: f64) -> Complex {
        let turn = phasor(-k * self.step);
        let mut phase = phasor(-k * self.shortest);
        let mut sum = Complex::new(0.0, 0.0);
        for &amplitude in &self.amplitudes {
            sum += phase * amplitude;
            phase *= turn;
        }
        sum
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn any_face() -> impl Strategy<Value = Face> {
        (
            0.1_f64..0.8,
            0.1_f64..0.8,
            -0.6_f64..0.6,
            -0.6_f64..0.6,
            0.01_f64..0.9,
        )
            .prop_map(|(width, height, right, up, size)| {
                let (source_x, source_y) = (0.5 * right * width, 0.5 * up * height);
                let room = (0.5 * width - source_x.abs()).min(0.5 * height - source_y.abs());
                Face {
                    width,
                    height,
                    source_x,
                    source_y,
                    source_radius: size * room,
                }
            })
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]

        /// A box small in wavelengths is a point source; a large one gives 6 dB
        /// on the axis, less ripple.
        #[test]
        fn limits(face in any_face()) {
            let model = BaffleModel::new(&face);
            prop_assert!((model.gain(0.001, 343.0).norm() - 1.0).abs() < 1e-4);
            let size = face.width.min(face.height);
            let mean = (0..200)
                .map(|i| model.gain((20.0 + f64::from(i)) * 343.0 / size, 343.0).norm_sqr())
                .sum::<f64>() / 200.0;
            prop_assert!((3.7..4.9).contains(&mean), "{mean}");
        }

        /// Twice the size at half the frequency sounds the same.
        #[test]
        fn scales(face in any_face(), frequency in 50.0_f64..4000.0, angle in -1.0_f64..1.0) {
            let twice = Face {
                width: 2.0 * face.width,
                height: 2.0 * face.height,
                source_x: 2.0 * face.source_x,
                source_y: 2.0 * face.source_y,
                source_radius: 2.0 * face.source_radius,
            };
            let one = BaffleModel::toward(&face, angle, 0.0).gain(frequency, 343.0);
            let two = BaffleModel::toward(&twice, angle, 0.0).gain(frequency / 2.0, 343.0);
            prop_assert!((one - two).norm() < 1e-9);
        }

        /// Left and right, and width and height, are mirror images.
        #[test]
        fn mirrors(face in any_face(), frequency in 50.0_f64..4000.0, angle in -1.0_f64..1.0) {
            let here = BaffleModel::toward(&face, angle, 0.0).gain(frequency, 343.0);
            let flipped = Face { source_x: -face.source_x, ..face };
            let there = BaffleModel::toward(&flipped, -angle, 0.0).gain(frequency, 343.0);
            prop_assert!((here.norm() - there.norm()).abs() < 1e-9);
            let turned = Face {
                width: face.height,
                height: face.width,
                source_x: face.source_y,
                source_y: face.source_x,
                ..face
            };
            let lying = BaffleModel::toward(&turned, 0.0, angle).gain(frequency, 343.0);
            prop_assert!((here.norm() - lying.norm()).abs() < 1e-9);
        }
    }
}
