//! What is expected of a driver of which only size and kind are known.
//!
//! Medians over drivers of one size and kind, scaled by simple powers of the
//! size: common practice, no source. Their spreads are in [`crate::vary::spreads`].

use design::DriverKind;
use physics::math::pow;

/// Medians for one size and kind, SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Expected {
    pub(crate) sd: f64,
    pub(crate) fs: f64,
    pub(crate) mms: f64,
    pub(crate) qms: f64,
    pub(crate) qes: f64,
    pub(crate) xmax: f64,
    pub(crate) le: f64,
    pub(crate) power: f64,
}

/// At a nominal size of four inches: fs Hz, Mms kg, Qms, Qes, Xmax m, Le H, power W.
const fn at_four_inches(kind: DriverKind) -> [f64; 7] {
    match kind {
        DriverKind::FullRange => [95.0, 3.8e-3, 3.8, 0.75, 2.2e-3, 0.20e-3, 15.0],
        DriverKind::Woofer => [70.0, 6.5e-3, 4.0, 0.50, 3.2e-3, 0.40e-3, 25.0],
        DriverKind::Coaxial => [98.0, 4.8e-3, 4.5, 0.85, 2.4e-3, 0.25e-3, 22.0],
        DriverKind::Subwoofer => [52.0, 13.0e-3, 4.5, 0.50, 5.5e-3, 0.70e-3, 40.0],
    }
}

/// What to expect of a driver of `size` metres ("4 in" is 0.1016).
pub(crate) fn expected(kind: DriverKind, size: f64) -> Expected {
    let ratio = size / 0.1016;
    let [fs, mms, qms, qes, xmax, le, power] = at_four_inches(kind);
    let effective = 0.80 * size;
    Expected {
        sd: core::f64::consts::FRAC_PI_4 * effective * effective,
        fs: fs * pow(ratio, -0.8),
        mms: mms * pow(ratio, 2.2),
        qms,
        qes,
        xmax: xmax * pow(ratio, 0.6),
        le: le * pow(ratio, 0.8),
        power: power * ratio,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_larger_driver_is_heavier_and_resonates_lower() {
        for kind in [
            DriverKind::FullRange,
            DriverKind::Coaxial,
            DriverKind::Woofer,
        ] {
            let (small, large) = (expected(kind, 0.076), expected(kind, 0.165));
            assert!(large.mms > small.mms && large.fs < small.fs && large.sd > small.sd);
        }
    }
}
