//! A sine through the whole chain, and what it does to the battery.

use super::context::{ALTERNATING, DIRECT};
use super::{Testing, test};
use crate::build::Build;
use crate::order::model::{Expect, Hold};
use design::Instrument;
use physics::math::{cos, db_amplitude, hypot, sin};
use physics::programme::SINE_MEAN_TO_RMS;

/// Frequencies of the test in Hz: the first is one that every multimeter reads.
const LOW: f64 = 100.0;
const HIGH: f64 = 1000.0;
/// Frequencies in Hz of the test of the battery.
const LOADING: [f64; 4] = [100.0, 200.0, 300.0, 400.0];
/// A drop of fewer V than this is not told from the last digit of a meter; the error of a difference of
/// two of its readings: common practice, no source.
const DIGIT: f64 = 0.01;
/// Share of the lowest limit at which the test stays: common practice, no source.
const WITHIN: f64 = 0.5;
/// Volts at the terminals for a test without stress: common practice, no source.
const GENTLE: f64 = 1.0;
/// Share of the coils' rating in a test of some seconds: common practice, no source.
const RATED: f64 = 0.25;

/// Terminal voltage per volt at the amplifier's input, of one build into a load of some
/// magnitude and phase: its resistance divides with the load.
fn gain(build: &Build, ohms: f64, phase: f64) -> f64 {
    let series = build.amplifier.feed.output_resistance;
    let whole = hypot(series + ohms * cos(phase), ohms * sin(phase));
    build.amplifier.gain * ohms / whole
}

/// Input in V rms that gives some volts at the terminals, rounded to two figures.
fn input_for(testing: &Testing<'_>, volts: f64, at: usize) -> f64 {
    let gain = gain(
        testing.build,
        testing.gains.impedance[at],
        testing.gains.phase[at],
    );
    let exact = volts / gain;
    let scale = physics::math::pow(10.0, physics::math::log10(exact).floor() - 1.0);
    (exact / scale).round() * scale
}

pub(super) fn terminals(testing: &Testing<'_>) -> Hold {
    let at = |hertz: f64| Testing::near(testing.hertz, hertz);
    let volts = GENTLE
        .min(WITHIN * testing.ceiling(at(LOW)))
        .min(WITHIN * testing.ceiling(at(HIGH)));
    let input = input_for(testing, volts, at(LOW));
    let millivolts = crate::words::stated(1e3 * input, "mV");
    let hold = test(
        "test-sine",
        "A sine at the terminals",
        &[testing.sine_source(), Instrument::Multimeter],
    )
    .if_not(
        "less on one side",
        "a cold joint, the wrong gain setting, or one track of the control",
    )
    .if_not("nothing", "input wires, mute or standby of the board")
    .if_not(
        "more",
        "another gain setting than the design says; the source clips it earlier",
    )
    .if_not(
        "it buzzes or is hoarse",
        "a coil rubs, a wire touches a cone, or the board clips",
    )
    .care("Start with the volume at zero. A sine is louder than it seems: no ear near the cones.");
    let source = if testing.has(Instrument::SineSource) {
        "the sine source"
    } else {
        "the phone"
    };
    if !testing.has(Instrument::Multimeter) && !testing.has(Instrument::Oscilloscope) {
        let mut hold = hold
            .how(format!(
                "{source} at 100 Hz, quiet, one side after the other, then at 1 kHz"
            ))
            .instead(&[testing.sine_source()]);
        for (name, _) in testing.outputs() {
            hold = hold.seen(name, "a clean tone, as loud as the other side");
        }
        return hold;
    }
    let meter = if testing.has(Instrument::Multimeter) {
        Instrument::Multimeter
    } else {
        Instrument::Oscilloscope
    };
    let mut hold = Hold {
        with: vec![testing.sine_source(), meter],
        ..hold
    }
    .how(format!(
        "{source} at 100 Hz into both inputs; turn it up until the amplifier's input reads {millivolts} rms"
    ))
    .how("then read from plus to minus of each output; the same input at 1 kHz");
    if testing.design().amplifier.part.bridged {
        hold = hold.how("no lead of an instrument with mains earth on a bridged output");
    }
    for (name, _) in testing.outputs() {
        for hertz in [LOW, HIGH] {
            let (fine, coarse) = (at(hertz), Testing::near(testing.coarse, hertz));
            let nominal = input
                * gain(
                    testing.build,
                    testing.gains.impedance[fine],
                    testing.gains.phase[fine],
                );
            let error = if hertz > LOW {
                2.0 * ALTERNATING
            } else {
                ALTERNATING
            };
            let expect = band(testing, input, nominal, coarse, error);
            hold = hold.read(format!("{name}, {hertz} Hz"), expect);
        }
    }
    hold = hold.how("many multimeters read too low above 400 Hz: the reading at 100 Hz counts");
    level(testing, hold, volts)
}

/// Terminal voltage of drawn builds: their gains and resistances with their own impedance.
fn band(testing: &Testing<'_>, input: f64, nominal: f64, at: usize, error: f64) -> Expect {
    let builds = testing.band("V", [0.0, 0.0], |build| build.amplifier.gain);
    let Expect::Band {
        low,
        nominal: middle,
        high,
        ..
    } = builds
    else {
        return builds;
    };
    let loads = testing.band_of_curve("V", [0.0, 0.0], nominal, |traces| {
        let phase = traces.phase[at].to_radians();
        input * gain(testing.build, traces.impedance[at], phase)
    });
    let Expect::Band {
        low: least,
        high: most,
        ..
    } = loads
    else {
        return loads;
    };
    Expect::Band {
        low: least * low / middle * (1.0 - error),
        nominal,
        high: most * high / middle * (1.0 + error),
        unit: "V",
    }
}

/// With a sound meter, how loud that is.
fn level(testing: &Testing<'_>, hold: Hold, volts: f64) -> Hold {
    if !testing.has(Instrument::SoundMeter) {
        return hold;
    }
    let at = Testing::near(testing.hertz, HIGH);
    let pascals = testing.gains.pressure[at] * volts;
    let nominal = db_amplitude(pascals / 20e-6);
    let coarse = Testing::near(testing.coarse, HIGH);
    let shown = |traces: &crate::outcome::Traces| traces.response[coarse];
    let own = testing.band_of_curve("dB", [0.0, 2.0], 0.0, shown);
    let Expect::Band { low, high, .. } = own else {
        return hold;
    };
    // The curves are of 2.83 V where the box stands; only their spread is taken.
    let middle = (low + high) / 2.0;
    let half = if testing.drawn.traces().is_empty() {
        2.0
    } else {
        high - middle
    };
    Hold {
        with: [hold.with.clone(), vec![Instrument::SoundMeter]].concat(),
        ..hold
    }
    .read(
        "one side at 1 m outdoors, 1 kHz, flat",
        Expect::Band {
            low: nominal - half,
            nominal,
            high: nominal + half,
            unit: "dB",
        },
    )
}

/// The sine of the test of the battery: of those that every multimeter reads, the one that draws
/// most, away from the peak of the impedance; its volts at the terminals, and its grid point.
fn load(testing: &Testing<'_>) -> (f64, f64, usize) {
    let each = LOADING.map(|hertz| {
        let at = Testing::near(testing.hertz, hertz);
        (hertz, load_volts(testing, at), at)
    });
    let ohms = |at: usize| testing.gains.impedance[at] / cos(testing.gains.phase[at]);
    let power = |(_, volts, at): &(f64, f64, usize)| volts * volts / ohms(*at);
    let most = each
        .into_iter()
        .max_by(|a, b| power(a).total_cmp(&power(b)));
    most.expect("there are some")
}

/// Volts at the terminals that coils and limits bear for ten seconds.
fn load_volts(testing: &Testing<'_>, at: usize) -> f64 {
    let rated = testing
        .build
        .drivers
        .iter()
        .map(|driver| RATED * driver.power);
    let power = rated.fold(f64::INFINITY, f64::min);
    let heated = (power * testing.gains.impedance[at]).sqrt();
    heated.min(WITHIN * testing.ceiling(at))
}

/// Current drawn from the battery with a sine on all channels, in A, and its voltage then.
fn loaded(testing: &Testing<'_>, build: &Build, volts: f64, at: usize) -> (f64, f64) {
    let (ohms, phase) = (testing.gains.impedance[at], testing.gains.phase[at]);
    let stage = &build.amplifier.stage;
    let rms = volts / ohms;
    let output = volts * rms * cos(phase);
    let open = build.battery.open_circuit(0.5);
    let idle = stage.idle_current * open;
    let one = stage.supply_power(open, rms, rms * SINE_MEAN_TO_RMS, output) - idle;
    let aside = build.aside.power(open);
    let power = f64::from(testing.subject.channels_used()) * one + idle + aside;
    let under = build.battery.loaded_voltage(0.5, power).unwrap_or(0.0);
    (power / under.max(1e-3), under)
}

pub(super) fn sag(testing: &Testing<'_>) -> Hold {
    let (hertz, volts, at) = load(testing);
    let (current, _) = loaded(testing, testing.build, volts, at);
    let hold = test(
        "test-sag",
        "Sag of the battery",
        &[testing.sine_source(), Instrument::Multimeter],
    )
    .if_not(
        "more",
        "thin or long supply wires, a poor crimp, a tired or a cold battery: read at the board's \
terminals too, the difference is the wires'",
    )
    .if_not(
        "the box goes off",
        "the protection board trips: too much current, or an empty battery",
    )
    .care(
        "Loud: ear protection, or cones against a pillow; no more than ten seconds, coils get hot.",
    );
    let sag = testing.band("V", [0.0, DIGIT], |build| {
        let (_, under) = loaded(testing, build, volts, at);
        build.battery.open_circuit(0.5) - under
    });
    let said = crate::words::stated(volts, "V");
    hold.how("fuse of the design in; battery about half full, rested; read its terminals")
        .how(format!(
            "{hertz} Hz on all channels, up to {said} rms at the outputs; read the battery again \
within ten seconds"
        ))
        .how(format!(
            "it then gives about {}",
            crate::words::prefixed(current, "A")
        ))
        .read("the battery drops by", readable(sag))
        .read(
            "rested, half full",
            testing.band("V", [DIRECT, 0.1], |build| build.battery.mid_voltage()),
        )
}

/// A band that reaches below what the meter tells from nothing has only one end.
fn readable(expect: Expect) -> Expect {
    match expect {
        Expect::Band {
            low, high, unit, ..
        } if low < DIGIT => Expect::AtMost { value: high, unit },
        other => other,
    }
}
