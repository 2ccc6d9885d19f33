//! How a finished indicator is tested and set.

use super::model::{Reading, Step, Threshold, Trimmer};
use crate::words::{number, prefixed};
use design::{Instrument, Workshop};
use physics::indicator::{Indicator as Circuit, State, parallel_for};

/// What there is to write the steps from.
pub(super) struct Setting<'a> {
    pub(super) circuit: &'a Circuit,
    pub(super) falling: &'a Threshold,
    pub(super) rising: &'a Threshold,
    pub(super) trip: f64,
    pub(super) trimmer: Option<&'a Trimmer>,
    pub(super) workshop: &'a Workshop,
    /// Voltage of the full battery in V.
    pub(super) full: f64,
}

/// Above the threshold by so many volts everything is measured with the lamp dark.
const ABOVE: f64 = 1.0;

/// How far a current may lie from the computed one, as a share: the comparator's
/// own differs most. Common practice, no source.
const CURRENT_OFF: f64 = 0.4;

/// A potentiometer that makes a supply for a few milliamperes, in Ω: common practice, no source.
const POTENTIOMETER: f64 = 470.0;

/// Powers in W such potentiometers bear, and how far above what the battery heats it with the
/// next of them is taken: common practice, no source.
const BEARS: [f64; 4] = [0.5, 1.0, 2.0, 5.0];
const COOL: f64 = 1.5;

/// What to mind with a charged pack on the bench.
pub(crate) const PACK_CARE: &str = "The fuse first: a charged pack drives far more than thin wires \
bear. No bare ends; its + joined last and taken off first; a cell that is hot, swells or hisses: away \
from it, outdoors.";

/// Resistance of the meter in Ω: common practice, no source.
const METER: f64 = 10e6;

/// For so many volts off, the resistor that mends it is told.
const OFF: f64 = 0.1;

pub(super) fn steps(setting: &Setting<'_>) -> Vec<Step> {
    let bench = setting.workshop.has(Instrument::BenchSupply);
    let mut steps = vec![source(setting, bench), reference(setting), divider(setting)];
    if setting.trimmer.is_some() {
        steps.push(turn(setting, bench));
    }
    steps.push(falls(setting, bench));
    steps.push(rises(setting, bench));
    if setting.trimmer.is_none() {
        steps.push(mend(setting));
    }
    steps
}

/// The supply at which all is measured with the lamp dark, to a tenth.
fn above(setting: &Setting<'_>) -> f64 {
    (10.0 * (setting.rising.most.max(setting.trip) + ABOVE)).round() / 10.0
}

fn reading(at: &'static str, value: f64, share: f64, unit: &'static str) -> Option<Reading> {
    let away = share * value;
    Some(Reading {
        at,
        value,
        band: [value - away, value + away],
        unit,
    })
}

fn source(setting: &Setting<'_>, bench: bool) -> Step {
    let volts = number(above(setting), "V");
    let act = if bench {
        format!(
            "Leave the battery out. Set the bench supply to {volts} and its current limit to 50 mA, then join it to + and ground of the indicator. The lamp stays dark; read the current."
        )
    } else {
        format!(
            "Join a charged battery of about {volts} through a 100 Ω resistor to + and ground of the indicator. The lamp may blink once, then stays dark; read the current with the meter in the wire."
        )
    };
    let drawn = setting.circuit.currents(above(setting), State::Dark).drawn;
    Step {
        act,
        reads: reading("in the wire to +", drawn, CURRENT_OFF, "A"),
        otherwise: "Far more: the reference or the comparator is the wrong way round. Lamp lit: inputs of the comparator exchanged, or the divider's arms.".into(),
    }
}

fn reference(setting: &Setting<'_>) -> Step {
    let circuit = setting.circuit;
    let volts = circuit.reference.at(above(setting), circuit.feed.ohms);
    let slope = circuit.reference.slope
        * circuit.reference.slope_tolerance
        * (circuit.reference.current(above(setting), circuit.feed.ohms)
            - circuit.reference.rated_current)
            .abs();
    let share = circuit.reference.tolerance + circuit.reference.drift + slope / volts;
    Step {
        act: "Measure from ground to the reference.".into(),
        reads: reading("reference", volts, share, "V"),
        otherwise: "Near 0.7 V: the diode is the wrong way round. Near the supply: it is not joined to ground.".into(),
    }
}

fn divider(setting: &Setting<'_>) -> Step {
    let circuit = setting.circuit;
    // The meter is one more resistor across the arm below.
    let shown = METER / (METER + circuit.source_resistance());
    let volts = shown * circuit.input_at(above(setting), State::Dark);
    let worst = |share: f64| (1.0 - volts / above(setting)) * share;
    let share = worst(circuit.top.worst_tolerance() + circuit.bottom.worst_tolerance()) + 0.01;
    Step {
        act: if circuit.slow.is_some() {
            "Measure from ground to the middle of the divider, with a meter of 10 MΩ; not at the comparator's input, which it would pull down.".into()
        } else {
            format!(
                "Wait {} until the capacitor is full, then measure from ground to the middle of the divider, with a meter of 10 MΩ.",
                number(5.0 * circuit.time_constant().max(0.2), "s")
            )
        },
        reads: reading("divider", volts, share, "V"),
        otherwise: "Check the colours of the divider's resistors, and the polarity of an electrolytic capacitor: a reversed one leaks.".into(),
    }
}

/// What a supply is made of where there is no bench supply, from a battery of so many volts when
/// full.
pub(crate) fn from_the_pack(full: f64) -> String {
    let heat = COOL * full * full / POTENTIOMETER;
    let bears = BEARS.into_iter().find(|watts| *watts >= heat);
    format!(
        "a fuse of 0.5 A right at + of the charged battery, behind it a potentiometer of {}, {} from \
+ to −, and the indicator's supply wires to its middle and −",
        prefixed(POTENTIOMETER, "Ω"),
        prefixed(bears.unwrap_or(BEARS[BEARS.len() - 1]), "W")
    )
}

/// The same as the first sentences of a step; nothing with a bench supply.
fn without_bench(setting: &Setting<'_>, bench: bool) -> String {
    if bench {
        return String::new();
    }
    let way = from_the_pack(setting.full);
    format!("Without a bench supply: {way}. {PACK_CARE} ")
}

/// Set the supply to the threshold, turn until it lights.
fn turn(setting: &Setting<'_>, bench: bool) -> Step {
    let trimmer = setting.trimmer.map_or(0.0, |trimmer| trimmer.turned);
    let supply = without_bench(setting, bench);
    Step {
        act: format!(
            "{supply}Turn the trimmer to its largest value. Set the supply to {} by the meter, wait {}, then turn the trimmer down slowly, with pauses of that length, until the lamp just stays on; if the supply gave way as it lit, set it anew and repeat. Nominally that is {} of its way.",
            volts_fine(setting.trip),
            number(3.0 * setting.circuit.time_constant().max(0.3), "s"),
            number(100.0 * trimmer, "%"),
        ),
        reads: None,
        otherwise: "Where its way ends before that, look for a wrong resistor in the divider."
            .into(),
    }
}

fn falls(setting: &Setting<'_>, bench: bool) -> Step {
    let wait = number(3.0 * setting.circuit.time_constant().max(0.3), "s");
    // A trimmer was turned on the same supply.
    let supply = without_bench(setting, bench || setting.trimmer.is_some());
    let act = format!(
        "{supply}From {}, go down in steps of 0.05 V with a pause of {wait} after each, until the lamp lights.",
        volts_fine(setting.falling.most + 0.1)
    );
    Step {
        act,
        reads: Some(Reading {
            at: "battery +, lamp lights",
            value: setting.falling.volts,
            band: [setting.falling.least, setting.falling.most],
            unit: "V",
        }),
        otherwise: "Within the band but not where wanted: see the last step. Outside: a wrong resistor in the divider.".into(),
    }
}

fn rises(setting: &Setting<'_>, bench: bool) -> Step {
    let act = if bench {
        "Go up again as slowly until the lamp goes out."
    } else {
        "Go up again as slowly until the lamp goes out; what the meter read just before counts, for \
the voltage jumps as the lamp's current stops."
    };
    Step {
        act: act.to_owned(),
        reads: Some(Reading {
            at: "battery +, lamp goes out",
            value: setting.rising.volts,
            band: [setting.rising.least, setting.rising.most],
            unit: "V",
        }),
        otherwise:
            "As low as where it lit: the feedback resistor is missing. Never: it is far too small."
                .into(),
    }
}

/// What to set across an arm for a threshold that lies off.
fn mend(setting: &Setting<'_>) -> Step {
    let circuit = setting.circuit;
    let trip = setting.falling.volts;
    let kilo =
        |ohms: Option<f64>| ohms.map_or_else(|| "nothing".into(), |ohms| prefixed(ohms, "Ω"));
    let lower = parallel_for(circuit.top.ohms(), circuit.top_for(trip - OFF));
    let higher = parallel_for(circuit.bottom.ohms(), circuit.bottom_for(trip + OFF));
    Step {
        act: format!(
            "To bring it to {}: for each {OFF} V that it lights too high, set {} across the arm above; for each {OFF} V too low, {} across the arm below. Half as much off wants twice the value.",
            volts_fine(setting.trip),
            kilo(lower),
            kilo(higher),
        ),
        reads: None,
        otherwise: "Measure both thresholds again afterwards.".into(),
    }
}

fn volts_fine(volts: f64) -> String {
    format!("{volts:.2} V")
}
