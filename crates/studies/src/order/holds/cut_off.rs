//! Where the cut-off disconnects the load, and that it stays off until it is started.

use super::{Testing, test, trip};
use crate::indicator::CutOff;
use crate::order::model::Hold;
use crate::words::prefixed;
use design::Instrument;

/// What is done after every switching on: the cut-off is off until its button was pressed.
pub(super) const START: &str = "main switch on, then the cut-off's start button held for a second, as after every \
switching on";

/// Steps of the current limit of a bench supply, in A, and how far above what the cut-off takes it
/// lies: common practice, no source.
const LIMIT: f64 = 0.05;
const ABOVE: f64 = 2.0;

/// So many of its delays at each step the voltage is left alone.
const PAUSE: f64 = 2.0;

pub(super) fn hold(testing: &Testing<'_>) -> Option<Hold> {
    let cut_off = testing.cut_off()?;
    let delay = testing.indicator.map_or(0.0, |known| known.wanted.delay);
    let half = testing.build.battery.mid_voltage();
    let volts = |volts: f64| format!("{volts:.2} V");
    let hold = test(
        "test-cut-off",
        "Trip point of the cut-off",
        &[Instrument::BenchSupply, Instrument::Multimeter],
    )
    .how(format!(
        "before it is wired in: bench supply at {} on its battery side, current limit {}, meter from its \
load side to minus, its start button held for a second",
        volts(half),
        prefixed(limit(cut_off), "A")
    ))
    .how(format!(
        "from {} down in steps of 0.05 V with a pause of {} after each, until the meter falls to \
nothing: what it showed before counts",
        volts(half.min(cut_off.falling.most + 0.3)),
        prefixed((PAUSE * delay).max(1.0), "s")
    ))
    .how(format!(
        "up again to {}, the button left alone; then press it",
        volts(half)
    ));
    Some(
        hold.seen(
            "button let go",
            "the meter still shows the supply's voltage",
        )
        .read("it disconnects below", trip::within(&cut_off.falling))
        .seen("voltage back, button left alone", "it stays off")
        .seen("button pressed again", "it is on again")
        .if_not(
            "off as soon as the button is let go",
            "the resistor of the hysteresis is missing or too large, or its inputs are swapped",
        )
        .if_not(
            "on without the button, or never off",
            "its inputs are swapped, its divider is open, or its switch is bridged",
        )
        .if_not(
            "the supply goes into its limit",
            "a diode or a transistor the wrong way round",
        )
        .if_not(
            "off by more than the band",
            "a resistor in the wrong place: read each again",
        ),
    )
}

/// Limit of the bench supply in A.
fn limit(cut_off: &CutOff) -> f64 {
    LIMIT * (ABOVE * cut_off.dark / LIMIT).ceil().max(1.0)
}
