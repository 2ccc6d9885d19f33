//! Two equal sources beside each other.

use crate::air::Air;
use crate::math::omega;
use crate::special::sinc;

/// Mean-square pressure of two equal coherent point sources over that of one,
/// averaged over all directions: 2(1 + sin(ks)/ks) (`morse-ingard`).
///
/// `spacing` s in m. 4 when they are close in wavelengths, 2 when far apart.
/// On the axis between them it stays 4; this is the mean a listener who
/// walks about finds.
#[must_use]
pub fn pair_gain(frequency: f64, spacing: f64, air: &Air) -> f64 {
    2.0 * (1.0 + sinc(omega(frequency) / air.sound_speed * spacing))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::{cos, power_from_db};
    use proptest::prelude::*;

    proptest! {
        /// The closed form equals the average of |1 + exp(jks cos θ)|² over the sphere.
        #[test]
        fn equals_the_average_over_directions(frequency in 10.0_f64..4000.0, spacing in 0.01_f64..1.0) {
            let air = Air::with(1.2, 343.0);
            let ks = omega(frequency) / air.sound_speed * spacing;
            let steps = 4000;
            let mut sum = 0.0;
            for i in 0..steps {
                let u = (f64::from(i) + 0.5) / f64::from(steps) * 2.0 - 1.0;
                sum += 2.0 + 2.0 * cos(ks * u);
            }
            let mean = sum / f64::from(steps);
            prop_assert!((pair_gain(frequency, spacing, &air) - mean).abs() < 1e-3);
        }

        /// Two sources give 6 dB together, 3 dB apart, and never more or much less.
        #[test]
        fn bounded(frequency in 1.0_f64..20_000.0, spacing in 0.0_f64..3.0) {
            let gain = pair_gain(frequency, spacing, &Air::with(1.2, 343.0));
            prop_assert!(gain <= 4.0 && gain > power_from_db(1.9));
        }
    }
}
