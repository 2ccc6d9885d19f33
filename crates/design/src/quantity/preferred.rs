//! Preferred numbers of resistors and capacitors (IEC 60063).

/// Values of a decade in E24; E12, E6 and E3 are every second, fourth and eighth of them.
const E24: [f64; 24] = [
    1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6,
    6.2, 6.8, 7.5, 8.2, 9.1,
];

/// A series of preferred numbers (IEC 60063).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Series {
    /// Three values to the decade.
    E3,
    /// Six.
    E6,
    /// Twelve.
    E12,
    /// Twenty-four.
    E24,
    /// Forty-eight.
    E48,
    /// Ninety-six.
    E96,
}

impl Series {
    /// The values of one decade from 1, rising.
    ///
    /// Up to E24 they are the printed ones, some of which are not rounded powers;
    /// E48 and E96 are rounded to three digits (iec-60063).
    #[must_use]
    pub fn decade(self) -> Vec<f64> {
        let every = |step| E24.iter().copied().step_by(step).collect();
        match self {
            Self::E3 => every(8),
            Self::E6 => every(4),
            Self::E12 => every(2),
            Self::E24 => every(1),
            Self::E48 => rounded(48),
            Self::E96 => rounded(96),
        }
    }

    /// The values from `least` to `most`, both included, rising; empty where
    /// `least` is not a positive number or above `most`.
    ///
    /// ```
    /// let values = boxwright_design::Series::E6.between(1e3, 1e4);
    /// assert_eq!(values, [1e3, 1.5e3, 2.2e3, 3.3e3, 4.7e3, 6.8e3, 1e4]);
    /// ```
    #[must_use]
    pub fn between(self, least: f64, most: f64) -> Vec<f64> {
        let valid = least > 0.0 && least <= most && most.is_finite();
        if !valid {
            return Vec::new();
        }
        let (low, high) = (least * (1.0 - SLIP), most * (1.0 + SLIP));
        let first = libm::floor(libm::log10(low)) as i32;
        let last = libm::floor(libm::log10(high)) as i32;
        let decade = self.decade();
        (first..=last)
            .flat_map(|power| decade.iter().map(move |mantissa| shifted(*mantissa, power)))
            .filter(|value| (low..=high).contains(value))
            .collect()
    }
}

/// What a bound may be off by, from being written in other units.
const SLIP: f64 = 1e-9;

fn rounded(count: u32) -> Vec<f64> {
    let value = |n| libm::pow(10.0, f64::from(n) / f64::from(count));
    (0..count)
        .map(|n| libm::round(100.0 * value(n)) / 100.0)
        .collect()
}

/// A mantissa of at most three digits times a power of ten, as exact as a number can be.
fn shifted(mantissa: f64, power: i32) -> f64 {
    let whole = libm::round(100.0 * mantissa);
    let power = power - 2;
    let scale = libm::pow(10.0, f64::from(power.abs()));
    if power < 0 {
        whole / scale
    } else {
        whole * scale
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rows `series,values of a decade separated by spaces`.
    const TABLE: &str = include_str!("../../../../reference/preferred_numbers.csv");

    #[test]
    fn decades_are_the_printed_ones() {
        let mut seen = 0;
        for row in TABLE.lines().filter(|row| row.starts_with('E')) {
            let (name, values) = row.split_once(',').unwrap();
            let printed: Vec<f64> = values.split(' ').map(|v| v.parse().unwrap()).collect();
            let series = match name {
                "E3" => Series::E3,
                "E6" => Series::E6,
                "E12" => Series::E12,
                "E24" => Series::E24,
                "E48" => Series::E48,
                "E96" => Series::E96,
                _ => panic!("{name}"),
            };
            assert_eq!(series.decade(), printed, "{name}");
            seen += 1;
        }
        assert!(seen >= 4, "{seen}");
    }

    #[test]
    fn both_ends_are_in_it_and_nothing_beyond() {
        let values = Series::E24.between(10.0, 1e6);
        assert_eq!(values.len(), 5 * 24 + 1);
        assert_eq!((values[0], values[120]), (10.0, 1e6));
        assert!(values.windows(2).all(|pair| pair[0] < pair[1]));
        assert_eq!(Series::E12.between(4.7e3, 4.7e3), [4.7e3]);
        assert_eq!(Series::E12.between(1e-12, 1e-11).len(), 13);
        assert!(Series::E12.between(5.0, 1.0).is_empty());
        assert!(Series::E12.between(0.0, 1.0).is_empty());
    }
}
