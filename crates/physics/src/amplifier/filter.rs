//! The low-pass filter between a switching output and its load.

use core::f64::consts::PI;

/// A second-order low-pass: f₀ and Q say all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LowPass {
    /// Natural frequency f₀ in Hz.
    pub resonance: f64,
    /// Quality factor Q.
    pub q: f64,
}

impl LowPass {
    /// An inductance (H) in series and a capacitance (F) across a resistive
    /// load (Ω): f₀ = 1/2π√(LC), Q = R√(C/L).
    ///
    /// For a bridge with L in each leg and C from each leg to ground, pass 2L and C/2.
    #[must_use]
    pub fn of(inductance: f64, capacitance: f64, load: f64) -> Self {
        Self {
            resonance: 1.0 / (2.0 * PI * (inductance * capacitance).sqrt()),
            q: load * (capacitance / inductance).sqrt(),
        }
    }

    /// Amplitude passed at a frequency in Hz.
    #[must_use]
    pub fn gain(&self, frequency: f64) -> f64 {
        let x = frequency / self.resonance;
        let (real, imaginary) = (1.0 - x * x, x / self.q);
        1.0 / (real * real + imaginary * imaginary).sqrt()
    }

    /// Largest gain and the frequency in Hz where it stands; 1 at 0 Hz when
    /// there is no peak (Q ≤ 1/√2).
    #[must_use]
    pub fn peak(&self) -> (f64, f64) {
        let square = 1.0 - 1.0 / (2.0 * self.q * self.q);
        if square <= 0.0 {
            return (1.0, 0.0);
        }
        let frequency = self.resonance * square.sqrt();
        (self.gain(frequency), frequency)
    }

    /// Frequency in Hz where half the power passes.
    #[must_use]
    pub fn half_power(&self) -> f64 {
        let half = 1.0 - 1.0 / (2.0 * self.q * self.q);
        self.resonance * (half + (half * half + 1.0).sqrt()).sqrt()
    }
}
