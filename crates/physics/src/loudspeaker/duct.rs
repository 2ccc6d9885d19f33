//! A tube as a transmission line with losses at its wall.

use crate::air::Air;
use crate::circuit::{Band, LANES, Lanes, Reals, TwoPort};

/// Terms of the series of sinh z/z and cosh z in z²; full precision to |z| = 2.
const SERIES_TERMS: usize = 13;
const SERIES_TO: f64 = 4.0;

/// Equal parallel tubes, wide against the boundary layers.
///
/// Kirchhoff's wide-tube result: per length, z = jωρ/S/(1 − F(δ_ν)) and
/// y = jωS/ρc²·(1 + (γ−1)F(δ_t)), F(δ) = (1−j)δ/r, with viscous and thermal
/// layers δ_ν = √(2µ/ρω), δ_t = δ_ν/√Pr and hydraulic radius r
/// (`pierce-1989`). Within (δ/r)² of a round tube's exact law; for layers as thick as
/// the tube it stays passive but is no more than an order of magnitude.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Duct {
    length: f64,
    /// ρ/S in kg/m⁵.
    inertance: f64,
    /// S/ρc² in m²/Pa.
    compliance: f64,
    /// δ_ν√ω/r.
    viscous: f64,
    /// (γ−1)·δ_t√ω/r.
    thermal: f64,
    roughness: f64,
}

impl Duct {
    /// `count` tubes of `length` (m), open `area` (m²) each and hydraulic
    /// radius (m); `roughness` multiplies the viscous resistance.
    pub(crate) fn new(
        length: f64,
        area: f64,
        hydraulic_radius: f64,
        count: f64,
        roughness: f64,
        air: &Air,
    ) -> Self {
        let stiffness = air.density * air.sound_speed * air.sound_speed;
        let layer = (2.0 * air.viscosity / air.density).sqrt() / hydraulic_radius;
        Self {
            length,
            inertance: air.density / (area * count),
            compliance: area * count / stiffness,
            viscous: layer,
            thermal: (air.gamma - 1.0) * layer / air.prandtl.sqrt(),
            roughness,
        }
    }

    /// Series impedance and shunt admittance of the whole length, as if short.
    fn lumped(&self, band: &Band) -> (Lanes, Lanes) {
        let mut series = Lanes::ZERO;
        let mut shunt = Lanes::ZERO;
        for lane in 0..LANES {
            let omega = band.omega[lane];
            let layer = self.viscous / band.root[lane];
            let open = 1.0 - layer;
            let scale = omega * self.inertance * self.length / (open * open + layer * layer);
            series.re[lane] = scale * layer * self.roughness;
            series.im[lane] = scale * open;
            let heat = self.thermal / band.root[lane];
            let scale = omega * self.compliance * self.length;
            shunt.re[lane] = scale * heat;
            shunt.im[lane] = scale * (1.0 + heat);
        }
        (series, shunt)
    }
}

impl TwoPort for Duct {
    fn admittance(&self, band: &Band) -> [Lanes; 3] {
        let (series, shunt) = self.lumped(band);
        let (ratio, cosine) = hyperbolic(series * shunt);
        let transfer = (series * ratio).recip();
        let own = cosine * transfer;
        let across = -transfer;
        [own, across, own]
    }
}

/// sinh z/z and cosh z from z².
///
/// Both are entire functions of z², so no root or branch is needed; large
/// arguments are quartered and brought back by the double-angle formulas.
fn hyperbolic(square: Lanes) -> (Lanes, Lanes) {
    let largest = square.size().into_iter().fold(0.0, f64::max);
    let mut doublings = 0;
    let mut scale = 1.0;
    while largest * scale > SERIES_TO && doublings < 60 {
        scale *= 0.25;
        doublings += 1;
    }
    let (mut ratio, mut cosine) = series(square.scaled(scale));
    for _ in 0..doublings {
        ratio = ratio * cosine;
        cosine = (cosine * cosine).scaled(2.0) - Lanes::ONE;
    }
    (ratio, cosine)
}

fn series(square: Lanes) -> (Lanes, Lanes) {
    let mut ratio = Lanes::ONE;
    let mut cosine = Lanes::ONE;
    for term in (1..SERIES_TERMS).rev() {
        let k = 2.0 * term as f64;
        ratio = one_plus(1.0 / (k * (k + 1.0)), square, ratio);
        cosine = one_plus(1.0 / (k * (k - 1.0)), square, cosine);
    }
    (ratio, cosine)
}

#[inline(always)]
fn one_plus(factor: f64, a: Lanes, b: Lanes) -> Lanes {
    let mut out = (a * b).scaled(factor);
    let re: &mut Reals = &mut out.re;
    for value in re {
        *value += 1.0;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::{self, Complex};

    #[test]
    fn hyperbolic_functions_agree_with_the_exponential_ones() {
        for (re, im) in [
            (1e-6, 1e-3),
            (0.01, 0.3),
            (0.05, 2.9),
            (0.2, 11.0),
            (2.0, 40.0),
        ] {
            let z = Complex::new(re, im);
            let square = z * z;
            let mut lanes = Lanes::ZERO;
            for lane in 0..LANES {
                lanes.set_lane(lane, square);
            }
            let (ratio, cosine) = hyperbolic(lanes);
            let tolerance = 1e-13 * (1.0 + im * im);
            assert!(
                (ratio.lane(3) - z.sinh() / z).norm() < tolerance,
                "sinh {z}"
            );
            assert!((cosine.lane(3) - z.cosh()).norm() < tolerance, "cosh {z}");
        }
    }

    /// J₁(z)/J₀(z) by power series; good to |z| near 20 off the real axis.
    fn bessel_ratio(z: Complex) -> Complex {
        let square = -z * z / 4.0;
        let (mut zero, mut one) = (Complex::new(1.0, 0.0), Complex::new(1.0, 0.0));
        let (mut sum_zero, mut sum_one) = (zero, one);
        for k in 1..120_u32 {
            let k = f64::from(k);
            zero *= square / (k * k);
            one *= square / (k * (k + 1.0));
            sum_zero += zero;
            sum_one += one;
        }
        z / 2.0 * sum_one / sum_zero
    }

    /// The exact function of a round tube, F = 2J₁(z)/(zJ₀(z)) with
    /// z = r√(−jωρ/µ) (`zwikker-1949`): the wide-tube form is off by (δ/r)²/2.
    #[test]
    fn wide_tube_losses_are_good_to_second_order() {
        let air = Air::with(1.2, 343.0);
        let (radius, length) = (0.004, 0.1);
        let area = core::f64::consts::PI * radius * radius;
        let duct = Duct::new(length, area, radius, 1.0, 1.0, &air);
        for frequency in [20.0, 40.0, 80.0] {
            let omega = math::omega(frequency);
            let layer = (2.0 * air.viscosity / (air.density * omega)).sqrt() / radius;
            let exact = |prandtl: f64| {
                let s = radius * (omega * air.density * prandtl / air.viscosity).sqrt();
                let z = Complex::new(0.0, -1.0).sqrt() * s;
                bessel_ratio(z) * 2.0 / z
            };
            let (series, shunt) = duct.lumped(&Band::splat(frequency));
            let j_omega = Complex::new(0.0, omega);
            let ideal = j_omega * air.density * length / area;
            let viscous = ideal / (1.0 - exact(1.0));
            let stiffness = air.density * air.sound_speed * air.sound_speed;
            let ideal = j_omega * area * length / stiffness;
            let thermal = ideal * (1.0 + (air.gamma - 1.0) * exact(air.prandtl));
            for (got, exact) in [(series, viscous), (shunt, thermal)] {
                let off = (got.lane(0) - exact).norm() / exact.norm();
                assert!(off < 0.8 * layer * layer, "{off} at {layer}");
            }
        }
    }

    #[test]
    fn a_short_duct_is_its_mass() {
        let air = Air::with(1.2, 343.0);
        let duct = Duct::new(0.01, 0.002, 0.5, 1.0, 1.0, &air);
        let band = Band::splat(20.0);
        let y = duct.admittance(&band)[1].lane(0);
        let mass = -1.0 / (y * Complex::new(0.0, band.omega[0]));
        assert!((mass.re / (1.2 * 0.01 / 0.002) - 1.0).abs() < 1e-3);
    }
}
