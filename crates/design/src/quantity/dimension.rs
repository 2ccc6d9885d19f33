//! What kind of thing a number measures.

use core::f64::consts::TAU;

/// What kind of thing a number measures, and so which units it may carry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// Length; SI unit m.
    Length,
    /// Area; m².
    Area,
    /// Volume; m³.
    Volume,
    /// Mass; kg.
    Mass,
    /// Time; s.
    Time,
    /// Frequency; Hz.
    Frequency,
    /// Temperature; °C.
    Temperature,
    /// A share of a whole; 0 to 1, written in per cent.
    Share,
    /// Sound level; dB re 20 µPa.
    SoundLevel,
    /// A ratio of levels; dB.
    Decibel,
    /// An amplification; a plain ratio, written in dB or V/V.
    Gain,
    /// A pure number, such as a Q.
    Number,
    /// Voltage; V.
    Voltage,
    /// Current; A.
    Current,
    /// Electrical resistance or impedance; Ω.
    Resistance,
    /// Capacitance; F.
    Capacitance,
    /// Inductance; H.
    Inductance,
    /// Semi-inductance of a voice coil; Ω·sⁿ.
    SemiInductance,
    /// Power; W.
    Power,
    /// Electric charge; C (A s).
    Charge,
    /// Energy; J.
    Energy,
    /// Force factor of a motor; T·m.
    ForceFactor,
    /// Mechanical compliance; m/N.
    Compliance,
    /// Mechanical resistance; N·s/m.
    Damping,
    /// Density; kg/m³.
    Density,
    /// Pressure or elastic modulus; Pa.
    Pressure,
    /// Speed; m/s.
    Speed,
    /// Angle; rad, written in degrees.
    Angle,
    /// Mass spread over an area; kg/m².
    AreaDensity,
    /// Temperature rise for each watt; K/W.
    ThermalResistance,
    /// Area covered by a volume; m²/m³, written in m²/L.
    Coverage,
}

impl Dimension {
    /// The word for it, with its article.
    #[must_use]
    pub fn noun(self) -> &'static str {
        match self {
            Self::Length => "a length",
            Self::Area => "an area",
            Self::Volume => "a volume",
            Self::Mass => "a weight",
            Self::Time => "a time",
            Self::Frequency => "a frequency",
            Self::Temperature => "a temperature",
            Self::Share => "a share in per cent",
            Self::SoundLevel => "a sound level",
            Self::Decibel => "a number of decibels",
            Self::Gain => "a gain",
            Self::Number => "a plain number",
            Self::Voltage => "a voltage",
            Self::Current => "a current",
            Self::Resistance => "a resistance",
            Self::Capacitance => "a capacitance",
            Self::Inductance => "an inductance",
            Self::SemiInductance => "a semi-inductance",
            Self::Power => "a power",
            Self::Charge => "a capacity in ampere-hours",
            Self::Energy => "an energy",
            Self::ForceFactor => "a force factor",
            Self::Compliance => "a compliance",
            Self::Damping => "a mechanical resistance",
            Self::Density => "a density",
            Self::Pressure => "a pressure or stiffness",
            Self::Speed => "a speed",
            Self::Angle => "an angle",
            Self::AreaDensity => "a weight for each area",
            Self::ThermalResistance => "a thermal resistance",
            Self::Coverage => "an area for each litre",
        }
    }

    /// The unit a maker would most likely mean.
    #[must_use]
    pub fn usual_unit(self) -> &'static str {
        match self {
            Self::Length => "mm",
            Self::Area => "cm²",
            Self::Volume => "L",
            Self::Mass => "kg",
            Self::Time => "h",
            Self::Frequency => "Hz",
            Self::Temperature => "°C",
            Self::Share => "%",
            Self::SoundLevel | Self::Decibel | Self::Gain => "dB",
            Self::Number => "",
            Self::Voltage => "V",
            Self::Current => "A",
            Self::Resistance => "Ω",
            Self::Capacitance => "µF",
            Self::Inductance => "mH",
            Self::SemiInductance => "Ω s^n",
            Self::Power => "W",
            Self::Charge => "Ah",
            Self::Energy => "Wh",
            Self::ForceFactor => "T m",
            Self::Compliance => "mm/N",
            Self::Damping => "kg/s",
            Self::Density => "kg/m³",
            Self::Pressure => "GPa",
            Self::Speed => "m/s",
            Self::Angle => "°",
            Self::AreaDensity => "g/m²",
            Self::ThermalResistance => "K/W",
            Self::Coverage => "m²/L",
        }
    }

    /// A tolerance in per cent has no meaning for quantities whose zero is
    /// chosen by convention.
    pub(crate) fn takes_relative_tolerance(self) -> bool {
        !matches!(self, Self::Temperature | Self::SoundLevel | Self::Decibel)
    }

    /// Bounds, in SI, that nothing a loudspeaker box is made of can leave:
    /// they catch slips of the pen before they reach a formula.
    pub(crate) fn plausible(self) -> (f64, f64) {
        match self {
            Self::Length => (-1e4, 1e5),
            Self::Area => (0.0, 1e3),
            Self::Volume => (0.0, 1e6),
            Self::Mass => (0.0, 1e4),
            Self::Time => (0.0, 1e8),
            Self::Frequency => (0.0, 1e6),
            Self::Temperature => (-90.0, 150.0),
            Self::Share => (0.0, 1.0),
            Self::SoundLevel => (0.0, 194.0),
            Self::Decibel => (-200.0, 200.0),
            Self::Gain => (0.0, 1e6),
            Self::Number => (0.0, 1e6),
            Self::Voltage => (0.0, 1e3),
            Self::Current => (0.0, 1e4),
            Self::Resistance => (0.0, 1e9),
            Self::Capacitance => (0.0, 1e2),
            Self::Inductance => (0.0, 1e2),
            Self::SemiInductance => (0.0, 1e3),
            Self::Power => (0.0, 1e5),
            Self::Charge => (0.0, 1e8),
            Self::Energy => (0.0, 1e9),
            Self::ForceFactor => (0.0, 1e3),
            Self::Compliance => (0.0, 1e1),
            Self::Damping => (0.0, 1e4),
            Self::Density => (0.0, 3e4),
            Self::Pressure => (0.0, 1e12),
            Self::Speed => (0.0, 1e4),
            Self::Angle => (-TAU, TAU),
            Self::AreaDensity => (0.0, 1e3),
            Self::ThermalResistance => (0.0, 1e4),
            Self::Coverage => (0.0, 1e6),
        }
    }
}
