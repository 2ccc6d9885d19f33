//! Sealed or vented? The same design both ways, under its tolerances.

use crate::build::VentBuild;
use crate::odds::{Band, Drawn};
use crate::outcome::{Bench, Outcome};
use crate::sound::{Grid, VENT_SPEED};
use crate::subject::Subject;
use crate::vary::Draw;
use design::{Choice, EnclosureKind, Mounting, Place, Project, Tolerance, Value, VentUse};
use physics::loudspeaker::vent_length;
use rayon::prelude::*;
use serde::Serialize;

/// One way of building the design.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Way {
    /// −6 dB point of the nominal build in Hz.
    pub low: f64,
    /// One drawn build in ten is below.
    pub low_p10: f64,
    /// One drawn build in ten is above.
    pub low_p90: f64,
    /// Long-term level of the nominal build in dB.
    pub loud: f64,
    /// Share of drawn builds that keep the brief's lowest frequency, where one is asked for.
    pub odds_low: Option<f64>,
    /// Share of drawn builds whose bass has no hump above 3 dB.
    pub odds_even: f64,
    /// Share of drawn builds that keep the brief's loudness, where one is asked for.
    pub odds_loud: Option<f64>,
}

/// Sealed against vented.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Versus {
    /// The box closed.
    pub sealed: Way,
    /// The box with the vent described.
    pub vented: Way,
    /// Inner diameter of that vent in m.
    pub vent_diameter: f64,
    /// Its length in m.
    pub vent_length: f64,
    /// How many such vents.
    pub vent_count: u32,
    /// Its tuning in Hz.
    pub tuning: f64,
    /// What venting wins and what it risks, in words.
    pub sentence: String,
}

/// Inner diameters of plastic and card tubes tried, in m: common practice, no source.
const DIAMETERS: [f64; 6] = [0.025, 0.032, 0.036, 0.046, 0.057, 0.071];

/// Tunings tried, as shares of the closed box's resonance.
const TUNINGS: [f64; 9] = [0.45, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.9];

/// Room left behind the inner end of a tube, in diameters: common practice, no source.
const CLEARANCE: f64 = 1.0;

/// Greatest hump in the bass allowed to a recommended vent, in dB.
const EVEN_ENOUGH: f64 = 2.0;

/// Greatest hump in dB that still pleases: common practice, no source.
pub(crate) const GREATEST_HUMP: f64 = 3.0;

/// Holds a design sealed against the same vented; `None` where no vent can be
/// built into it. The box as it is stands with `nominal` and `drawn`, the
/// other way is studied here on `builds` drawn builds.
pub(crate) fn versus(
    subject: &Subject,
    nominal: &Outcome,
    drawn: &Drawn,
    builds: usize,
) -> Option<Versus> {
    let kind = &subject.project.design.enclosure.kind;
    let present = || way(subject, nominal, drawn);
    let sealed = || study(&variant(subject, EnclosureKind::Sealed)?, builds);
    let (sealed_way, (vented_way, tuning), vent) = match kind {
        EnclosureKind::Vented(vent) => (sealed()?.0, (present()?, nominal.tuning), vent.clone()),
        EnclosureKind::Sealed => {
            let (vented, vent) = best_vent(subject)?;
            (present()?, study(&vented, builds)?, vent)
        }
        EnclosureKind::PassiveRadiator(_) => {
            let (vented, vent) = best_vent(subject)?;
            (sealed()?.0, study(&vented, builds)?, vent)
        }
    };
    let mut versus = Versus {
        sealed: sealed_way,
        vented: vented_way,
        vent_diameter: vent.diameter.si,
        vent_length: vent.length.si,
        vent_count: vent.count,
        tuning,
        sentence: String::new(),
    };
    versus.sentence = sentence(subject, &versus);
    Some(versus)
}

fn variant(subject: &Subject, kind: EnclosureKind) -> Option<Subject> {
    subject.variant(project(subject, kind)).ok()
}

fn project(subject: &Subject, kind: EnclosureKind) -> Project {
    let mut project = subject.project.clone();
    project.design.enclosure.kind = kind;
    project
}

/// A way and its tuning in Hz, studied.
fn study(subject: &Subject, builds: usize) -> Option<(Way, f64)> {
    let mut bench = Bench::new(subject, Grid::coarse());
    let nominal = bench.study(subject.build(&Draw::Nominal)).outcome;
    let drawn = Drawn::run(subject, &bench, builds, &|_| {});
    Some((way(subject, &nominal, &drawn)?, nominal.tuning))
}

fn way(subject: &Subject, nominal: &Outcome, drawn: &Drawn) -> Option<Way> {
    let low: Band = drawn.band(|o| o.low)?;
    let brief = &subject.project.design.brief;
    Some(Way {
        low: nominal.low,
        low_p10: low.p10,
        low_p90: low.p90,
        loud: nominal.loud,
        odds_even: drawn.share(|o| o.hump <= GREATEST_HUMP)?,
        odds_low: brief
            .lowest
            .and_then(|mark| drawn.share(|o| o.low <= mark.si)),
        odds_loud: brief.loudness.and_then(|mark| {
            drawn.share(|o| if mark.a_weighted { o.loud_a } else { o.loud } >= mark.level.si)
        }),
    })
}

/// The vent that plays lowest without a bump, with air slow enough and a tube that fits.
fn best_vent(subject: &Subject) -> Option<(Subject, VentUse)> {
    let nominal = subject.build(&Draw::Nominal);
    let mut bench = Bench::new(subject, Grid::coarse());
    let closed = bench.study(nominal.clone()).outcome.closed;
    let place = subject.project.design.enclosure.kind_place;
    let count = match subject.project.design.enclosure.chambers.value {
        design::Chambers::Shared => 1,
        design::Chambers::OnePerSide => subject.channels_used(),
    };
    let depth = nominal.enclosure.inside[2];
    let vent = |share: f64, diameter: f64| {
        let duct = VentBuild {
            diameter,
            length: 0.0,
            count,
        };
        let tuning = share * closed;
        let length = vent_length(nominal.enclosure.net, tuning, &duct.duct(), &nominal.air)?;
        let wall = nominal.enclosure.thickness;
        let fits = length >= wall && length + CLEARANCE * diameter <= depth + wall;
        fits.then(|| vent_use(diameter, length, count, place))
    };
    let vents: Vec<VentUse> = TUNINGS
        .into_iter()
        .flat_map(|share| DIAMETERS.map(|diameter| vent(share, diameter)))
        .flatten()
        .collect();
    let mut sound: Vec<(f64, &VentUse)> = vents
        .par_iter()
        .filter_map(|vent| Some((low_if_sound(subject, vent)?, vent)))
        .collect();
    sound.sort_by(|a, b| a.0.total_cmp(&b.0));
    // Only the one that is built has to be makeable.
    sound.into_iter().find_map(|(_, vent)| {
        let vented = variant(subject, EnclosureKind::Vented(vent.clone()))?;
        Some((vented, vent.clone()))
    })
}

/// How low a design plays with a vent, where its air is slow enough and its bass even.
fn low_if_sound(subject: &Subject, vent: &VentUse) -> Option<f64> {
    let vented = EnclosureKind::Vented(vent.clone());
    let candidate = subject.sounding(project(subject, vented)).ok()?;
    let mut bench = Bench::new(&candidate, Grid::coarse());
    let outcome = bench.study(candidate.build(&Draw::Nominal)).outcome;
    let sound = outcome.vent_speed <= VENT_SPEED.1 && outcome.hump <= EVEN_ENOUGH;
    sound.then_some(outcome.low)
}

fn vent_use(diameter: f64, length: f64, count: u32, place: Place) -> VentUse {
    let value = |si| Value {
        si,
        tolerance: Tolerance::Unstated,
        place,
    };
    VentUse {
        diameter: value(diameter),
        length: value(length),
        count,
        flared: Choice {
            value: true,
            place: None,
        },
        mounting: Mounting::row_on_the_front(),
        bent: None,
        place,
    }
}

fn sentence(subject: &Subject, versus: &Versus) -> String {
    let Versus { sealed, vented, .. } = versus;
    let hertz = |value: f64| crate::words::number(value, "Hz");
    let mut text = format!(
        "Vented to {} ({} of {:.0} mm, {:.0} mm long) it plays down to {} instead of {} sealed, and eight of ten builds spread over {} to {} instead of {} to {}",
        hertz(versus.tuning),
        if versus.vent_count == 1 {
            "one tube".to_owned()
        } else {
            format!("{} tubes", versus.vent_count)
        },
        1e3 * versus.vent_diameter,
        1e3 * versus.vent_length,
        hertz(vented.low),
        hertz(sealed.low),
        hertz(vented.low_p10),
        hertz(vented.low_p90),
        hertz(sealed.low_p10),
        hertz(sealed.low_p90),
    );
    let of = crate::words::of_hundred;
    if let (Some(mark), Some(a), Some(b)) = (
        subject.project.design.brief.lowest,
        vented.odds_low,
        sealed.odds_low,
    ) {
        text += &format!(
            "; {} of 100 vented builds reach {} against {} sealed",
            of(a),
            crate::words::stated(mark.si, "Hz"),
            of(b)
        );
    }
    text += &format!(
        "; {} of 100 vented builds come out without a hump in the bass, {} of 100 sealed",
        of(vented.odds_even),
        of(sealed.odds_even)
    );
    let change = vented.loud - sealed.loud;
    let louder = if change >= 0.0 { "louder" } else { "quieter" };
    text + &format!(
        "; its programme comes out {:.1} dB {louder}. Below the tuning the air no longer holds the cone, and a volume error that a sealed box forgives moves the tuning.",
        change.abs()
    )
}
