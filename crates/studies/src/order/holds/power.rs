//! First power, idle current, and direct voltage at the outputs.

use super::context::DIRECT;
use super::cut_off::START;
use super::{Testing, test};
use crate::build::Build;
use crate::electrics::Electrics;
use crate::order::model::{Expect, Hold};
use design::{Does, Instrument};
use wiring::{Kind, State};

/// Rated currents of small fuses in A (`iec-60127`).
const FUSES: [f64; 24] = [
    0.05, 0.063, 0.08, 0.1, 0.125, 0.16, 0.2, 0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1.0, 1.25, 1.6,
    2.0, 2.5, 3.15, 4.0, 5.0, 6.3, 8.0, 10.0,
];
/// How far above the idle current the fuse of the first power-up lies: common practice, no
/// source.
const ABOVE_IDLE: f64 = 2.0;
/// Direct voltage at an output that is not questioned, in V: common practice, no source.
const OFFSET: f64 = 0.05;
/// Share of its travel to which a cone may be pushed by a direct voltage, and of its rated
/// power that may heat its coil: common practice, no source.
const PUSHED: f64 = 0.1;
const HEATED: f64 = 0.01;

/// Current drawn in a mode with nothing playing, of one build at so many volts, in A.
fn drawn(testing: &Testing<'_>, build: &Build, state: State, volts: f64) -> Option<f64> {
    let electrics = testing.electrics?;
    let modes = &electrics.modes;
    let mode = modes.iter().find(|mode| mode.mode.state == state)?;
    let system = &electrics.system;
    let from_battery = mode.live.iter();
    let from_battery = from_battery.filter(|part| system.parts[**part].fed_by.is_none());
    let each = from_battery.map(|&part| taken(testing, electrics, part, volts));
    let plays = state == State::On;
    let varies = if plays {
        build.amplifier.stage.idle_current - testing.build.amplifier.stage.idle_current
    } else {
        0.0
    };
    Some(each.sum::<f64>() + varies)
}

/// Current that a part takes with nothing playing at so many volts, in A: the electrics size
/// wires and fuse for the most it ever takes, a meter shows what flows.
fn taken(testing: &Testing<'_>, electrics: &Electrics, part: usize, volts: f64) -> f64 {
    let own = &electrics.parts[part];
    let built = testing.indicator.and_then(|known| known.built.as_ref());
    let known = built.filter(|_| !states_current(testing, &own.table));
    let cut_off = known.and_then(|built| built.cut_off.as_ref());
    let system = &electrics.system.parts[part];
    match (system.kind, known, cut_off) {
        (Kind::Converter, _, _) => {
            let aside = &testing.subject.aside;
            aside.current(Does::RadioSupply, volts)
        }
        (Kind::Indicator, Some(built), _) => built.dark,
        // Nearly all of it is the coil's, and so grows with the voltage.
        (Kind::Switch, _, Some(cut_off)) if system.name == "cut-off" => {
            cut_off.dark * volts / testing.build.battery.mid_voltage()
        }
        _ => own.idle,
    }
}

/// Whether a table names a module that states its current, rather than a board a circuit is
/// built on.
fn states_current(testing: &Testing<'_>, table: &str) -> bool {
    let modules = testing.design().modules.iter().enumerate();
    let mut stated = modules.filter(|(_, used)| used.part.current.is_some());
    stated.any(|(at, _)| table == format!("module.{}", at + 1))
}

/// Current drawn while on with nothing playing, in A.
fn idle_current(testing: &Testing<'_>, build: &Build, volts: f64) -> f64 {
    let amplifier = build.amplifier.stage.idle_current;
    drawn(testing, build, State::On, volts).unwrap_or(amplifier)
}

/// Voltages in V at which tests of the supply are taken, the usual one first: what the bench
/// supply is set to, or a battery between charged and half full.
fn volts(testing: &Testing<'_>) -> [f64; 2] {
    let battery = &testing.build.battery;
    let half = battery.mid_voltage();
    if testing.has(Instrument::BenchSupply) {
        [half, half]
    } else {
        [battery.full_voltage(), half]
    }
}

fn idle_band(testing: &Testing<'_>) -> Expect {
    let [usual, other] = volts(testing).map(|volts| {
        testing.band("A", [2.0 * DIRECT, 0.0], |build| {
            idle_current(testing, build, volts)
        })
    });
    both(usual, &other)
}

/// The first band, as wide as it must be to hold the second.
fn both(usual: Expect, other: &Expect) -> Expect {
    match (usual, other) {
        (
            Expect::Band {
                low,
                nominal,
                high,
                unit,
            },
            Expect::Band {
                low: other_low,
                high: other_high,
                ..
            },
        ) => Expect::Band {
            low: low.min(*other_low),
            nominal,
            high: high.max(*other_high),
            unit,
        },
        (usual, _) => usual,
    }
}

/// The small fuse of the first power-up, in A.
pub(super) fn small_fuse(testing: &Testing<'_>) -> f64 {
    let high = match idle_band(testing) {
        Expect::Band { high, .. } => high,
        _ => idle_current(testing, testing.build, volts(testing)[0]),
    };
    let wanted = ABOVE_IDLE * high;
    let found = FUSES.into_iter().find(|fuse| *fuse >= wanted);
    found.unwrap_or(FUSES[FUSES.len() - 1])
}

pub(super) fn power_up(testing: &Testing<'_>) -> Hold {
    let fuse = small_fuse(testing);
    let said = if fuse < 1.0 {
        format!("{:.0} mA", 1e3 * fuse)
    } else {
        format!("{fuse} A")
    };
    let bench = testing.has(Instrument::BenchSupply);
    let hold = test("test-power-up", "First power behind a small fuse", &[]);
    let hold = if bench {
        let volts = crate::words::stated(volts(testing)[0], "V");
        let hold = Hold {
            with: vec![Instrument::BenchSupply],
            ..hold
        };
        hold.how(format!(
            "bench supply in place of the battery: {volts}, current limit {said}; volume down, \
drivers joined"
        ))
        .seen(
            "the supply",
            "holds its voltage: after a blink at most it does not go into its limit",
        )
        .if_not(
            "the supply stays in its limit",
            "a short or reversed supply: off, and do not raise the limit; back to the isolation test",
        )
    } else {
        hold.how(format!(
            "in the holder, in place of the fuse of the design: {said}, slow; volume down, drivers \
joined, battery charged"
        ))
        .seen("the fuse", "holds")
        .if_not(
            "the fuse goes at once",
            "a short or reversed supply: do not put in a larger one; back to the isolation test. \
If the same wires pass it, the rush into the board's capacitors did it: try once with 10 Ω, 5 W in \
its place, switch on, then bridge it",
        )
    };
    let hold = match testing.cut_off() {
        Some(_) => hold.how(START),
        None => hold,
    };
    let hold = match lights(testing) {
        Some(words) => hold.seen("lights", words),
        None => hold,
    };
    hold.seen("drivers", "a short plop at most")
    .seen(
        "after a minute, by nose and the back of a finger",
        "nothing smells, nothing is warm",
    )
    .if_not(
        "nothing at all",
        if testing.cut_off().is_some() {
            "the cut-off's button was not pressed; switch, polarity, or a wire not made: meter along \
the supply"
        } else {
            "switch, polarity, or a wire not made: meter along the supply"
        },
    )
    .if_not(
        "hum or hiss",
        "normal with the volume up and the input open; not with it down",
    )
    .care(if bench {
        "The battery stays out, its ends insulated from each other. Glasses on; supply off before \
any wire is touched."
    } else {
        "Battery in last and out first. Glasses on; fuse out before any wire is touched. A \
cell that is hot, swells or hisses: away from it, outdoors."
    })
}

/// What the lights do when the box is switched on; nothing where there are none.
fn lights(testing: &Testing<'_>) -> Option<String> {
    let there = |name| {
        let known = testing.electrics;
        known.is_some_and(|known| known.system.part(name).is_some())
    };
    let low = (there("low-battery light") || there("indicator")).then(|| stays_dark(testing));
    let power = there("power light").then_some("the power light comes on");
    let each: Vec<&str> = [power, low].into_iter().flatten().collect();
    (!each.is_empty()).then(|| each.join("; "))
}

/// What the low-battery light does at the voltages of the test.
fn stays_dark(testing: &Testing<'_>) -> &'static str {
    let built = testing.indicator.and_then(|known| known.built.as_ref());
    let goes_out = built.map_or(0.0, |built| built.rising.most);
    if volts(testing)[0] > goes_out {
        "the low-battery light stays dark, after a blink at most"
    } else {
        "the low-battery light may stay lit: this voltage is not above where it surely goes out"
    }
}

pub(super) fn idle(testing: &Testing<'_>) -> Hold {
    let none = if testing.has(Instrument::BenchSupply) {
        "the supply's output is off, or a wire is not made: meter along the supply"
    } else if testing.has(Instrument::Multimeter) {
        "the meter's own fuse is gone, or it is in the wrong jack"
    } else {
        "the clamp is around both wires, or set to alternating current"
    };
    let hold = test("test-idle", "Idle current", &[Instrument::Multimeter])
        .if_not(
            "twice as much or more",
            "the board oscillates, an output is loaded, or a light has \
no resistor",
        )
        .if_not("none", none)
        .if_not(
            "something flows while switched off",
            "something is left of the switch: it empties the battery in the cupboard",
        );
    let hold = match testing.cut_off() {
        Some(_) => hold.how(START),
        None => hold,
    };
    let off = testing
        .electrics
        .and_then(|_| drawn(testing, testing.build, State::Off, volts(testing)[0]));
    let read = |hold: Hold| {
        let hold = hold.read("on, nothing playing", idle_band(testing));
        match off {
            Some(amperes) if amperes > 1e-6 => hold.read(
                "switched off",
                Expect::AtMost {
                    value: 1.2 * amperes,
                    unit: "A",
                },
            ),
            Some(_) => hold.seen("switched off", "nothing on the most sensitive range"),
            None => hold,
        }
    };
    if testing.has(Instrument::BenchSupply) {
        let hold = Hold {
            with: vec![Instrument::BenchSupply],
            ..hold
        };
        return read(hold.how("as the bench supply shows it, volume down, after a minute"));
    }
    if testing.has(Instrument::Multimeter) {
        return read(
            hold.how(
                "battery charged, meter on its 10 A jack across the empty fuse holder, volume down, after \
a minute",
            )
            .how("leads back into the volts jack at once: the meter is a short in that one"),
        );
    }
    if testing.has(Instrument::ClampMeter) {
        let hold = Hold {
            with: vec![Instrument::ClampMeter],
            ..hold
        };
        return read(hold.how("battery charged; clamp zeroed, then around the plus wire alone"));
    }
    hold
}

/// Greatest direct voltage that neither pushes nor heats a cone of this build, in V.
fn harmless(build: &Build) -> f64 {
    let each = build.drivers.iter().map(|example| {
        let driver = &example.driver;
        let pushed = PUSHED * example.xmax * driver.re / (driver.bl * driver.compliance);
        let heated = (HEATED * example.power * driver.re).sqrt();
        pushed.min(heated)
    });
    each.fold(f64::INFINITY, f64::min)
}

pub(super) fn offset(testing: &Testing<'_>) -> Hold {
    let part = &testing.design().amplifier.part;
    let limit = OFFSET.min(harmless(testing.build));
    let hold = test(
        "test-offset",
        "Direct voltage at the outputs",
        &[Instrument::Multimeter],
    );
    let hold = hold
        .if_not(
            "more",
            "a fault of the board, or a leaky coupling capacitor: it warms the coil and pushes \
the cone off its middle; take the drivers off",
        )
        .if_not(
            "one channel only",
            "swap the inputs: where it stays, the board has it",
        );
    if !testing.has(Instrument::Multimeter) {
        let mut hold = hold
            .how("watch each cone while somebody switches on")
            .instead(&[]);
        for (name, _) in testing.outputs() {
            hold = hold.seen(
                name,
                "the cones step back to where they were within a second",
            );
        }
        return hold;
    }
    let mut hold = hold.how("from plus to minus of each output, drivers joined, nothing playing");
    if part.bridged {
        let half = testing.build.battery.mid_voltage() / 2.0;
        let half = crate::words::prefixed(half, "V");
        hold = hold.how(format!(
            "each of the two by itself reads about half the supply, {half}, against battery −: \
that is right for a bridge; only what is between them counts"
        ));
    }
    for (name, _) in testing.outputs() {
        hold = hold.read(
            name,
            Expect::AtMost {
                value: limit,
                unit: "V",
            },
        );
    }
    hold
}
