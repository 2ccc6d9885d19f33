//! What lies between source and board.

use design::{ControlKind, ControlUse, Design, Does, Sum as Summing, TrackLaw};
use physics::math::db_amplitude;
use physics::signal::{LevelControl, Sum, Track};

/// Each resistor of a sum whose value nobody states, in Ω: common practice, no source.
const SUM_RESISTOR: f64 = 1000.0;

/// The volume control with its place in the control panel, where one is named.
pub(crate) fn volume(design: &Design) -> Option<(usize, &ControlUse)> {
    let parts = &design.control.as_ref()?.parts;
    let is_volume = |used: &&ControlUse| match used.does {
        Some(does) => does.value == Does::Volume,
        None => used.part.kind.value == ControlKind::Potentiometer,
    };
    let found = parts.iter().position(|used| is_volume(&used))?;
    Some((found, &parts[found]))
}

/// What lies between source and board.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Path {
    /// Each resistor of the sum in Ω.
    sum: Option<f64>,
    /// Resistance and track of the control.
    control: Option<(f64, Track)>,
    /// What the board takes in Ω; both channels in parallel where one sum feeds them.
    input: f64,
}

impl Path {
    pub(crate) fn of(design: &Design) -> Self {
        let track = |law: Option<TrackLaw>| match law {
            Some(TrackLaw::Linear) => Track::Linear,
            Some(TrackLaw::Logarithmic) | None => Track::Logarithmic,
        };
        let control = volume(design).and_then(|(_, used)| {
            let electric = &used.part.electric;
            let law = electric.law.map(|law| law.value);
            Some((electric.resistance?.si, track(law)))
        });
        let summed = design.source.sum.value == Summing::Resistors;
        let resistor = design.source.sum_resistor;
        Self {
            sum: summed.then(|| resistor.map_or(SUM_RESISTOR, |value| value.si)),
            control,
            input: design.amplifier.part.input_impedance.si,
        }
    }

    /// Whether parts are named from which a loss follows.
    pub(crate) const fn is_known(&self) -> bool {
        self.sum.is_some() || self.control.is_some()
    }

    /// The control as it is fed by a source of so many Ω.
    pub(crate) fn control(&self, source: f64) -> Option<LevelControl> {
        let (resistance, track) = self.control?;
        let feed = self.sum_of(source).map_or(source, |sum| sum.output());
        Some(LevelControl {
            resistance,
            track,
            source: feed,
            load: self.input,
        })
    }

    /// The sum, unloaded.
    pub(crate) fn sum_of(&self, source: f64) -> Option<Sum> {
        self.sum.map(|resistor| Sum {
            resistor,
            source,
            load: self.after_sum(),
        })
    }

    /// What the sum works into, in Ω.
    fn after_sum(&self) -> f64 {
        // Fully up the board lies across the whole track.
        let board = self.input;
        self.control
            .map_or(board, |(track, _)| track * board / (track + board))
    }

    /// Voltage at the board over that of the source with the volume fully up.
    pub(crate) fn fully_up(&self, source: f64) -> f64 {
        match (self.control(source), self.sum_of(source)) {
            (Some(control), _) => control.gain(1.0),
            (None, Some(sum)) => sum.gain(),
            (None, None) => self.input / (self.input + source),
        }
    }

    /// Loss in dB fully up; `None` where no parts are named.
    pub(crate) fn loss(&self, source: f64) -> Option<f64> {
        self.is_known()
            .then(|| -db_amplitude(self.fully_up(source)))
    }

    /// What the board sees looking back, in Ω, with a turn of the control.
    pub(crate) fn output(&self, source: f64, turn: f64) -> f64 {
        match (self.control(source), self.sum_of(source)) {
            (Some(control), _) => control.output(control.track.share(turn)),
            (None, Some(sum)) => sum.output(),
            (None, None) => source,
        }
    }

    /// What the board takes in Ω.
    pub(crate) const fn input(&self) -> f64 {
        self.input
    }
}
