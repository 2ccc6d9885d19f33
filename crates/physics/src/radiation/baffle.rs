//! The box's own front.

use core::f64::consts::PI;

use crate::air::Air;
use crate::math::{Complex, cos, omega, sin, sincos};

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

/// Far-field pressure on the axis relative to a free-field monopole of the
/// same volume velocity; time goes as exp(+jωt).
#[must_use]
pub fn on_axis(face: &Face, frequency: f64, air: &Air) -> Complex {
    BaffleModel::new(face).gain(frequency, air.sound_speed)
}

/// Distances from the source to the rim of the front, ready for any frequency.
#[derive(Clone, Debug, PartialEq)]
pub struct BaffleModel {
    shortest: f64,
    step: f64,
    shares: Vec<f64>,
}

/// Bins of rim distance.
const BINS: usize = 256;

/// Directions from each point of the source to the rim.
const DIRECTIONS: u32 = 256;

impl BaffleModel {
    /// Measures the rim of a front.
    #[must_use]
    pub fn new(face: &Face) -> Self {
        let mut distances = Vec::new();
        for (x, y) in source_points(face) {
            for i in 0..DIRECTIONS {
                let angle = 2.0 * PI * (f64::from(i) + 0.5) / f64::from(DIRECTIONS);
                distances.push(rim_distance(face, x, y, angle));
            }
        }
        let shortest = distances.iter().copied().fold(f64::INFINITY, f64::min);
        let longest = distances.iter().copied().fold(0.0, f64::max);
        let step = (longest - shortest) / (BINS - 2) as f64;
        let mut shares = vec![0.0; BINS];
        let each = 1.0 / distances.len() as f64;
        for distance in distances {
            let position = if step > 0.0 {
                (distance - shortest) / step
            } else {
                0.0
            };
            let bin = position as usize;
            let part = position - bin as f64;
            shares[bin] += each * (1.0 - part);
            shares[bin + 1] += each * part;
        }
        Self {
            shortest,
            step,
            shares,
        }
    }

    /// Far-field pressure on the axis at a frequency in Hz and a speed of
    /// sound in m/s, relative to a free-field monopole of the same volume velocity.
    #[must_use]
    pub fn gain(&self, frequency: f64, sound_speed: f64) -> Complex {
        let k = omega(frequency) / sound_speed;
        let turn = phasor(-k * self.step);
        let mut phase = phasor(-k * self.shortest);
        let mut sum = Complex::new(0.0, 0.0);
        for &share in &self.shares {
            sum += phase * share;
            phase *= turn;
        }
        2.0 - sum
    }
}

fn phasor(angle: f64) -> Complex {
    let (sine, cosine) = sincos(angle);
    Complex::new(cosine, sine)
}

/// Points spread evenly over the area of the source.
fn source_points(face: &Face) -> impl Iterator<Item = (f64, f64)> + '_ {
    const POINTS: u32 = 24;
    const GOLDEN: f64 = 2.399_963_229_728_653;
    (0..POINTS).map(|i| {
        let radius = face.source_radius * ((f64::from(i) + 0.5) / f64::from(POINTS)).sqrt();
        let angle = GOLDEN * f64::from(i);
        (
            face.source_x + radius * cos(angle),
            face.source_y + radius * sin(angle),
        )
    })
}

/// From a point of the front to its rim in a direction.
fn rim_distance(face: &Face, x: f64, y: f64, angle: f64) -> f64 {
    let (sine, cosine) = sincos(angle);
    let across = (0.5 * face.width - x * cosine.signum()).max(0.0) / cosine.abs();
    let along = (0.5 * face.height - y * sine.signum()).max(0.0) / sine.abs();
    across.min(along)
}
