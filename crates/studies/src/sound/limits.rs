//! What gives out first.

use super::Gains;
use crate::build::Build;
use core::f64::consts::SQRT_2;
use serde::Serialize;

/// Greatest peak air speed in a plain vent, and in one with flared ends, in m/s.
///
/// Common practice, no source: noise is heard above.
pub(crate) const VENT_SPEED: (f64, f64) = (10.0, 17.0);

/// What limits the level.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Limit {
    /// Travel of a cone.
    ConeTravel,
    /// Travel of a passive radiator.
    RadiatorTravel,
    /// Voltage of the amplifier.
    AmplifierVoltage,
    /// Current of the amplifier.
    AmplifierCurrent,
    /// Heat in a voice coil.
    CoilHeat,
    /// Air speed in a vent.
    VentSpeed,
    /// The source cannot drive the amplifier further.
    Source,
}

impl Limit {
    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::ConeTravel => "cone travel",
            Self::RadiatorTravel => "passive radiator travel",
            Self::AmplifierVoltage => "amplifier clips",
            Self::AmplifierCurrent => "amplifier current",
            Self::CoilHeat => "voice coil heat",
            Self::VentSpeed => "air speed in the vent",
            Self::Source => "source runs out of level",
        }
    }
}

/// The lowest of several ceilings, in V rms at the amplifier's output.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Ceiling {
    pub(crate) volts: f64,
    pub(crate) limit: Limit,
}

impl Ceiling {
    pub(crate) fn lowest(ceilings: impl IntoIterator<Item = Self>) -> Self {
        let start = Self {
            volts: f64::INFINITY,
            limit: Limit::AmplifierVoltage,
        };
        ceilings.into_iter().fold(
            start,
            |low, next| if next.volts < low.volts { next } else { low },
        )
    }
}

/// Limiting values of one build.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Caps {
    /// Peak open-circuit volts of the amplifier.
    pub(crate) peak_volts: f64,
    /// Peak output current in A.
    pub(crate) peak_current: f64,
    /// Peak air speed in m/s.
    pub(crate) vent_speed: f64,
    /// Peak travel of the radiator in m.
    pub(crate) radiator_travel: f64,
    /// Highest output the source can call for, V rms.
    pub(crate) source: f64,
}

impl Caps {
    /// The caps of a build on a supply of so many volts.
    pub(crate) fn of(build: &Build, supply: f64, flared: bool) -> Self {
        Self {
            peak_volts: build.amplifier.stage.open_circuit_peak(supply),
            peak_current: build.amplifier.stage.current_limit,
            vent_speed: if flared { VENT_SPEED.1 } else { VENT_SPEED.0 },
            radiator_travel: build
                .radiator
                .map_or(f64::INFINITY, |radiator| radiator.xmax),
            source: build.amplifier.source_output(),
        }
    }

    /// The ceilings of a sine at one grid point.
    pub(crate) fn sine(&self, gains: &Gains, i: usize) -> [Ceiling; 7] {
        let at = |limit, volts| Ceiling { volts, limit };
        [
            at(Limit::AmplifierVoltage, self.peak_volts / SQRT_2),
            at(Limit::ConeTravel, 1.0 / gains.travel_share[i]),
            at(
                Limit::RadiatorTravel,
                self.radiator_travel / gains.radiator_travel[i],
            ),
            at(
                Limit::AmplifierCurrent,
                self.peak_current / (SQRT_2 * gains.current[i]),
            ),
            at(Limit::CoilHeat, 1.0 / gains.heat_share[i].sqrt()),
            at(Limit::VentSpeed, self.vent_speed / gains.vent_speed[i]),
            at(Limit::Source, self.source),
        ]
    }
}
