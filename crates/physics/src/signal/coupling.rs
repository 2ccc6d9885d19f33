//! A capacitor in series with the signal.

use core::f64::consts::PI;

/// A capacitor between two resistances.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coupling {
    /// Capacitance in F.
    pub capacitance: f64,
    /// Resistance before and behind it together, in Ω.
    pub resistance: f64,
}

impl Coupling {
    /// Frequency in Hz where half the power passes: 1/2πRC.
    #[must_use]
    pub fn corner(&self) -> f64 {
        1.0 / (2.0 * PI * self.resistance * self.capacitance)
    }

    /// Amplitude passed at a frequency in Hz.
    #[must_use]
    pub fn gain(&self, frequency: f64) -> f64 {
        let ratio = frequency / self.corner();
        ratio / (1.0 + ratio * ratio).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_the_power_passes_at_the_corner() {
        let coupling = Coupling {
            capacitance: 1e-6,
            resistance: 20e3,
        };
        assert!((coupling.corner() - 7.957_747).abs() < 1e-5);
        assert!((coupling.gain(coupling.corner()) - 0.5_f64.sqrt()).abs() < 1e-12);
    }
}
