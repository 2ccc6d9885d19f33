//! How the battery's voltage goes down over the builds, while playing as the
//! brief asks.

use super::Player;
use crate::power::{Load, Playing, consumption};
use crate::vary::{Draw, draw};
use physics::battery::Battery;
use physics::indicator::Indicator as Circuit;
use rayon::prelude::*;

/// The discharge of one build.
#[derive(Clone, Debug)]
pub(super) struct Curve {
    /// Seconds and volts, as time goes on.
    points: Vec<(f64, f64)>,
    /// When the music ends, in s.
    pub(super) end: f64,
}

impl Curve {
    fn of(battery: &Battery, power: &dyn Fn(f64) -> f64) -> Self {
        let run = battery.discharge(power);
        Self {
            points: run.curve,
            end: run.seconds,
        }
    }

    /// Voltage with so many seconds of music left; that of the start where there
    /// are not so many.
    pub(super) fn volts(&self, left: f64) -> f64 {
        let time = (self.end - left).max(0.0);
        let after = self.points.partition_point(|(seconds, _)| *seconds < time);
        match (
            after.checked_sub(1).and_then(|i| self.points.get(i)),
            self.points.get(after),
        ) {
            (Some(a), Some(b)) => a.1 + (b.1 - a.1) * (time - a.0) / (b.0 - a.0),
            (_, Some(only)) | (Some(only), None) => only.1,
            (None, None) => f64::NAN,
        }
    }

    /// Seconds of music left when the voltage falls below `volts`.
    pub(super) fn left(&self, volts: f64) -> f64 {
        let after = self.points.partition_point(|(_, at)| *at > volts);
        let time = match (
            after.checked_sub(1).and_then(|i| self.points.get(i)),
            self.points.get(after),
        ) {
            (Some(a), Some(b)) => a.0 + (b.0 - a.0) * (a.1 - volts) / (a.1 - b.1),
            (None, _) => 0.0,
            (Some(_), None) => self.end,
        };
        self.end - time
    }
}

/// Discharges of the nominal build and of drawn ones.
pub(super) struct Fading {
    pub(super) nominal: Curve,
    /// Each drawn build with where in its limits every cause of its indicator
    /// lies, −1 to 1.
    pub(super) drawn: Vec<(Curve, Vec<f64>)>,
}

/// Drawn builds; enough for odds to a few hundredths.
const BUILDS: u32 = 256;

/// Points of the table of power against voltage.
const TABLE: usize = 24;

impl Fading {
    pub(super) fn of(player: &Player<'_>) -> Self {
        let power = Table::of(player);
        let nominal = Curve::of(&player.build.battery, &|volts| power.at(volts));
        let causes = player.subject.causes.list().len();
        let one = |index: u32| {
            let drawn = draw(index, causes + Circuit::causes());
            let own = match &drawn {
                Draw::Point(point) => point[causes..]
                    .iter()
                    .map(|unit| 2.0 * unit - 1.0)
                    .collect(),
                Draw::Nominal => vec![0.0; Circuit::causes()],
            };
            let battery = player.subject.battery.at(&drawn);
            // The same draw as in the main study, where there is one.
            let outcome = player.drawn.outcomes.get(index as usize);
            let more = outcome.map_or(1.0, |outcome| {
                outcome.draw_brief / player.outcome.draw_brief
            });
            (Curve::of(&battery, &|volts| more * power.at(volts)), own)
        };
        Self {
            nominal,
            drawn: (0..BUILDS).into_par_iter().map(one).collect(),
        }
    }
}

/// Power drawn at the brief's loudness against the battery's voltage.
struct Table {
    low: f64,
    step: f64,
    watts: Vec<f64>,
}

impl Table {
    fn of(player: &Player<'_>) -> Self {
        let load = Load::of(player.gains, player.scene);
        let channels = player.subject.channels_used();
        let playing = Playing::Programme(player.outcome.brief_volts);
        let drawn = consumption(player.build, &load, player.scene, channels, playing);
        let battery = &player.build.battery;
        let low = 0.8 * battery.end_voltage;
        let step = (1.02 * battery.full_voltage() - low) / (TABLE - 1) as f64;
        Self {
            low,
            step,
            watts: (0..TABLE).map(|i| drawn(low + step * i as f64)).collect(),
        }
    }

    fn at(&self, volts: f64) -> f64 {
        let place = ((volts - self.low) / self.step).clamp(0.0, (TABLE - 1) as f64);
        let i = (place as usize).min(TABLE - 2);
        let part = place - i as f64;
        self.watts[i] * (1.0 - part) + self.watts[i + 1] * part
    }
}
