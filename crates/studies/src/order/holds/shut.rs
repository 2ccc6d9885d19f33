//! Tests of the closed box: tightness, and a sweep for buzz.

use super::{Testing, test};
use crate::build::Build;
use crate::order::model::{Expect, Hold};
use crate::system::Resonance;
use crate::words;
use design::{EnclosureKind, Instrument};
use physics::loudspeaker::leak_resistance;
use physics::math::{log10, pow};

/// Below so many s a phone's slow motion tells what an eye does not: common practice, no source.
const EYE: f64 = 0.3;
/// Where the sweep ends, in Hz: what hums higher is heard in any music. Common practice, no source.
const SWEPT: f64 = 2000.0;
/// Walls listed at most: the lowest sound worst.
const WALLS: usize = 6;

/// Time in s in which a cone that was pushed in, held until the air had leaked out, and let go,
/// creeps back to 1/e of what the box's vacuum holds it at: τ = R·(C_box + ΣC_cones), with
/// slow, isothermal compliance of the air, by the circuit of `small-1972`.
pub(super) fn creep(testing: &Testing<'_>, build: &Build) -> f64 {
    let enclosure = &build.enclosure;
    let air = &build.air;
    let frequency = Resonance::of(testing.subject, build).box_frequency();
    let leak = leak_resistance(enclosure.leak_q, frequency, enclosure.net, air);
    let stiffness = air.density * air.sound_speed * air.sound_speed;
    let of_air = air.gamma * enclosure.net / stiffness;
    let groups = testing.design().drivers.iter().zip(&build.drivers);
    let cones: f64 = groups
        .map(|(group, example)| {
            let driver = &example.driver;
            f64::from(group.count) * driver.area * driver.area * driver.compliance
        })
        .sum();
    let radiators = build.radiator.map_or(0.0, |radiator| {
        f64::from(radiator.count) * radiator.area * radiator.area * radiator.compliance
    });
    leak * (of_air + cones + radiators)
}

pub(super) fn leak(testing: &Testing<'_>) -> Hold {
    let mut hold = test("test-leak", "Tightness", &[]).how(
        "fingertips around the middle of a cone, evenly; push it in slowly, hold for five \
seconds, let go",
    );
    if matches!(testing.design().enclosure.kind, EnclosureKind::Vented(_)) {
        hold = hold.how("vents closed airtight first, with a flat hand or a ball in a bag");
    }
    let expect = testing.band("s", [0.0, 0.0], |build| creep(testing, build));
    let (least, nominal) = match expect {
        Expect::Band { low, nominal, .. } => (low, nominal),
        _ => (0.0, 0.0),
    };
    let filmed = nominal < EYE;
    hold = hold.seen(
        "a wet finger around sockets, shafts and frames while the cone is pushed",
        "no draught",
    );
    let hold = if filmed && !testing.has(Instrument::Phone) {
        hold.how("how fast it comes back is too quick for an eye: feel for draughts alone")
            .instead(&[])
            .if_not("a draught", LEAKS)
    } else {
        timed(hold, filmed, least)
    };
    hold.care("No fingernail, no push on the dust cap.")
}

/// What is done about a leak.
const LEAKS: &str =
    "a leak: gaskets, shafts, sockets, wires, the last wall; soapy water bubbles where it is";

/// The same with the time in which the cone comes back, from a film where an eye is too slow.
fn timed(mut hold: Hold, filmed: bool, least: f64) -> Hold {
    if filmed {
        hold.with = vec![Instrument::Phone];
        hold = hold.how("film it in slow motion with a phone: it goes by too fast for an eye");
    }
    hold.read(
        "most of the way back takes",
        Expect::AtLeast {
            value: least,
            unit: "s",
        },
    )
    .if_not("it snaps back at once, or a draught is felt", LEAKS)
    .if_not(
        "it takes longer",
        "all the better: tighter than the design assumes",
    )
}

/// Where walls hum, lowest first, those alike together.
fn humming(testing: &Testing<'_>) -> Vec<(String, Vec<String>)> {
    let mut all: Vec<(String, Vec<String>)> = Vec::new();
    let modes = testing.carpentry.modes.iter();
    let audible = modes.filter(|mode| mode.supported < SWEPT);
    for mode in audible.take(WALLS) {
        let [from, to] =
            [mode.supported, mode.clamped].map(|hertz| words::prefixed(rounded(hertz), "Hz"));
        let range = format!("{from} to {to}");
        let wall = format!("the {}", words::wall(mode.wall));
        match all.iter_mut().find(|(known, _)| *known == range) {
            Some((_, walls)) => walls.push(wall),
            None => all.push((range, vec![wall])),
        }
    }
    all
}

/// To two figures: how a wall is held is known no better.
fn rounded(hertz: f64) -> f64 {
    let step = pow(10.0, log10(hertz).floor() - 1.0);
    (hertz / step).round() * step
}

pub(super) fn buzz(testing: &Testing<'_>) -> Hold {
    let mut hold = test("test-buzz", "A sweep for buzz", &[testing.sine_source()]);
    let at = Testing::near(testing.hertz, testing.outcome.closed);
    let volts = 0.5 * testing.ceiling(at);
    if testing.plays_sine() {
        hold = hold.how(format!(
            "a sine from 30 Hz to {} over a minute, no more than {} rms at the outputs; a hand on \
each wall in turn",
            words::prefixed(SWEPT, "Hz"),
            words::stated(volts, "V")
        ));
    } else {
        hold = hold
            .how("music with a slow bass line and a low voice; a hand on each wall in turn")
            .instead(&[]);
    }
    hold = hold.seen(
        format!("around {}", words::number(testing.outcome.closed, "Hz")),
        "cones move most: no rubbing, nothing knocks",
    );
    for (range, walls) in humming(testing) {
        let verb = if walls.len() == 1 { "hums" } else { "hum" };
        hold = hold.seen(
            range,
            format!("{} {verb} at most, nothing rattles", walls.join(" and ")),
        );
    }
    hold.if_not(
        "a rattle that stops under a hand",
        "what the hand is on: tie, felt, or a drop of glue",
    )
    .if_not(
        "a wall that hums loudly",
        "a brace across it, as the sheet of walls says",
    )
    .if_not(
        "a whistle",
        "air through a leak: back to the test of tightness",
    )
    .if_not(
        "a buzz that stays with one driver",
        "its coil rubs or its gasket is loose",
    )
    .care("Short, and not loud for long: a sweep finds what ears and coils do not like.")
}
