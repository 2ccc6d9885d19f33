//! The heat study of a design: nominal in time and at rest, drawn builds at rest.

use super::heat::{Played, Player};
use super::limits::limits;
use super::model::{Case, Heat, Standing, Temperatures, Warmth};
use super::modules::Modules;
use super::rest::{Warm, at_rest, hottest_day};
use super::room::on_plate;
use super::sunlit::taken_up;
use crate::outcome::{Bench, Studied};
use crate::subject::Subject;
use crate::vary::{Draw, draw};
use physics::warmth::Network;
use rayon::prelude::*;

/// Drawn builds behind the bands at most.
const DRAWN: usize = 48;
const HOUR: f64 = 3600.0;
/// Each step of the course errs by less, in K.
const WITHIN: f64 = 1e-3;

/// How warm the box gets; `None` where heat finds no balance at all.
pub(crate) fn study(
    subject: &Subject,
    studied: &Studied,
    bench: &Bench<'_>,
    coarse: &Bench<'_>,
    builds: usize,
) -> Option<Warmth> {
    let player = Player {
        subject,
        build: &studied.build,
        gains: &studied.gains,
        scene: &bench.scene,
        brief_volts: studied.outcome.brief_volts,
    };
    let drawn = drawn(subject, coarse, builds.min(DRAWN));
    let band = |at: usize| -> Vec<Temperatures> { drawn.iter().map(|each| each[at]).collect() };
    let mut warm = Warm::new(&player, &Draw::Nominal);
    let silent = warm.settle()?;
    // Each search for rest starts where the last one came to rest; the courses stand alone.
    let rests: Option<Vec<Resting>> = Played::ALL
        .into_iter()
        .map(|played| Resting::of(&player, &mut warm, played))
        .collect();
    let cases: Option<Vec<Case>> = rests?
        .par_iter()
        .enumerate()
        .map(|(at, rest)| rest.case(&player, &warm, &silent, &band(at)))
        .collect();
    let design = &subject.project.design;
    let modules = Modules::of(subject, player.supply());
    let (taken_up, taken_up_as) = taken_up(design);
    Some(Warmth {
        outdoors: hottest_day(subject),
        sun: design.place.sun.value,
        taken_up,
        taken_up_as,
        in_bay: design.battery.vented_bay.value,
        on_plate: on_plate(subject),
        limits: limits(design, &modules),
        module: modules.hottest.map(|hottest| hottest.name),
        silent: Standing::new(warm.read(&silent, false), &[]),
        cases: cases?,
    })
}

/// What plays, and where it leads.
struct Resting {
    played: Played,
    heat: Heat,
    /// Drawn from the battery in W.
    power: f64,
    /// The box with the heat in it.
    network: Network,
    /// All bodies once nothing changes any more, in °C.
    celsius: Vec<f64>,
}

impl Resting {
    fn of(player: &Player<'_>, warm: &mut Warm, played: Played) -> Option<Self> {
        let (heat, power) = player.heat(played);
        warm.play(&heat);
        let celsius = warm.settle()?;
        Some(Self {
            played,
            heat,
            power,
            network: warm.room.network.clone(),
            celsius,
        })
    }

    /// The course to it, from a box that has been silent.
    fn case(
        &self,
        player: &Player<'_>,
        warm: &Warm,
        silent: &[f64],
        drawn: &[Temperatures],
    ) -> Option<Case> {
        let endurance = player.build.battery.endurance(&|_| self.power).seconds;
        let seconds = endurance.min(HOUR);
        let course = self.network.course(silent, seconds, WITHIN)?;
        let told: Vec<Temperatures> = course
            .celsius
            .iter()
            .map(|all| warm.read(all, true))
            .collect();
        Some(Case {
            id: self.played.id(),
            title: self.played.title(),
            heat: self.heat,
            steady: Standing::new(warm.read(&self.celsius, true), drawn),
            hour: *told.last()?,
            played: seconds,
            seconds: course.seconds,
            course: told,
        })
    }
}

/// Drawn builds at rest with each of what may play.
fn drawn(subject: &Subject, bench: &Bench<'_>, builds: usize) -> Vec<Vec<Temperatures>> {
    let dimensions = subject.causes.list().len();
    let one = |bench: &mut Bench<'_>, index: usize| {
        let draw = draw(u32::try_from(index).unwrap_or(u32::MAX), dimensions);
        let studied = bench.study(subject.build(&draw));
        let player = Player {
            subject,
            build: &studied.build,
            gains: &studied.gains,
            scene: &bench.scene,
            brief_volts: studied.outcome.brief_volts,
        };
        at_rest(&player, &draw, &Played::ALL)
    };
    let all: Vec<_> = (0..builds)
        .into_par_iter()
        .map_init(|| bench.clone(), one)
        .collect();
    let found = all.into_iter().filter(|each| !each.is_empty());
    found
        .map(|each| each.into_iter().map(|rest| rest.celsius).collect())
        .collect()
}
