//! The plane circular piston in an infinite baffle.
//!
//! The radiation impedance of a piston of radius a and area S = πa² is
//! ρcS·(R₁(2ka) + jX₁(2ka)) (`vigran-2008` eq. 3.57; `morse-ingard`).

use crate::math::db_power;
use crate::special::{bessel_j1, struve_h1};

/// Below this argument 1 − 2J₁(x)/x is summed term by term, for it cancels.
const SERIES_BELOW: f64 = 2.0;

/// R₁(x) = 1 − 2J₁(x)/x with x = 2ka: the resistance ratio.
///
/// x²/8 at low frequency, 1 at high. Valid for x ≥ 0.
#[must_use]
pub fn resistance_ratio(two_ka: f64) -> f64 {
    if two_ka < SERIES_BELOW {
        let q = two_ka * two_ka / 4.0;
        let mut term = q / 2.0;
        let mut sum = term;
        let mut k = 1.0;
        while term.abs() > 1e-17 * sum {
            k += 1.0;
            term *= -q / (k * (k + 1.0));
            sum += term;
        }
        sum
    } else {
        1.0 - 2.0 * bessel_j1(two_ka) / two_ka
    }
}

/// X₁(x) = 2**H**₁(x)/x with x = 2ka: the reactance ratio.
///
/// 4x/3π at low frequency, falling as 4/πx at high. Valid for x ≥ 0.
#[must_use]
pub fn reactance_ratio(two_ka: f64) -> f64 {
    if two_ka > 0.0 {
        2.0 * struve_h1(two_ka) / two_ka
    } else {
        0.0
    }
}

/// D(x) = 2J₁(x)/x with x = ka sin θ: far-field pressure relative to the axis.
#[must_use]
pub fn directivity(ka_sin: f64) -> f64 {
    if ka_sin.abs() < 1e-4 {
        1.0 - ka_sin * ka_sin / 8.0
    } else {
        2.0 * bessel_j1(ka_sin) / ka_sin
    }
}

/// Directivity index 10 lg((ka)²/R₁(2ka)) in dB: on-axis intensity over the
/// mean over the whole sphere.
///
/// The half-space is counted in: 3.01 dB at low frequency. Valid for ka > 0.
#[must_use]
pub fn directivity_index(ka: f64) -> f64 {
    db_power(ka * ka / resistance_ratio(2.0 * ka))
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::f64::consts::PI;
    use proptest::prelude::*;

    #[test]
    fn limits() {
        let x = 1e-5;
        assert!((resistance_ratio(x) / (x * x / 8.0) - 1.0).abs() < 1e-9);
        assert!((reactance_ratio(x) / (4.0 * x / (3.0 * PI)) - 1.0).abs() < 1e-9);
        assert!((resistance_ratio(200.0) - 1.0).abs() < 1e-3);
        assert!((directivity_index(1e-4) - db_power(2.0)).abs() < 1e-6);
    }

    #[test]
    fn resistance_joins_smoothly() {
        let below = resistance_ratio(SERIES_BELOW - 1e-13);
        let above = resistance_ratio(SERIES_BELOW);
        assert!((below - above).abs() < 1e-13);
    }

    proptest! {
        #[test]
        fn piston_is_passive_and_bounded(x in 1e-6_f64..100.0) {
            prop_assert!(resistance_ratio(x) > 0.0);
            prop_assert!(resistance_ratio(x) < 1.14);
            prop_assert!(reactance_ratio(x) > 0.0);
            prop_assert!(directivity(x).abs() <= 1.0);
        }

        /// Power radiated through the half sphere equals power given by the
        /// piston: ∫ D² sin θ dθ = 2R₁(2ka)/(ka)².
        #[test]
        fn radiated_power_balances(ka in 0.05_f64..12.0) {
            let steps = 2000;
            let h = PI / 2.0 / f64::from(steps);
            let mut sum = 0.0;
            for i in 0..steps {
                let t = (f64::from(i) + 0.5) * h;
                let s = crate::math::sin(t);
                let d = directivity(ka * s);
                sum += d * d * s * h;
            }
            let given = resistance_ratio(2.0 * ka) / (ka * ka) * 2.0;
            prop_assert!((sum / given - 1.0).abs() < 1e-5, "{sum} {given}");
        }
    }
}
