//! From a design to its indicator.

use super::cut_off::cut_off;
use super::design::design;
use super::drawer::{GLOW, Named};
use super::fading::Fading;
use super::model::{Alternative, Built, Cause, Indicator, Limits, Threshold, Trimmer, Wanted};
use super::parts::Board;
use super::steps::{Setting, steps};
use super::wants;
use crate::build::Build;
use crate::electrics::Electrics;
use crate::odds::{Band, Drawn};
use crate::outcome::Outcome;
use crate::sound::{Gains, Scene};
use crate::subject::Subject;
use design::Chemistry;
use physics::indicator::search::Found;
use physics::indicator::{Indicator as Circuit, Stack, State, Trim};

/// A design at play.
#[derive(Clone, Copy)]
pub(crate) struct Player<'a> {
    pub(crate) subject: &'a Subject,
    pub(crate) build: &'a Build,
    pub(crate) outcome: &'a Outcome,
    pub(crate) gains: &'a Gains,
    pub(crate) scene: &'a Scene,
    pub(crate) drawn: &'a Drawn,
    /// What a cut-off has to carry, where the electrics are known.
    pub(crate) switched: Option<Switched>,
}

/// Currents in A that pass what cuts the load off.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Switched {
    /// At the peaks of the loudest music.
    pub(crate) peak: f64,
    /// What the fuse carries for long.
    pub(crate) fuse: f64,
    /// Into the empty capacitors.
    pub(crate) rush: f64,
}

impl Switched {
    /// As the electrics have them.
    pub(crate) fn of(electrics: &Electrics) -> Self {
        let parts = electrics.system.parts.iter();
        let fuses = parts.filter(|part| part.kind == wiring::Kind::Fuse).count() as f64;
        let one = electrics.fuse.as_ref().map_or(0.0, |fuse| fuse.current);
        let fuse = fuses * one;
        Self {
            peak: electrics.supply.peak,
            fuse,
            rush: electrics.supply.inrush.0,
        }
    }
}

/// State of charge that a charged battery surely shows at rest.
const CHARGED: f64 = 0.95;

/// Whole values of trimmers in Ω: the usual steps of 1, 2 and 5 (common
/// practice, no source).
const TRIMMERS: [f64; 12] = [
    100.0, 200.0, 500.0, 1e3, 2e3, 5e3, 10e3, 20e3, 50e3, 100e3, 200e3, 500e3,
];

/// How far a trimmed threshold lies off, as a share: the meter and the hand.
/// Common practice, no source.
const SET_WITHIN: f64 = 0.005;

/// Frequency in Hz of the beat of music: slower is music, not bass.
const BEAT: f64 = 1.0;

/// Points of the curve of voltage against music left.
const SHOWN: usize = 60;

/// More than so many times the warning left is too early.
const EARLY: f64 = 4.0;

/// The indicator of a design; `None` where it wants none.
pub(crate) fn study(player: &Player<'_>) -> Option<Indicator> {
    let project = &player.subject.project;
    let used = project.design.indicator.as_ref()?;
    let mut sag = wants::sag(player);
    let asked = wants::wanted(player, used, &sag);
    let fading = Fading::of(player);
    let named = Named::of(project, used, asked.supply[1]);
    let mut remarks = Vec::new();
    let charged = player.build.battery.open_circuit(CHARGED);
    let (wanted, found) = match named.lamp() {
        Some(lamp) => design(
            &named,
            used,
            lamp,
            &fading,
            asked,
            charged,
            &player.subject.indicators,
        ),
        None => {
            remarks.push("No light-emitting diode is on the shelf.".to_owned());
            (asked, Vec::new())
        }
    };
    if fading.nominal.end < 1.2 * wanted.warning {
        remarks.push("The battery lasts hardly longer than the warning wanted.".to_owned());
    }
    if found.is_empty() {
        remarks.push(
            "No combination of the shelf's comparators, references, resistors and capacitors does it: more values, or a lower delay, make one likelier.".to_owned(),
        );
    }
    let plateau = plateau(player);
    if let Some(volts) = plateau {
        remarks.push(format!(
            "From 90 % to 20 % of its charge the voltage of this battery at rest moves by {volts:.2} V only: the light marks the last stretch, and before that a voltmeter hardly tells how full the battery is."
        ));
    }
    let built = found.first().map(|best| {
        sag.ripple = best.circuit.ripple_left(BEAT) * (sag.peak - sag.mean).max(0.0);
        built(player, &named, best, &wanted, &fading)
    });
    let (left, volts, volts_band) = curve(&fading);
    Some(Indicator {
        plateau,
        steepness: steepness(&fading, wanted.warning),
        wanted,
        sag,
        built,
        alternatives: found
            .iter()
            .skip(1)
            .map(|one| alternative(&named, one))
            .collect(),
        left,
        volts,
        volts_band,
        remarks,
    })
}

fn built(
    player: &Player<'_>,
    named: &Named<'_>,
    best: &Found,
    wanted: &Wanted,
    fading: &Fading,
) -> Built {
    let design = &player.subject.project.design;
    let used = design.indicator.as_ref();
    let wants_trim = used.is_some_and(|used| used.trim.value);
    let fixed: Vec<_> = named
        .drawer
        .resistors
        .iter()
        .map(|offer| offer.part)
        .collect();
    let trim = wants_trim
        .then(|| best.circuit.trim(wanted.trip, &fixed, &TRIMMERS))
        .flatten();
    let circuit = trim
        .as_ref()
        .map_or(best.circuit, |trim| best.circuit.trimmed(trim, wanted.trip));
    let off = |own: &[f64]| match trim {
        None => wants::off(&circuit)(own),
        Some(_) => 1.0 + SET_WITHIN * own[SETTING] + circuit.reference.drift * own[DRIFT],
    };
    let thresholds = circuit.thresholds();
    let set = |stack: Stack| trim.map_or(stack, |_| settled(stack, &circuit));
    let band = |nominal: f64, ratio: &dyn Fn(&[f64]) -> f64| {
        let each = fading.drawn.iter().map(|(_, own)| nominal * ratio(own));
        Band::of(each).unwrap_or(Band {
            p10: nominal,
            p90: nominal,
        })
    };
    let rise = |own: &[f64]| match trim {
        None => circuit.thresholds_off(own).rising / thresholds.rising,
        Some(_) => off(own),
    };
    let falling = threshold(
        &set(circuit.falling_stack()),
        band(thresholds.falling, &off),
    );
    let rising = threshold(&set(circuit.rising_stack()), band(thresholds.rising, &rise));
    let left: Vec<f64> = fading
        .drawn
        .iter()
        .map(|(curve, own)| curve.left(thresholds.falling * off(own)))
        .collect();
    let share = |holds: &dyn Fn(f64) -> bool| {
        left.iter().filter(|left| holds(**left)).count() as f64 / left.len().max(1) as f64
    };
    let trimmer = trim
        .as_ref()
        .map(|trim| trimmer(&circuit, trim, wanted.trip));
    let board = Board::new(named, 0).indicator(best, trim.as_ref(), true);
    let nominal_left = fading.nominal.left(thresholds.falling);
    Built {
        comparator: named.comparators[best.comparator].common.name.text.clone(),
        reference: named.references[best.reference].name.text.clone(),
        causes: causes(&circuit, trim.is_some()),
        left: nominal_left,
        left_band: Band::of(left.iter().copied()).unwrap_or(Band {
            p10: nominal_left,
            p90: nominal_left,
        }),
        too_late: share(&|left| left < wanted.warning),
        too_early: share(&|left| left > EARLY * wanted.warning),
        delay: circuit.delay_seconds(),
        dark: circuit.currents(wanted.trip, State::Dark).drawn,
        lit: circuit.currents(thresholds.falling, State::Lit).drawn,
        lamp: circuit.currents(thresholds.falling, State::Lit).light,
        input: circuit.input_at(thresholds.falling, State::Dark),
        limits: limits(&circuit, wanted),
        steps: steps(&Setting {
            circuit: &circuit,
            falling: &falling,
            rising: &rising,
            trip: wanted.trip,
            trimmer: trimmer.as_ref(),
            workshop: &design.workshop,
            full: wanted.supply[1],
        }),
        cut_off: used.and_then(|used| cut_off(player, named, used, wanted, fading)),
        parts: board.parts,
        nets: board.nets,
        trimmer,
        falling,
        rising,
    }
}

/// Places of two causes among those of a circuit, reused for a trimmed one.
const SETTING: usize = 6;
const DRIFT: usize = 7;

pub(super) fn threshold(stack: &Stack, band: Band) -> Threshold {
    Threshold {
        volts: stack.nominal,
        least: stack.least,
        most: stack.most,
        band,
    }
}

/// A threshold that was set by hand: what remains is the hand and the
/// reference's way with temperature.
fn settled(stack: Stack, circuit: &Circuit) -> Stack {
    let share = SET_WITHIN + circuit.reference.drift;
    Stack {
        least: stack.nominal * (1.0 - share),
        most: stack.nominal * (1.0 + share),
        root_square: stack.nominal * physics::math::hypot(SET_WITHIN, circuit.reference.drift),
        ..stack
    }
}

fn causes(circuit: &Circuit, trimmed: bool) -> Vec<Cause> {
    if trimmed {
        let volts = circuit.thresholds().falling;
        return vec![
            Cause {
                words: "reference with temperature",
                volts: volts * circuit.reference.drift,
            },
            Cause {
                words: "setting by meter and hand",
                volts: volts * SET_WITHIN,
            },
        ];
    }
    let mut causes: Vec<Cause> = circuit
        .shares()
        .into_iter()
        .map(|share| Cause {
            words: share.cause,
            volts: share.falling.abs(),
        })
        .filter(|cause| cause.volts > 1e-4)
        .collect();
    causes.sort_by(|a, b| b.volts.total_cmp(&a.volts));
    causes
}

fn trimmer(circuit: &Circuit, trim: &Trim, trip: f64) -> Trimmer {
    let at = |rest: f64| {
        let mut end = *circuit;
        end.bottom = physics::indicator::Arm::Series(
            trim.fixed,
            physics::indicator::Resistor {
                ohms: rest,
                tolerance: 0.0,
            },
        );
        end.thresholds().falling
    };
    Trimmer {
        ohms: trim.trimmer,
        turned: (circuit.bottom_for(trip) - trim.fixed.ohms) / trim.trimmer,
        reach: [at(trim.trimmer), at(1e-3)],
    }
}

fn limits(circuit: &Circuit, wanted: &Wanted) -> Limits {
    let [lowest, highest] = wanted.supply;
    let reference = &circuit.reference;
    let reach = reference.volts * (reference.tolerance + reference.drift);
    Limits {
        input_most: lowest - circuit.comparator.input_high,
        input_least: circuit.comparator.input_low,
        reference_current: (lowest - reference.volts - reach)
            / (circuit.feed.ohms * (1.0 + circuit.feed.tolerance)),
        reference_wants: reference.least_current,
        sunk: circuit.currents(highest, State::Lit).sunk,
        sinks: circuit.comparator.sink_current,
        dark_volts: circuit.dark_light_voltage(highest),
        glows: GLOW * circuit.light.forward,
    }
}

fn alternative(named: &Named<'_>, one: &Found) -> Alternative {
    let stack = one.circuit.falling_stack();
    let arms = one
        .circuit
        .top
        .resistors()
        .chain(one.circuit.bottom.resistors());
    Alternative {
        comparator: named.comparators[one.comparator].common.name.text.clone(),
        reference: named.references[one.reference].name.text.clone(),
        falling: [stack.least, stack.nominal, stack.most],
        dark: one.circuit.currents(stack.nominal, State::Dark).drawn,
        divider: arms.map(|one| one.ohms).collect(),
        to_buy: one.to_buy,
    }
}

/// Voltage against music left: as designed, and its band.
fn curve(fading: &Fading) -> (Vec<f64>, Vec<f64>, Vec<Band>) {
    let whole = fading.nominal.end;
    let left: Vec<f64> = (0..=SHOWN)
        .map(|i| whole * (1.0 - i as f64 / SHOWN as f64))
        .collect();
    let volts = left
        .iter()
        .map(|left| fading.nominal.volts(*left))
        .collect();
    let band = |left: &f64| {
        let each = fading.drawn.iter().map(|(curve, _)| curve.volts(*left));
        Band::of(each).unwrap_or(Band {
            p10: f64::NAN,
            p90: f64::NAN,
        })
    };
    let bands = left.iter().map(band).collect();
    (left, volts, bands)
}

/// Shares of the charge between which flat cells keep their voltage.
const PLATEAU: [f64; 2] = [0.2, 0.9];

/// How far the voltage at rest moves between them, for flat cells.
fn plateau(player: &Player<'_>) -> Option<f64> {
    let flat = match player.subject.project.design.battery.part.chemistry.value {
        Chemistry::IronPhosphate | Chemistry::NickelMetalHydride => true,
        Chemistry::LithiumIon | Chemistry::LeadAcid => false,
    };
    let [low, high] = PLATEAU.map(|charge| player.build.battery.open_circuit(charge));
    flat.then_some(high - low)
}

/// Fall in V per hour around the warning, as designed.
fn steepness(fading: &Fading, warning: f64) -> f64 {
    let half = 0.5 * warning;
    let fall = fading.nominal.volts(warning + half) - fading.nominal.volts(warning - half);
    fall / (warning / 3600.0)
}
