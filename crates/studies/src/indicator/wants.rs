//! What the indicator has to do, from the design and its battery.

use super::Player;
use super::fading::Fading;
use super::model::{Sag, Wanted};
use crate::power::peak_current;
use design::IndicatorUse;
use physics::indicator::Indicator as Circuit;
use physics::indicator::search::{Lamp, Wish};

/// Warning and delay where nothing is said, in s.
const WARNING: f64 = 1800.0;
const DELAY: f64 = 3.0;

/// Share of builds that are to have the warning.
const IN_TIME: f64 = 0.9;

/// Least hysteresis: the rise when the music pauses and half as much again, and
/// a share of the threshold, for what a cell recovers at rest. Common practice,
/// no source.
const PAUSE: f64 = 1.5;
const REST: f64 = 0.01;

/// Steps in V in which thresholds are asked for: finer is lost in every
/// tolerance, and variants of a design then ask for the same circuit.
const FINE: f64 = 0.05;

/// Steps in V of the lowest supply.
const COARSE: f64 = 0.25;

/// How far hysteresis and delay may exceed what is wanted, as ratios.
const MORE: f64 = 2.5;

/// Room below the delay wanted for what the small capacitor across the feedback
/// takes off it.
const SPARE_DELAY: f64 = 1.15;

/// How far the battery sags near its end.
pub(super) fn sag(player: &Player<'_>) -> Sag {
    let battery = &player.build.battery;
    let mean_current = player.outcome.draw_brief / battery.mid_voltage();
    let peak_current = peak_current(
        player.build,
        player.gains,
        player.scene,
        player.outcome.brief_volts,
        player.subject.channels_used(),
    );
    Sag {
        mean_current,
        mean: mean_current * battery.resistance,
        peak_current,
        peak: peak_current * battery.resistance,
        ripple: 0.0,
    }
}

pub(super) fn wanted(player: &Player<'_>, used: &IndicatorUse, sag: &Sag) -> Wanted {
    let battery = &player.build.battery;
    let lowest = battery.end_voltage - sag.peak;
    let usual = PAUSE * sag.mean + REST * battery.mid_voltage();
    Wanted {
        warning: used.warning.map_or(WARNING, |value| value.si),
        delay: used.delay.map_or(DELAY, |value| value.si),
        hysteresis: used
            .hysteresis
            .map_or((usual / FINE).ceil() * FINE, |value| value.si),
        trip: f64::NAN,
        supply: [
            (lowest / COARSE).floor() * COARSE,
            battery.charge_voltage().max(battery.full_voltage()),
        ],
    }
}

/// The voltage at which nine builds of ten have the warning, with a circuit
/// whose falling threshold differs from its nominal by the ratios `off` gives.
pub(super) fn trip(fading: &Fading, warning: f64, off: impl Fn(&[f64]) -> f64) -> f64 {
    let mut needed: Vec<f64> = fading
        .drawn
        .iter()
        .map(|(curve, own)| curve.volts(warning) / off(own))
        .filter(|volts| volts.is_finite())
        .collect();
    needed.sort_unstable_by(f64::total_cmp);
    let place = (IN_TIME * needed.len() as f64).ceil() as usize;
    let volts = needed
        .get(place.saturating_sub(1))
        .copied()
        .unwrap_or(f64::NAN);
    (volts / FINE).ceil() * FINE
}

/// Ratio of a circuit's falling threshold to its nominal one.
pub(super) fn off<'a>(circuit: &'a Circuit) -> impl Fn(&[f64]) -> f64 + 'a {
    let nominal = circuit.thresholds().falling;
    move |own| circuit.thresholds_off(own).falling / nominal
}

pub(super) fn wish(wanted: &Wanted, used: &IndicatorUse, lamp: Lamp, highest: f64) -> Wish {
    let said = used.hysteresis.is_some();
    let hysteresis = wanted.hysteresis;
    let delay = wanted.delay;
    Wish {
        trip: wanted.trip,
        within: 0.03,
        hysteresis: match (hysteresis > 0.0, said) {
            (false, _) => [0.0, 0.0],
            (true, true) => [0.8 * hysteresis, 1.25 * hysteresis],
            (true, false) => [hysteresis, MORE * hysteresis],
        },
        recovered: highest,
        delay: if delay > 0.0 {
            [SPARE_DELAY * delay, MORE * delay]
        } else {
            [0.0, 0.0]
        },
        supply: wanted.supply,
        lamp,
    }
}
