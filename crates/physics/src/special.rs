//! Special functions that acoustics needs beside the elementary ones.

use core::f64::consts::{FRAC_2_PI, PI};

pub use libm::{j0 as bessel_j0, j1 as bessel_j1, y1 as bessel_y1};

/// Below this argument Struve's power series loses at most three digits.
const SERIES_BELOW: f64 = 8.0;

/// Above this argument the asymptotic series is exact to rounding.
const ASYMPTOTIC_ABOVE: f64 = 38.0;

/// sin(x)/x, 1 at zero.
#[must_use]
pub fn sinc(x: f64) -> f64 {
    if x.abs() < 1e-4 {
        1.0 - x * x / 6.0
    } else {
        crate::math::sin(x) / x
    }
}

/// Struve function **H**₁(x), for x ≥ 0.
///
/// The series agree with one another to 1e-12 where they meet, up to x = 100.
/// Power series `dlmf` 11.2.1, Bessel series § 11.4, asymptotic series 11.6.1.
#[must_use]
pub fn struve_h1(x: f64) -> f64 {
    if x < SERIES_BELOW {
        power_series(x)
    } else if x < ASYMPTOTIC_ABOVE {
        bessel_series(x)
    } else {
        asymptotic_series(x)
    }
}

/// Σ (−1)ᵏ (x/2)^(2k+2) / (Γ(k+3/2) Γ(k+5/2)).
fn power_series(x: f64) -> f64 {
    let mut term = FRAC_2_PI * x * x / 3.0;
    let mut sum = term;
    let mut k = 0.0;
    while term.abs() > 1e-17 * sum.abs() {
        k += 1.0;
        term *= -x * x / ((2.0 * k + 1.0) * (2.0 * k + 3.0));
        sum += term;
    }
    sum
}

/// 2/π (1 − J₀ + 2 Σ J₂ₖ/(4k²−1)), with the Bessel functions from the
/// downward recurrence normalised by J₀ + 2 Σ J₂ₖ = 1.
fn bessel_series(x: f64) -> f64 {
    let mut order = 2 * ((x / 2.0) as u32 + 20);
    let (mut above, mut here) = (0.0, 1e-30);
    let (mut norm, mut sum) = (0.0, 0.0);
    while order > 0 {
        let n = f64::from(order);
        norm += 2.0 * here;
        sum += 2.0 * here / (n * n - 1.0);
        let odd = 2.0 * n / x * here - above;
        let even = 2.0 * (n - 1.0) / x * odd - here;
        (above, here) = (odd, even);
        order -= 2;
    }
    norm += here;
    FRAC_2_PI * (1.0 + (sum - here) / norm)
}

/// Y₁ + 2/π (1 + 1/x² − 3/x⁴ + 45/x⁶ − …), summed to its smallest term.
fn asymptotic_series(x: f64) -> f64 {
    let mut term = 1.0;
    let mut sum = term;
    let mut k = 0.0;
    loop {
        let next = -term * (2.0 * k + 1.0) * (2.0 * k - 1.0) / (x * x);
        if next.abs() < 1e-17 || next.abs() >= term.abs() {
            break;
        }
        term = next;
        sum += term;
        k += 1.0;
    }
    bessel_y1(x) + 2.0 * sum / PI
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn struve_agrees_between_its_three_series() {
        for x in [6.0, 7.0, 8.0, 9.0] {
            let error = power_series(x) / bessel_series(x) - 1.0;
            assert!(error.abs() < 1e-12, "x = {x}: {error:e}");
        }
        for x in [36.0, 38.0, 60.0, 100.0] {
            let error = asymptotic_series(x) / bessel_series(x) - 1.0;
            assert!(error.abs() < 1e-12, "x = {x}: {error:e}");
        }
    }

    #[test]
    fn sinc_joins_smoothly() {
        assert_eq!(sinc(0.0), 1.0);
        assert!((sinc(1e-4 - 1e-12) - sinc(1e-4 + 1e-12)).abs() < 1e-15);
    }

    proptest! {
        /// The defining integral (2x/π) ∫₀^{π/2} sin(x cos θ) sin²θ dθ (`dlmf` 11.5.1),
        /// by Simpson's rule: a route that shares nothing with the series.
        #[test]
        fn struve_equals_its_integral(x in 0.01_f64..60.0) {
            use crate::math::{cos, sin};
            let steps = 4000;
            let h = PI / 2.0 / f64::from(steps);
            let integrand = |i: i32| {
                let t = f64::from(i) * h;
                sin(x * cos(t)) * sin(t) * sin(t)
            };
            let mut sum = integrand(0) + integrand(steps);
            for i in 1..steps {
                sum += integrand(i) * if i % 2 == 1 { 4.0 } else { 2.0 };
            }
            let expected = 2.0 * x / PI * sum * h / 3.0;
            prop_assert!((struve_h1(x) - expected).abs() < 1e-8 * (1.0 + expected.abs()));
        }
    }
}
