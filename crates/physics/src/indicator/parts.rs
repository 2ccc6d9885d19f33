//! Active parts of an indicator.

/// A zener diode or a shunt reference.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reference {
    /// Voltage at `rated_current` in V.
    pub volts: f64,
    /// Tolerance of it as a share, one way.
    pub tolerance: f64,
    /// How far it moves over the temperatures of use, as a share, one way.
    pub drift: f64,
    /// Current at which the voltage holds, in A.
    pub rated_current: f64,
    /// Rise of voltage with current in Ω.
    pub slope: f64,
    /// How far the slope may be off, as a share, one way.
    pub slope_tolerance: f64,
    /// Least current at which it regulates, in A.
    pub least_current: f64,
    /// Highest current in A.
    pub most_current: f64,
}

impl Reference {
    /// Voltage in V and its rise with the supply (a ratio), as V = first +
    /// second·supply, when fed through `feed` Ω and while it regulates.
    pub(super) fn line(&self, feed: f64) -> (f64, f64) {
        let share = feed / (feed + self.slope);
        (
            (self.volts - self.slope * self.rated_current) * share,
            self.slope / (feed + self.slope),
        )
    }

    /// Voltage in V on a supply through a feeding resistor, while it regulates.
    #[must_use]
    pub fn at(&self, supply: f64, feed: f64) -> f64 {
        let (fixed, rise) = self.line(feed);
        fixed + rise * supply
    }

    /// Current through it in A on a supply through a feeding resistor.
    #[must_use]
    pub fn current(&self, supply: f64, feed: f64) -> f64 {
        (supply - self.at(supply, feed)) / feed
    }
}

/// A comparator, or an operational amplifier used as one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Comparator {
    /// How far below the supply its output stands when high, in V; `None` where
    /// it only pulls low.
    pub output_high: Option<f64>,
    /// Resistance to ground of its output when low, in Ω.
    pub sink: f64,
    /// Highest current into its output when low, in A.
    pub sink_current: f64,
    /// Offset between its inputs in V, one way.
    pub offset: f64,
    /// Current of an input in A, either way.
    pub bias: f64,
    /// Supply current in A.
    pub supply_current: f64,
    /// Lowest and highest supply in V.
    pub supply: [f64; 2],
    /// Lowest voltage at its inputs in V.
    pub input_low: f64,
    /// How far below the supply its inputs must stay, in V.
    pub input_high: f64,
}

/// A light-emitting diode with the resistor before it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Light {
    /// Forward voltage in V.
    pub forward: f64,
    /// The resistor in Ω.
    pub series: f64,
}

/// A capacitor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Capacitor {
    /// Value in F.
    pub farads: f64,
    /// Tolerance as a share, one way.
    pub tolerance: f64,
    /// Highest current it leaks in A.
    pub leakage: f64,
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// The line is the solution of V = V₀ + r·(I − I₀) with I = (U − V)/R.
        #[test]
        fn the_line_solves_the_mesh(supply in 8.0_f64..20.0, feed in 100.0_f64..1e5, slope in 0.0_f64..100.0) {
            let zener = Reference {
                volts: 5.1, tolerance: 0.05, drift: 0.0, rated_current: 5e-3, slope,
                slope_tolerance: 0.5, least_current: 1e-3, most_current: 0.05,
            };
            let volts = zener.at(supply, feed);
            let mesh = zener.volts + slope * ((supply - volts) / feed - zener.rated_current);
            prop_assert!((volts - mesh).abs() < 1e-9);
        }
    }
}
