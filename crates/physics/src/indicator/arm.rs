//! Resistors, alone or two together.

/// A resistor and the tolerance of its value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resistor {
    /// Nominal value in Ω.
    pub ohms: f64,
    /// Tolerance as a share, one way.
    pub tolerance: f64,
}

impl Resistor {
    /// Nominal conductance in S.
    #[must_use]
    pub fn siemens(self) -> f64 {
        1.0 / self.ohms
    }
}

/// One arm of a divider.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Arm {
    /// One resistor.
    One(Resistor),
    /// Two in series.
    Series(Resistor, Resistor),
    /// Two in parallel.
    Parallel(Resistor, Resistor),
}

impl Arm {
    /// Nominal value in Ω.
    #[must_use]
    pub fn ohms(&self) -> f64 {
        match self {
            Self::One(one) => one.ohms,
            Self::Series(a, b) => a.ohms + b.ohms,
            Self::Parallel(a, b) => a.ohms * b.ohms / (a.ohms + b.ohms),
        }
    }

    /// Its resistors.
    pub fn resistors(&self) -> impl Iterator<Item = Resistor> {
        let (first, second) = match *self {
            Self::One(one) => (one, None),
            Self::Series(a, b) | Self::Parallel(a, b) => (a, Some(b)),
        };
        core::iter::once(first).chain(second)
    }

    /// How much of a relative change of each resistor the arm's value follows;
    /// the shares sum to 1.
    pub fn weights(&self) -> impl Iterator<Item = f64> {
        let (first, second) = match *self {
            Self::One(_) => (1.0, None),
            Self::Series(a, b) => {
                let share = a.ohms / (a.ohms + b.ohms);
                (share, Some(1.0 - share))
            }
            Self::Parallel(a, b) => {
                let share = b.ohms / (a.ohms + b.ohms);
                (share, Some(1.0 - share))
            }
        };
        core::iter::once(first).chain(second)
    }

    /// Tolerance of the whole as a share: the root of the sum of squares of what
    /// its resistors bring, which are taken to differ independently.
    #[must_use]
    pub fn tolerance(&self) -> f64 {
        let squares = self.resistors().zip(self.weights()).map(|(one, weight)| {
            let part = weight * one.tolerance;
            part * part
        });
        squares.sum::<f64>().sqrt()
    }

    /// Tolerance of the whole as a share with both resistors off the same way.
    #[must_use]
    pub fn worst_tolerance(&self) -> f64 {
        self.resistors()
            .zip(self.weights())
            .map(|(one, weight)| weight * one.tolerance)
            .sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const fn percent(ohms: f64, tolerance: f64) -> Resistor {
        Resistor { ohms, tolerance }
    }

    #[test]
    fn two_are_worth_what_they_are_worth() {
        let (a, b) = (percent(100e3, 0.01), percent(47e3, 0.05));
        for (arm, ohms, tolerance) in [
            (Arm::One(a), 100e3, 0.01),
            // (1 %·100, 5 %·47) over 147, in quadrature.
            (Arm::Series(a, b), 147e3, 0.017_373_60),
            // Weights turn round: 47/147 and 100/147.
            (Arm::Parallel(a, b), 31_972.789, 0.034_163_55),
        ] {
            assert!((arm.ohms() - ohms).abs() < 1e-3, "{arm:?}");
            assert!(
                (arm.tolerance() - tolerance).abs() < 1e-7,
                "{arm:?} {}",
                arm.tolerance()
            );
        }
    }

    proptest! {
        #[test]
        fn weights_are_derivatives(a in 1.0_f64..1e6, b in 1.0_f64..1e6) {
            let step = 1e-6;
            let make = |scale: f64, series: bool| {
                let (a, b) = (percent(a * scale, 0.01), percent(b, 0.01));
                if series { Arm::Series(a, b) } else { Arm::Parallel(a, b) }
            };
            for series in [true, false] {
                let arm = make(1.0, series);
                let slope = (make(1.0 + step, series).ohms() / arm.ohms() - 1.0) / step;
                prop_assert!((slope - arm.weights().next().unwrap()).abs() < 1e-4);
                prop_assert!((arm.weights().sum::<f64>() - 1.0).abs() < 1e-12);
                prop_assert!(arm.tolerance() <= arm.worst_tolerance() * (1.0 + 1e-12));
            }
        }
    }
}
