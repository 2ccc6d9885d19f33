//! What an element of a network does, apart from where it is connected.

use std::fmt::Debug;
use std::sync::Arc;

use super::band::Band;
use super::lanes::{LANES, Lanes};
use crate::math;

/// The law of a frequency-dependent one-port.
pub trait OnePort: Debug + Send + Sync {
    /// Its impedance in every lane of a band.
    fn impedance(&self, band: &Band) -> Lanes;
}

/// The law of a frequency-dependent two-port that passes alike both ways; the
/// gyrator is the element that does not.
pub trait TwoPort: Debug + Send + Sync {
    /// Its admittances [y11, y12 = y21, y22] in every lane of a band, currents
    /// counted into the ports.
    fn admittance(&self, band: &Band) -> [Lanes; 3];
}

/// K(jω)ⁿ.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SemiInductance {
    /// K in Ω·sⁿ.
    pub k: f64,
    /// The exponent n, 0 to 1 for a passive element.
    pub n: f64,
}

impl SemiInductance {
    /// No impedance at all.
    pub const NONE: Self = Self { k: 0.0, n: 1.0 };

    /// Factors of ωⁿ in resistance and in reactance.
    fn parts(self) -> (f64, f64) {
        let (sin, cos) = math::sincos(self.n * core::f64::consts::FRAC_PI_2);
        (self.k * cos, self.k * sin)
    }

    /// Its impedance in every lane of a band.
    #[must_use]
    pub fn impedance(self, band: &Band) -> Lanes {
        if self.k == 0.0 {
            return Lanes::ZERO;
        }
        let (resistive, reactive) = self.parts();
        let power = band.log.map(|log| math::exp(self.n * log));
        Lanes {
            re: power.map(|power| resistive * power),
            im: power.map(|power| reactive * power),
        }
    }
}

/// Resistance, inductance, capacitance and lossy inductance in series.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Impedance {
    /// Resistance in Ω.
    pub resistance: f64,
    /// Inductance in H.
    pub inductance: f64,
    /// Elastance 1/C in 1/F; 0 for no capacitor.
    pub elastance: f64,
    /// Lossy inductance.
    pub semi: SemiInductance,
}

impl Impedance {
    /// A short circuit.
    pub const SHORT: Self = Self {
        resistance: 0.0,
        inductance: 0.0,
        elastance: 0.0,
        semi: SemiInductance::NONE,
    };

    /// A resistor, in Ω.
    #[must_use]
    pub const fn resistor(resistance: f64) -> Self {
        Self {
            resistance,
            ..Self::SHORT
        }
    }

    /// An inductor, in H.
    #[must_use]
    pub const fn inductor(inductance: f64) -> Self {
        Self {
            inductance,
            ..Self::SHORT
        }
    }

    /// The impedance in every lane of a band.
    #[must_use]
    pub fn at(&self, band: &Band) -> Lanes {
        let mut out = self.semi.impedance(band);
        for lane in 0..LANES {
            out.re[lane] += self.resistance;
            out.im[lane] += self.inductance * band.omega[lane] - self.elastance * band.period[lane];
        }
        out
    }
}

/// Conductance, capacitance and a relaxing capacitance in parallel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Admittance {
    /// Conductance in S.
    pub conductance: f64,
    /// Capacitance in F.
    pub capacitance: f64,
    /// A further capacitance in F that is reached through a resistance.
    pub relaxing: f64,
    /// Its time constant in s: resistance times capacitance.
    pub relaxation: f64,
}

impl Admittance {
    /// An open circuit.
    pub const OPEN: Self = Self {
        conductance: 0.0,
        capacitance: 0.0,
        relaxing: 0.0,
        relaxation: 0.0,
    };

    /// A conductance, in S.
    #[must_use]
    pub const fn conductance(conductance: f64) -> Self {
        Self {
            conductance,
            ..Self::OPEN
        }
    }

    /// A capacitor, in F.
    #[must_use]
    pub const fn capacitor(capacitance: f64) -> Self {
        Self {
            capacitance,
            ..Self::OPEN
        }
    }

    /// jωC/(1 + jωτ) of the relaxing part.
    pub(super) fn relaxing_at(&self, band: &Band) -> Lanes {
        let mut out = Lanes::ZERO;
        for lane in 0..LANES {
            let turn = band.omega[lane] * self.relaxation;
            let scale = band.omega[lane] * self.relaxing / (1.0 + turn * turn);
            out.re[lane] = scale * turn;
            out.im[lane] = scale;
        }
        out
    }

    /// The admittance in every lane of a band.
    #[must_use]
    pub fn at(&self, band: &Band) -> Lanes {
        let mut out = self.relaxing_at(band);
        for lane in 0..LANES {
            out.re[lane] += self.conductance;
            out.im[lane] += self.capacitance * band.omega[lane];
        }
        out
    }
}

/// An element's law with its numbers.
#[derive(Clone, Debug)]
pub enum Value {
    /// A series branch; its current is one of the network's unknowns, so it may be zero.
    Impedance(Impedance),
    /// A parallel branch, so it may be zero.
    Admittance(Admittance),
    /// A frequency-dependent impedance; its current is an unknown.
    OnePort(Arc<dyn OnePort>),
    /// A frequency-dependent two-port.
    TwoPort(Arc<dyn TwoPort>),
    /// Potential at either port is this ratio times the current through the other:
    /// I₁ = V₂/r, I₂ = −V₁/r, currents into the ports.
    Gyrator(f64),
    /// V₁ = n·V₂, I₂ = −n·I₁, currents into the ports.
    Transformer(f64),
    /// An ideal source of potential, first terminal positive, in V rms.
    VoltageSource(f64),
    /// An ideal source of current from the first terminal through itself to
    /// the second, in A rms.
    CurrentSource(f64),
}

impl Value {
    /// Whether both have the same law, so that one may replace the other.
    #[must_use]
    pub fn same_kind(&self, other: &Self) -> bool {
        core::mem::discriminant(self) == core::mem::discriminant(other)
    }

    /// Whether its current is an unknown of the equations.
    pub(super) const fn has_current(&self) -> bool {
        matches!(
            self,
            Self::Impedance(_) | Self::OnePort(_) | Self::Transformer(_) | Self::VoltageSource(_)
        )
    }

    /// Whether it has a second port.
    #[must_use]
    pub const fn has_two_ports(&self) -> bool {
        matches!(
            self,
            Self::TwoPort(_) | Self::Gyrator(_) | Self::Transformer(_)
        )
    }
}
