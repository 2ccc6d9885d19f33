//! Open-circuit voltage of one cell against its state of charge.

/// Points at 0, 0.1 … 1 of full charge.
const POINTS: usize = 11;

/// A smooth curve through eleven evenly spaced points that rises wherever they rise.
pub(super) struct Curve {
    values: [f64; POINTS],
    slopes: [f64; POINTS],
}

impl Curve {
    /// Monotone cubic: slopes are harmonic means of the neighbouring
    /// differences (`fritsch-butland-1984`), at the ends the difference itself.
    pub(super) const fn through(values: [f64; POINTS]) -> Self {
        let last = POINTS - 1;
        let mut slopes = [0.0; POINTS];
        slopes[0] = values[1] - values[0];
        slopes[last] = values[last] - values[last - 1];
        let mut i = 1;
        while i < last {
            let (below, above) = (values[i] - values[i - 1], values[i + 1] - values[i]);
            if below * above > 0.0 {
                slopes[i] = 2.0 * below * above / (below + above);
            }
            i += 1;
        }
        Self { values, slopes }
    }

    /// The value at a state of charge, held at the ends.
    pub(super) fn at(&self, charge: f64) -> f64 {
        let position = charge.clamp(0.0, 1.0) * (POINTS - 1) as f64;
        let i = (position as usize).min(POINTS - 2);
        let t = position - i as f64;
        let u = 1.0 - t;
        u * u * ((1.0 + 2.0 * t) * self.values[i] + t * self.slopes[i])
            + t * t * ((1.0 + 2.0 * u) * self.values[i + 1] - u * self.slopes[i + 1])
    }
}

/// A rested lead-acid cell in V: acid of 1.13 kg/L when empty and 1.285 when
/// full, plus 0.84 V (rule of thumb from memory); 11.8 to 12.75 V per 12 V block.
pub(super) fn lead_acid(charge: f64) -> f64 {
    1.97 + 0.155 * charge.clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn passes_through_its_points() {
        let values = [0.0, 1.0, 1.5, 1.7, 1.8, 1.9, 2.5, 2.6, 2.7, 3.0, 5.0];
        let curve = Curve::through(values);
        for (i, value) in values.into_iter().enumerate() {
            assert!((curve.at(i as f64 / 10.0) - value).abs() < 1e-12);
        }
        assert_eq!(curve.at(-1.0), 0.0);
        assert_eq!(curve.at(2.0), 5.0);
    }

    proptest! {
        #[test]
        fn rises_where_its_points_rise(steps in proptest::array::uniform11(0.001_f64..1.0), at in 0.0_f64..0.99) {
            let mut sum = 0.0;
            let curve = Curve::through(steps.map(|step| { sum += step; sum }));
            prop_assert!(curve.at(at + 0.01) > curve.at(at));
        }
    }
}
