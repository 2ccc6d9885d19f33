//! Left and right made one through resistors.

/// Two equal sources, each through a resistor into one load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sum {
    /// Each resistor in Ω.
    pub resistor: f64,
    /// Resistance of each source in Ω.
    pub source: f64,
    /// The load in Ω.
    pub load: f64,
}

impl Sum {
    /// Voltage at the load over that of each source while both give the same.
    #[must_use]
    pub fn gain(&self) -> f64 {
        let each = self.resistor + self.source;
        1.0 / (1.0 + each / 2.0 / self.load)
    }

    /// Resistance in Ω that the load sees looking back.
    #[must_use]
    pub fn output(&self) -> f64 {
        (self.resistor + self.source) / 2.0
    }

    /// What one source puts on the terminals of the other, over its own voltage.
    #[must_use]
    pub fn crosstalk(&self) -> f64 {
        let each = self.resistor + self.source;
        let shunt = each / (1.0 + each / self.load);
        shunt / (shunt + each) * self.source / each
    }

    /// Peak current in A that each source gives with both at `peak` V against one another.
    #[must_use]
    pub fn opposing_current(&self, peak: f64) -> f64 {
        peak / (self.resistor + self.source)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1 kΩ from 100 Ω into 10 kΩ: worked by hand.
    #[test]
    fn a_kilohm_costs_half_a_decibel() {
        let sum = Sum {
            resistor: 1e3,
            source: 100.0,
            load: 1e4,
        };
        assert!((sum.gain() - 10_000.0 / 10_550.0).abs() < 1e-12);
        assert!((sum.output() - 550.0).abs() < 1e-12);
        // 991 Ω under 1100 Ω, then a hundred of eleven hundred.
        let shunt = 11e6 / 11_100.0;
        let expected = shunt / (shunt + 1100.0) / 11.0;
        assert!((sum.crosstalk() - expected).abs() < 1e-12);
        assert!((sum.opposing_current(1.1) - 1e-3).abs() < 1e-12);
    }
}
