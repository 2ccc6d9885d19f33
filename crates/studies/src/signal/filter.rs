//! The filter of a switching output into the impedance it really meets.

use super::coupling::rated_load;
use super::model::{Damped, Filtered};
use crate::build::Build;
use crate::subject::Subject;
use crate::system::network_of;
use core::f64::consts::SQRT_2;
use design::{Design, Series};
use physics::loudspeaker::Network;
use physics::math::{Complex, amplitude_from_db, db_amplitude, pow};
use physics::signal::{Damping, Output, quietest};

/// Rise in dB up to 20 kHz from which it is heard: common practice, no source.
pub(crate) const AUDIBLE: f64 = 1.0;
/// Peak in dB that damping is to leave at most, where it stands above hearing.
const LEFT: f64 = 5.0;
/// Up to where it is heard, in Hz.
const HEARD: f64 = 20e3;
/// From here to there in Hz, so many points.
const SPAN: (f64, f64, usize) = (1000.0, 400e3, 84);

/// Values that can be bought for damping: resistors in Ω and capacitors in F.
/// The largest capacitors make of a voice coil the resistor that the filter was
/// sized for, and load the board at 20 kHz as that does.
fn values() -> [Vec<f64>; 2] {
    [
        Series::E12.between(2.2, 33.0),
        Series::E6.between(0.1e-6, 4.7e-6),
    ]
}

/// The filter of one build; `None` where the board has none, or keeps its values to itself.
pub(crate) fn filter(subject: &Subject, build: &Build) -> Option<Filtered> {
    let feed = &build.amplifier.feed;
    let parts = feed.output_filter?;
    let design = &subject.project.design;
    let hertz: Vec<f64> = (0..SPAN.2)
        .map(|i| SPAN.0 * pow(SPAN.1 / SPAN.0, i as f64 / (SPAN.2 - 1) as f64))
        .collect();
    let loads = loads(subject, build, &hertz)?;
    let damping = damping(design);
    let output = Output {
        resistance: feed.output_resistance,
        inductance: parts.inductance,
        capacitance: parts.capacitance,
        damping,
    };
    let gains = |output: &Output, loads: &[Complex]| -> Vec<f64> {
        let each = hertz.iter().zip(loads);
        each.map(|(&hertz, &load)| db_amplitude(output.gain(hertz, load).norm()))
            .collect()
    };
    let gain = gains(&output, &loads);
    let rated = vec![Complex::from(rated_load(subject)); hertz.len()];
    let (peak, place) = output.peak(&hertz, &loads);
    let heard = hertz.partition_point(|&f| f <= HEARD);
    let audible = gain[..heard].iter().copied().fold(f64::MIN, f64::max);
    let mut found = Filtered {
        rated: gains(&output, &rated),
        damped_gain: Vec::new(),
        peak: (db_amplitude(peak), place),
        audible,
        damped_now: damping.is_some(),
        damped: None,
        gain,
        hertz: Vec::new(),
    };
    if damping.is_none() && (found.peak.0 > LEFT || audible > AUDIBLE) {
        let [resistors, capacitors] = values();
        let lists = [&resistors[..], &capacitors[..]];
        let most: Vec<f64> = hertz
            .iter()
            .map(|&f| amplitude_from_db(if f <= HEARD { AUDIBLE } else { LEFT }))
            .collect();
        let quiet = quietest(&output, &hertz, &loads, lists, &most);
        if let Some(quiet) = quiet {
            let damped = Output {
                damping: Some(quiet),
                ..output
            };
            found.damped_gain = gains(&damped, &loads);
            found.damped = Some(Damped {
                resistance: quiet.resistance,
                capacitance: quiet.capacitance,
                peak: db_amplitude(damped.peak(&hertz, &loads).0),
                heat: heat(build, &quiet),
            });
        }
    }
    found.hertz = hertz;
    Some(found)
}

/// What the design has across its outputs already.
fn damping(design: &Design) -> Option<Damping> {
    let used = &design.amplifier;
    Some(Damping {
        resistance: used.damping_resistor?.si,
        capacitance: used.damping_capacitor?.si,
    })
}

/// Heat in W with a full sine of 20 kHz on a half-empty battery.
fn heat(build: &Build, damping: &Damping) -> f64 {
    let supply = build.battery.mid_voltage();
    let volts = build.amplifier.stage.open_circuit_peak(supply) / SQRT_2;
    volts * volts * damping.heat(20e3)
}

/// What the filter of the first channel meets, in Ω.
fn loads(subject: &Subject, build: &Build, hertz: &[f64]) -> Option<Vec<Complex>> {
    let (system, _) = network_of(subject, build);
    let sweep = Network::new(&system).sweep(hertz);
    let folds = f64::from(subject.folds());
    let channel = sweep.channels.first()?;
    let each = channel.load_impedance.iter();
    Some(each.map(|load| load * folds).collect())
}
