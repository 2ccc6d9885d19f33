//! What turns into heat where, while something plays.

use super::model::Heat;
use super::modules::Modules;
use crate::build::Build;
use crate::power::{Load, Signal, supply_power};
use crate::sound::{Caps, Gains, Scene};
use crate::subject::Subject;
use core::f64::consts::SQRT_2;
use physics::math::amplitude_from_db;
use physics::programme::ProgrammeSpectrum;

/// What may play.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Played {
    /// The brief's programme at the brief's loudness.
    Brief,
    /// Music whose peaks just clip.
    Music,
    /// Squashed music whose peaks just clip.
    Squashed,
    /// A sine at the clip point for hours: the bound.
    Sine,
}

impl Played {
    /// Gentlest first.
    pub(crate) const ALL: [Self; 4] = [Self::Brief, Self::Music, Self::Squashed, Self::Sine];

    pub(super) const fn id(self) -> &'static str {
        match self {
            Self::Brief => "brief",
            Self::Music => "music",
            Self::Squashed => "squashed",
            Self::Sine => "sine",
        }
    }

    pub(super) const fn title(self) -> &'static str {
        match self {
            Self::Brief => "as the brief asks",
            Self::Music => "music, fully up",
            Self::Squashed => "squashed music, fully up",
            Self::Sine => "full sine",
        }
    }

    fn signal(self) -> Signal {
        match self {
            Self::Sine => Signal::Sine,
            Self::Brief | Self::Music | Self::Squashed => Signal::Programme,
        }
    }

    /// By how much the mean square of the current that the signal adds exceeds
    /// the square of its mean: two for noise, whose power spreads as χ² of one
    /// degree, a half for a sine. Nothing is smoothed by capacitors: a bound.
    const fn unrest(self) -> f64 {
        match self {
            Self::Sine => 0.5,
            Self::Brief | Self::Music | Self::Squashed => 2.0,
        }
    }
}

/// One build and what it is played through.
pub(crate) struct Player<'a> {
    pub(crate) subject: &'a Subject,
    pub(crate) build: &'a Build,
    pub(crate) gains: &'a Gains,
    pub(crate) scene: &'a Scene,
    /// Programme voltage at the brief's loudness, V rms.
    pub(crate) brief_volts: f64,
}

impl Player<'_> {
    /// Supply on a half-empty battery in V.
    pub(super) fn supply(&self) -> f64 {
        self.build.battery.mid_voltage()
    }

    /// The load under what is played, and its voltage rms.
    fn load(&self, played: Played) -> (Load, f64) {
        let caps = Caps::of(self.build, self.supply(), false);
        let peak = caps.peak_volts.min(SQRT_2 * caps.source);
        let under = |spectrum: &ProgrammeSpectrum| {
            let shares = spectrum.weights(&self.scene.grid.hertz);
            let load = Load::under(self.gains, &shares);
            (load, peak / amplitude_from_db(spectrum.crest_db))
        };
        match played {
            Played::Brief => (Load::of(self.gains, self.scene), self.brief_volts),
            Played::Music => under(&ProgrammeSpectrum::music()),
            Played::Squashed => under(&ProgrammeSpectrum::squashed_music()),
            Played::Sine => {
                let load = Load::of(self.gains, self.scene);
                (load, load.clean_volts(&caps).min(caps.source))
            }
        }
    }

    /// Heat on a half-empty battery, and what is drawn from it in W.
    pub(super) fn heat(&self, played: Played) -> (Heat, f64) {
        let supply = self.supply();
        let channels = self.subject.channels_used();
        let (load, volts) = self.load(played);
        let drawn =
            |volts| supply_power(self.build, &load, channels, supply, volts, played.signal());
        let given = f64::from(channels) * load.output_power(volts);
        let modules = Modules::of(self.subject, supply).heat;
        let (idle, all) = (drawn(0.0), drawn(volts));
        let mean = (all + modules) / supply;
        let added = (all - idle) / supply;
        let square = mean * mean + played.unrest() * added * added;
        let heat = Heat {
            board: (all - given).max(0.0),
            battery: square * self.build.battery.resistance,
            drivers: given,
            modules,
        };
        (heat, all + modules)
    }
}
