//! What lies between the box and the listeners, the same for all builds:
//! the box's own face, the place, the air, the distance and the programme.

use super::Grid;
use crate::subject::{Front, SpotKind, Subject};
use design::{DriverKind, Programme, Stands};
use physics::level::{absorption, weighting};
use physics::math::{amplitude_from_db, db_amplitude, power_from_db};
use physics::programme::ProgrammeSpectrum;
use physics::radiation::baffle::Face;
use physics::radiation::pair_gain;
use physics::radiation::surroundings::{Directionality, Surroundings, power_gain_of};
use std::sync::Arc;

/// Ears of seated or standing listeners above the ground in m: common practice, no source.
const EARS: f64 = 1.2;

/// Band over which interference from ground and wall is averaged, in octaves:
/// listeners sit and stand, and no ground is perfectly hard and flat.
const BAND: f64 = 1.0;

/// A listening room when none is described: 50 m³ with 0.5 s. Common practice, no source.
const ROOM: (f64, f64) = (50.0, 0.5);

/// Weights and gains on one grid of frequencies.
#[derive(Clone, Debug)]
pub(crate) struct Scene {
    pub(crate) grid: Grid,
    /// Pressure gain of the box's own face over a point source.
    pub(crate) baffle: Arc<Vec<f64>>,
    /// Mean-square gain of ground, wall or room at the brief's distance.
    pub(crate) place: Vec<f64>,
    /// Mean-square gain from one side to the whole box.
    pub(crate) sides: Vec<f64>,
    /// Mean-square loss in the air on the way.
    pub(crate) air: Vec<f64>,
    /// A-weighting as a mean-square factor.
    pub(crate) a_weight: Vec<f64>,
    /// Share of the programme's power at each frequency; sums to 1.
    pub(crate) programme: Vec<f64>,
    /// Crest factor of the programme as a ratio.
    pub(crate) crest: f64,
    /// Spreading from 1 m to the brief's distance, as an amplitude ratio.
    pub(crate) spreading: f64,
    /// Index from which the on-axis level is held, where a driver's cone no
    /// longer moves as one piston and its maker has shaped the treble.
    pub(crate) hold: Option<usize>,
    /// Index of the highest frequency at which the piston model holds.
    pub(crate) trusted: usize,
}

impl Scene {
    pub(crate) fn new(subject: &Subject, grid: Grid) -> Self {
        let air = &subject.air;
        let design = &subject.project.design;
        let distance = design.brief.distance.si;
        let spectrum = spectrum(design.brief.programme.value);
        let surroundings = surroundings(subject);
        let baffle = subject
            .baffles
            .gains(face(subject), 0.0, air.sound_speed, &grid);
        let each =
            |f: &dyn Fn(f64) -> f64| grid.hertz.iter().map(|&hertz| f(hertz)).collect::<Vec<_>>();
        let spacing = subject.front.spacing();
        let sides = subject.channels_used();
        let radius = cone_radius(subject);
        let ka_one = air.sound_speed / (core::f64::consts::TAU * radius);
        let trusted = grid
            .hertz
            .partition_point(|&hertz| hertz <= ka_one)
            .saturating_sub(1);
        Self {
            place: grid
                .hertz
                .iter()
                .zip(baffle.iter())
                .map(|(&hertz, &gain)| {
                    let source = directionality(gain);
                    power_gain_of(&surroundings, source, hertz, distance, air, BAND)
                })
                .collect(),
            baffle,
            sides: each(&|hertz| {
                if sides == 2 {
                    pair_gain(hertz, spacing, air)
                } else {
                    1.0
                }
            }),
            air: each(&|hertz| power_from_db(-distance * absorption::db_per_metre(hertz, air))),
            a_weight: each(&|hertz| power_from_db(weighting::a_db(hertz))),
            programme: spectrum.weights(&grid.hertz),
            crest: amplitude_from_db(spectrum.crest_db),
            spreading: 1.0 / distance,
            hold: holds_treble(subject).then_some(trusted),
            trusted,
            grid,
        }
    }

    /// Mean-square gain from the free-field pressure of one side at 1 m to the
    /// whole box at the brief's distance.
    pub(crate) fn to_listener(&self, index: usize) -> f64 {
        self.sides[index] * self.place[index] * self.air[index] * self.spreading * self.spreading
    }
}

/// Radius in m of what radiates the treble of a driver that covers it: a
/// tweeter, or the middle of a cone. Common practice, no source.
const TREBLE_RADIUS: f64 = 0.0125;

impl Scene {
    /// Level in dB that a listener so many degrees to the side hears over one
    /// on the axis: the piston's directivity and the box's face.
    pub(crate) fn off_axis(&self, subject: &Subject, degrees: f64) -> Vec<f64> {
        let cone = face(subject);
        let middle = Face {
            source_radius: TREBLE_RADIUS.min(cone.source_radius),
            ..cone
        };
        let heard = |face, degrees| {
            let speed = subject.air.sound_speed;
            subject.baffles.gains(face, degrees, speed, &self.grid)
        };
        let [cone, middle] = [cone, middle].map(|face| (heard(face, 0.0), heard(face, degrees)));
        let over = |i: usize| {
            let from_middle = self.hold.is_some_and(|hold| i > hold);
            let (axis, side) = if from_middle { &middle } else { &cone };
            db_amplitude(side[i] / axis[i])
        };
        (0..self.grid.hertz.len()).map(over).collect()
    }
}

/// From a box that radiates evenly (gain 1) to one that has its front half of
/// space to itself (gain 2): what goes to the rear goes missing there.
fn directionality(face_gain: f64) -> Directionality {
    let gain = face_gain.clamp(1.0, 2.0);
    Directionality {
        rear: 2.0 - gain,
        factor: gain,
    }
}

pub(crate) fn spectrum(of: Programme) -> ProgrammeSpectrum {
    match of {
        Programme::Music => ProgrammeSpectrum::music(),
        Programme::Speech => ProgrammeSpectrum::speech(),
        Programme::SquashedMusic => ProgrammeSpectrum::squashed_music(),
    }
}

fn cone_radius(subject: &Subject) -> f64 {
    let area = subject
        .drivers
        .iter()
        .map(|driver| driver.completion.values.sd.unwrap_or(0.005));
    (area.fold(f64::INFINITY, f64::min) / core::f64::consts::PI).sqrt()
}

/// Whether some driver of the design covers the treble.
fn holds_treble(subject: &Subject) -> bool {
    subject.project.design.drivers.iter().any(|group| {
        matches!(
            group.part.kind.value,
            DriverKind::FullRange | DriverKind::Coaxial
        )
    })
}

fn face(subject: &Subject) -> Face {
    let Front {
        width,
        height,
        spots,
        ..
    } = &subject.front;
    let first = spots
        .iter()
        .find(|spot| matches!(spot.kind, SpotKind::Driver(_)));
    Face {
        width: *width,
        height: *height,
        source_x: first.map_or(0.0, |spot| spot.x),
        source_y: first.map_or(0.0, |spot| spot.y),
        source_radius: cone_radius(subject),
    }
}

fn surroundings(subject: &Subject) -> Surroundings {
    let design = &subject.project.design;
    let place = &design.place;
    let [_, height, depth] = subject.enclosure.at(&crate::vary::Draw::Nominal).outside;
    let source_height = height / 2.0;
    let ear_height = place.ears.map_or(EARS, |ears| ears.si);
    match place.stands.value {
        Stands::Free => Surroundings::Free,
        Stands::Ground => Surroundings::Ground {
            source_height,
            ear_height,
        },
        Stands::Wall => Surroundings::Wall {
            source_height,
            ear_height,
            distance_to_wall: depth,
        },
        Stands::Indoors => Surroundings::Room {
            volume: place.room.map_or(ROOM.0, |room| room.si),
            reverberation_time: place.reverberation.map_or(ROOM.1, |time| time.si),
        },
    }
}
