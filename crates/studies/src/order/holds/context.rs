//! What tests are made from: the nominal build, drawn ones, and the tools there are.

use super::super::model::Expect;
use crate::build::Build;
use crate::carpentry::Carpentry;
use crate::electrics::Electrics;
use crate::finish::Finish;
use crate::indicator::{CutOff, Indicator};
use crate::odds::{Band, Drawn};
use crate::outcome::{Outcome, Traces};
use crate::sound::{Caps, Ceiling, Gains};
use crate::subject::{Subject, on_one_channel};
use crate::vary::draw;
use crate::warmth::Warmth;
use design::{Design, EnclosureKind, Instrument, Side, Wiring};
use std::sync::OnceLock;

/// Drawn builds behind the bands of readings at most: enough for a tenth and a ninetieth part.
const DRAWN: usize = 256;

/// What a common multimeter errs by, as a share: direct volts, amperes and ohms; and
/// alternating volts up to 400 Hz. Common practice, no source.
pub(super) const DIRECT: f64 = 0.01;
pub(super) const ALTERNATING: f64 = 0.02;
/// What is left of the resistance of its leads after they were subtracted, in Ω: common
/// practice, no source.
pub(super) const LEADS: f64 = 0.1;

/// What tests are made from.
pub(crate) struct Testing<'a> {
    pub(crate) subject: &'a Subject,
    pub(crate) carpentry: &'a Carpentry,
    pub(crate) finish: &'a Finish,
    pub(crate) build: &'a Build,
    pub(crate) outcome: &'a Outcome,
    pub(crate) gains: &'a Gains,
    /// The frequencies of `gains`.
    pub(crate) hertz: &'a [f64],
    pub(crate) drawn: &'a Drawn,
    /// The frequencies of the curves of drawn builds.
    pub(crate) coarse: &'a [f64],
    pub(crate) electrics: Option<&'a Electrics>,
    pub(crate) warmth: Option<&'a Warmth>,
    pub(crate) indicator: Option<&'a Indicator>,
    /// Drawn builds, made when first asked for.
    pub(crate) builds: OnceLock<Vec<Build>>,
}

impl Testing<'_> {
    pub(super) fn design(&self) -> &Design {
        &self.subject.project.design
    }

    /// What disconnects the load of an empty battery, where it is built.
    pub(crate) fn cut_off(&self) -> Option<&CutOff> {
        self.indicator?.built.as_ref()?.cut_off.as_ref()
    }

    pub(super) fn has(&self, tool: Instrument) -> bool {
        self.design().workshop.has(tool)
    }

    /// Whether there is something that plays a sine.
    pub(super) fn plays_sine(&self) -> bool {
        self.has(Instrument::Phone) || self.has(Instrument::SineSource)
    }

    /// The instrument that plays it.
    pub(super) fn sine_source(&self) -> Instrument {
        if self.has(Instrument::SineSource) {
            Instrument::SineSource
        } else {
            Instrument::Phone
        }
    }

    /// The band of a number of single builds, widened by what the instrument errs by: a share
    /// and an amount.
    pub(super) fn band(
        &self,
        unit: &'static str,
        [share, amount]: [f64; 2],
        number: impl Fn(&Build) -> f64,
    ) -> Expect {
        let values = self.builds().iter().map(&number);
        widened(unit, [share, amount], number(self.build), Band::of(values))
    }

    /// The first of the drawn builds.
    fn builds(&self) -> &[Build] {
        self.builds.get_or_init(|| {
            let count = self.drawn.outcomes.len().min(DRAWN);
            let dimensions = self.subject.causes.list().len();
            let index = |index| u32::try_from(index).unwrap_or(u32::MAX);
            let draws = (0..count).map(|i| draw(index(i), dimensions));
            draws.map(|draw| self.subject.build(&draw)).collect()
        })
    }

    /// The same of a number read from the curves of drawn builds.
    pub(super) fn band_of_curve(
        &self,
        unit: &'static str,
        [share, amount]: [f64; 2],
        nominal: f64,
        number: impl Fn(&Traces) -> f64,
    ) -> Expect {
        let values = self.drawn.traces().iter().map(number);
        widened(unit, [share, amount], nominal, Band::of(values))
    }

    /// Channels that play, by name.
    pub(super) fn outputs(&self) -> Vec<(&'static str, Side)> {
        if self.subject.channels_used() == 1 && !self.subject.has_unlike_sides() {
            return vec![("the output", Side::Mono)];
        }
        let sides = [("left", Side::Left), ("right", Side::Right)];
        sides
            .into_iter()
            .filter(|(_, side)| self.subject.plays_on(*side))
            .collect()
    }

    /// Resistance of the coils of one channel at the amplifier's end of its cable, in Ω.
    pub(super) fn ohms(&self, build: &Build, side: Side) -> f64 {
        let groups = self.design().drivers.iter().zip(&build.drivers);
        let conductance: f64 = groups
            .filter(|(group, _)| on_side(group.side.value, side))
            .map(|(group, example)| {
                let here = f64::from(on_one_channel(group));
                let re = example.driver.re;
                let joined = match group.wiring.value {
                    Wiring::Parallel => re / here,
                    Wiring::Series => re * here,
                    Wiring::SeriesParallel => 4.0 * re / here,
                };
                1.0 / joined
            })
            .sum();
        1.0 / conductance + build.amplifier.feed.cable_resistance
    }

    /// The greatest volts rms at an output that no limit forbids for a sine at a grid point.
    pub(super) fn ceiling(&self, at: usize) -> f64 {
        let flared = match &self.design().enclosure.kind {
            EnclosureKind::Vented(vent) => vent.flared.value,
            EnclosureKind::Sealed | EnclosureKind::PassiveRadiator(_) => false,
        };
        let caps = Caps::of(self.build, self.build.battery.mid_voltage(), flared);
        Ceiling::lowest(caps.sine(self.gains, at)).volts
    }

    /// The grid point nearest to a frequency.
    pub(super) fn near(hertz: &[f64], wanted: f64) -> usize {
        let above = hertz.partition_point(|f| *f < wanted).min(hertz.len() - 1);
        let below = above.saturating_sub(1);
        if (hertz[above] - wanted).abs() < (wanted - hertz[below]).abs() {
            above
        } else {
            below
        }
    }
}

/// Whether a group of drivers plays on a side.
pub(super) const fn on_side(group: Side, side: Side) -> bool {
    matches!(
        (group, side),
        (Side::Both, _)
            | (_, Side::Both)
            | (Side::Mono, Side::Mono)
            | (Side::Left, Side::Left)
            | (Side::Right, Side::Right)
    )
}

fn widened(
    unit: &'static str,
    [share, amount]: [f64; 2],
    nominal: f64,
    band: Option<Band>,
) -> Expect {
    let (low, high) = band.map_or((nominal, nominal), |band| (band.p10, band.p90));
    let off = |value: f64| share * value.abs() + amount;
    Expect::Band {
        low: low.min(nominal) - off(low),
        nominal,
        high: high.max(nominal) + off(high),
        unit,
    }
}
