//! Frequency-dependent loads of the air: pistons, vent mouths, ducts.

use core::f64::consts::{FRAC_1_SQRT_2, PI};

use super::system::VentEnd;
use crate::air::Air;
use crate::circuit::{Band, LANES, Lanes, OnePort, Reals};
use crate::radiation::piston;

/// End correction of a tube in free space over its radius (`levine-1948`; the
/// integral there evaluated anew).
pub(crate) const FREE_END: f64 = 0.612_701_035_9;

/// End correction of a flanged tube over its radius (exact potential flow by
/// mode matching; `norris-1989`).
pub(crate) const FLUSH_END: f64 = 0.821_673;

/// End correction of a piston in a wide wall over its radius, 8/3π.
pub(crate) const PISTON_END: f64 = 8.0 / (3.0 * PI);

/// The radius of a circle of this area.
pub(crate) fn radius(area: f64) -> f64 {
    (area / PI).sqrt()
}

/// A radiation impedance of the piston's form: r·R₁(x) + j·s·X₁(x), x = ω·stretch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Radiation {
    /// x over ω, in s.
    stretch: f64,
    resistance: f64,
    reactance: f64,
}

impl Radiation {
    /// The face of `count` pistons in a wide wall that move together, as a
    /// mechanical impedance ρcS(R₁ + jX₁) each; their action on one another is
    /// left out.
    pub(crate) fn cone(area: f64, count: f64, air: &Air) -> Self {
        let plane = air.density * air.sound_speed * area * count;
        Self {
            stretch: 2.0 * radius(area) / air.sound_speed,
            resistance: plane,
            reactance: plane,
        }
    }

    /// The outer ends of `count` vents in parallel, as an acoustical impedance.
    ///
    /// Exact in the limit of low frequency: mass by the end correction,
    /// resistance ρω²/2πc flush or half of that free. Above, the piston's
    /// functions carry it on, which keeps it passive: a flush mouth is a piston
    /// to within 3 % in mass; a free one is stretched to its own limits.
    pub(crate) fn mouth(end: VentEnd, area: f64, count: f64, air: &Air) -> Self {
        let plane = air.density * air.sound_speed / (area * count);
        let (squeeze, correction) = match end {
            VentEnd::Flush => (1.0, FLUSH_END),
            VentEnd::Free => (FRAC_1_SQRT_2, FREE_END),
            VentEnd::None => (1.0, 0.0),
        };
        Self {
            stretch: squeeze * 2.0 * radius(area) / air.sound_speed,
            resistance: if correction > 0.0 { plane } else { 0.0 },
            reactance: plane * correction / (squeeze * PISTON_END),
        }
    }
}

impl OnePort for Radiation {
    fn impedance(&self, band: &Band) -> Lanes {
        let argument = band.omega.map(|omega| omega * self.stretch);
        let (resistance, reactance) = piston_ratios(&argument);
        let mut out = Lanes::ZERO;
        for lane in 0..LANES {
            out.re[lane] = self.resistance * resistance[lane];
            out.im[lane] = self.reactance * reactance[lane];
        }
        out
    }
}

/// Up to this argument the power series keeps full precision.
const SERIES_TO: f64 = 5.0;
const SERIES_TERMS: usize = 18;

/// R₁ and X₁ in every lane.
///
/// Box work is nearly all at small arguments, where the power series of both
/// vectorises; beyond it the general functions are called.
fn piston_ratios(argument: &Reals) -> (Reals, Reals) {
    let square = argument.map(|x| x * x);
    let mut resistance = [1.0; LANES];
    let mut reactance = [1.0; LANES];
    for term in (1..SERIES_TERMS).rev() {
        let k = term as f64;
        let even = -0.25 / ((k + 1.0) * (k + 2.0));
        let odd = -1.0 / ((2.0 * k + 1.0) * (2.0 * k + 3.0));
        for lane in 0..LANES {
            resistance[lane] = 1.0 + even * square[lane] * resistance[lane];
            reactance[lane] = 1.0 + odd * square[lane] * reactance[lane];
        }
    }
    for lane in 0..LANES {
        let x = argument[lane];
        resistance[lane] *= square[lane] / 8.0;
        reactance[lane] *= 4.0 / (3.0 * PI) * x;
        if x > SERIES_TO {
            resistance[lane] = piston::resistance_ratio(x);
            reactance[lane] = piston::reactance_ratio(x);
        }
    }
    (resistance, reactance)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math;

    #[test]
    fn series_agrees_with_the_general_functions() {
        for step in 0..=40_u32 {
            let x = 0.02 + SERIES_TO * f64::from(step) / 41.0;
            let (resistance, reactance) = piston_ratios(&[x; LANES]);
            let (r, s) = (piston::resistance_ratio(x), piston::reactance_ratio(x));
            assert!((resistance[0] / r - 1.0).abs() < 1e-11, "R at {x}");
            assert!((reactance[0] / s - 1.0).abs() < 1e-11, "X at {x}");
        }
    }

    /// |R| of a thin-walled tube's end, Levine and Schwinger's equation by
    /// quadrature; x = ka·sin θ takes the root out of the integrand.
    fn unflanged_reflection(ka: f64) -> f64 {
        let steps = 4_000_u32;
        let integral: f64 = (0..steps)
            .map(|step| {
                let angle = (f64::from(step) + 0.5) / f64::from(steps) * PI / 2.0;
                let x = ka * math::sin(angle);
                math::atan(-libm::j1(x) / libm::y1(x)) / x
            })
            .sum::<f64>()
            * PI
            / 2.0
            / f64::from(steps);
        math::exp(-2.0 * ka / PI * integral)
    }

    /// A free mouth reflects as much as the exact theory has it, as far as
    /// vents are used: within 2 % up to ka = 1 (`levine-1948`).
    #[test]
    fn free_mouth_reflects_as_an_unflanged_tube() {
        let air = Air::with(1.2, 343.0);
        let radius = 0.03;
        let area = PI * radius * radius;
        let plane = air.density * air.sound_speed / area;
        for ka in [0.05, 0.1, 0.2, 0.5, 0.8, 1.0] {
            let band = Band::splat(ka * air.sound_speed / (2.0 * PI * radius));
            let z = Radiation::mouth(VentEnd::Free, area, 1.0, &air).impedance(&band);
            let reflection = ((z.lane(0) - plane) / (z.lane(0) + plane)).norm();
            let exact = unflanged_reflection(ka);
            assert!(
                (reflection / exact - 1.0).abs() < 0.02,
                "{reflection} {exact} at {ka}"
            );
        }
    }

    #[test]
    fn mouths_have_the_stated_limits() {
        let air = Air::with(1.2, 343.0);
        let area = PI * 0.03 * 0.03;
        let frequency = 5.0;
        let band = Band::splat(frequency);
        let omega = band.omega[0];
        for (end, correction, solid_angle) in [
            (VentEnd::Free, FREE_END, 4.0 * PI),
            (VentEnd::Flush, FLUSH_END, 2.0 * PI),
        ] {
            let z = Radiation::mouth(end, area, 1.0, &air)
                .impedance(&band)
                .lane(0);
            let resistance = air.density * omega * omega / (solid_angle * air.sound_speed);
            let mass = air.density * correction * 0.03 / area;
            assert!((z.re / resistance - 1.0).abs() < 1e-4);
            assert!((z.im / (omega * mass) - 1.0).abs() < 1e-4);
        }
        let none = Radiation::mouth(VentEnd::None, area, 1.0, &air).impedance(&band);
        assert_eq!(none, Lanes::ZERO);
    }
}
