//! The parameters of a driver that can be measured or published.

use design::{DriverPart, Tolerance, Value};
use physics::driver::Partial;

/// A parameter of a driver that can be measured or published.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Parameter {
    /// DC resistance of the coil.
    Re,
    /// Free-air resonance.
    Fs,
    /// Mechanical Q.
    Qms,
    /// Electrical Q.
    Qes,
    /// Total Q.
    Qts,
    /// Equivalent volume.
    Vas,
    /// Effective area.
    Sd,
    /// Force factor.
    Bl,
    /// Moving mass.
    Mms,
    /// Compliance.
    Cms,
    /// Level at 1 m for 2.83 V.
    Sensitivity,
}

impl Parameter {
    /// All of them, the most to be trusted first: what a meter reads straight
    /// away before what is worked out from it.
    pub(crate) const ALL: [Self; 11] = [
        Self::Re,
        Self::Fs,
        Self::Qms,
        Self::Qes,
        Self::Qts,
        Self::Sd,
        Self::Vas,
        Self::Mms,
        Self::Cms,
        Self::Bl,
        Self::Sensitivity,
    ];

    pub(crate) fn slot(self, partial: &mut Partial) -> &mut Option<f64> {
        match self {
            Self::Re => &mut partial.re,
            Self::Fs => &mut partial.fs,
            Self::Qms => &mut partial.qms,
            Self::Qes => &mut partial.qes,
            Self::Qts => &mut partial.qts,
            Self::Vas => &mut partial.vas,
            Self::Sd => &mut partial.sd,
            Self::Bl => &mut partial.bl,
            Self::Mms => &mut partial.mms,
            Self::Cms => &mut partial.cms,
            Self::Sensitivity => &mut partial.sensitivity,
        }
    }

    /// Name in the design file and in words, and the unit for print.
    #[must_use]
    pub(crate) const fn words(self) -> (&'static str, &'static str, &'static str) {
        match self {
            Self::Re => ("re", "DC resistance", "Ω"),
            Self::Fs => ("fs", "resonance", "Hz"),
            Self::Qms => ("qms", "mechanical Q", ""),
            Self::Qes => ("qes", "electrical Q", ""),
            Self::Qts => ("qts", "total Q", ""),
            Self::Vas => ("vas", "equivalent volume", "m³"),
            Self::Sd => ("sd", "cone area", "m²"),
            Self::Bl => ("bl", "force factor", "T·m"),
            Self::Mms => ("mms", "moving mass", "kg"),
            Self::Cms => ("cms", "compliance", "m/N"),
            Self::Sensitivity => ("sensitivity", "sensitivity", "dB"),
        }
    }
}

/// What the shelf states of a parameter.
pub(crate) fn stated(part: &DriverPart, parameter: Parameter) -> Option<Value> {
    match parameter {
        Parameter::Re => part.re,
        Parameter::Fs => part.fs,
        Parameter::Qms => part.qms,
        Parameter::Qes => part.qes,
        Parameter::Qts => part.qts,
        Parameter::Vas => part.vas,
        Parameter::Sd => part.sd.or_else(|| part.diameter.map(disc)),
        Parameter::Bl => part.bl,
        Parameter::Mms => part.mms,
        Parameter::Cms => part.cms,
        Parameter::Sensitivity => part.sensitivity,
    }
}

/// The area of a disc whose diameter is written.
fn disc(diameter: Value) -> Value {
    let area = core::f64::consts::FRAC_PI_4 * diameter.si * diameter.si;
    let tolerance = match diameter.tolerance {
        Tolerance::Within(half) => Tolerance::Within(2.0 * area * half / diameter.si),
        other => other,
    };
    Value {
        si: area,
        tolerance,
        ..diameter
    }
}
