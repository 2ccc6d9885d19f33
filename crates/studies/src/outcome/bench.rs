//! A worker that runs all studies of one build after another on one grid.

use super::{Outcome, Traces};
use crate::build::Build;
use crate::power::{Load, Playing, Signal, clean_power, consumption, supply_power};
use crate::sound::{
    Caps, Ceiling, Gains, Grid, Loudest, SHOWN_VOLTAGE, Scene, hump, loudest, low_points,
    programme_ceilings,
};
use crate::subject::Subject;
use crate::system::{Resonance, network_of};
use core::f64::consts::{PI, SQRT_2, TAU};
use design::EnclosureKind;
use physics::battery::Discharge;
use physics::level::db_of_pressure;
use physics::loudspeaker::{Network, Sweep};
use physics::math::{amplitude_from_db, db_power};

/// Runs the studies of builds of one subject; holds what they share.
#[derive(Clone, Debug)]
pub(crate) struct Bench<'a> {
    subject: &'a Subject,
    pub(crate) scene: Scene,
    network: Network,
    sweep: Sweep,
    flared: bool,
}

/// One build, studied.
pub(crate) struct Studied {
    pub(crate) build: Build,
    pub(crate) gains: Gains,
    pub(crate) outcome: Outcome,
    load: Load,
}

impl<'a> Bench<'a> {
    pub(crate) fn new(subject: &'a Subject, grid: Grid) -> Self {
        let scene = Scene::new(subject, grid);
        let (system, _) = network_of(subject, &subject.build(&crate::vary::Draw::Nominal));
        let flared = match &subject.project.design.enclosure.kind {
            EnclosureKind::Vented(vent) => vent.flared.value,
            EnclosureKind::Sealed | EnclosureKind::PassiveRadiator(_) => false,
        };
        Self {
            subject,
            scene,
            network: Network::new(&system),
            sweep: Sweep::default(),
            flared,
        }
    }

    /// Studies one build.
    pub(crate) fn study(&mut self, build: Build) -> Studied {
        let (system, sources) = network_of(self.subject, &build);
        let same = self.network.set(&system);
        debug_assert!(
            same.is_ok(),
            "every build of a design has the structure of its nominal one"
        );
        self.network
            .sweep_into(&self.scene.grid.hertz, &mut self.sweep);
        let gains = Gains::read(self.subject, &build, &sources, &self.sweep, &self.scene);
        let load = Load::of(&gains, &self.scene);
        let outcome = self.outcome(&build, &gains, &load);
        Studied {
            build,
            gains,
            outcome,
            load,
        }
    }

    fn caps(&self, build: &Build, supply: f64) -> Caps {
        Caps::of(build, supply, self.flared)
    }

    fn outcome(&self, build: &Build, gains: &Gains, load: &Load) -> Outcome {
        let scene = &self.scene;
        let (low_3db, low) = low_points(&scene.grid.hertz, &gains.roll_off);
        let (hump_at, hump) = hump(&scene.grid.hertz, &gains.roll_off);
        let battery = &build.battery;
        let caps = self.caps(build, battery.mid_voltage());
        let loudest = loudest(gains, &caps, scene);
        let brief_volts = self.brief_volts(&loudest);
        let channels = self.subject.channels_used();
        let playing = |playing| {
            let drawn = consumption(build, load, scene, channels, playing);
            battery.endurance(&drawn).seconds
        };
        let resonance = Resonance::of(self.subject, build);
        let clean = |supply: f64| clean_power(load, &self.caps(build, supply));
        let mid = battery.mid_voltage();
        let clean_mid = clean(mid);
        let drawn = |volts, signal| supply_power(build, load, channels, mid, volts, signal);
        let full = self.caps(build, battery.full_voltage());
        let aside = build.aside.power(mid);
        let board_brief = drawn(brief_volts, Signal::Programme);
        let charger = self.subject.project.design.battery.charger_current;
        let sine_draw = drawn(load.clean_volts(&caps), Signal::Sine);
        let at_brief = |quantity: &[f64]| {
            scene.crest * Gains::programme_rms(quantity, scene) * brief_volts / SQRT_2
        };
        Outcome {
            low,
            low_3db,
            hump_at,
            hump,
            loud: loudest.level,
            loud_a: loudest.level_a,
            limit: loudest.limit,
            loudest_volts: loudest.volts,
            brief_volts,
            hot_loss: loudest.hot_loss,
            runtime: playing(Playing::Programme(brief_volts)),
            runtime_clip: playing(Playing::ProgrammeAtClip),
            runtime_sine: playing(Playing::SineAtClip),
            weight: build.weight,
            cost: build.cost,
            closed: resonance.closed,
            closed_q: resonance.closed_q,
            tuning: resonance.tuning.unwrap_or(f64::NAN),
            radiator_resonance: resonance.radiator.unwrap_or(f64::NAN),
            net: build.enclosure.net,
            sensitivity: self.sensitivity(build),
            clean_full: clean(battery.full_voltage()),
            clean_mid,
            clean_empty: clean(battery.end_voltage),
            draw_brief: board_brief + aside,
            draw_idle: drawn(0.0, Signal::Programme) + aside,
            peak_current: peak_current(build, gains, &full, channels),
            efficiency: f64::from(channels) * clean_mid / sine_draw,
            efficiency_brief: f64::from(channels) * load.output_power(brief_volts) / board_brief,
            charge_time: charger.map_or(f64::NAN, |current| battery.charge_seconds(current.si)),
            least_impedance: least_impedance(&scene.grid.hertz, gains),
            vent_speed: build
                .enclosure
                .vent
                .map_or(f64::NAN, |_| at_brief(&gains.vent_speed)),
            travel_share: at_brief(&gains.travel_share),
            radiator_share: build
                .radiator
                .map_or(f64::NAN, |r| at_brief(&gains.radiator_travel) / r.xmax),
        }
    }

    /// Voltage for the brief's loudness, or for the loudest possible where
    /// that is less or nothing was asked.
    fn brief_volts(&self, loudest: &Loudest) -> f64 {
        let Some(wanted) = self.subject.project.design.brief.loudness else {
            return loudest.volts;
        };
        let volt_level = if wanted.a_weighted {
            loudest.volt_level_a
        } else {
            loudest.volt_level
        };
        amplitude_from_db(wanted.level.si - volt_level).min(loudest.volts)
    }

    fn sensitivity(&self, build: &Build) -> f64 {
        // Mid-band pressure of one side in half space at 1 m: ρ·U'/(2π).
        let acceleration =
            self.sweep.reference_acceleration / f64::from(self.subject.channels_used());
        let pressure = build.air.density * acceleration * SHOWN_VOLTAGE / TAU;
        db_of_pressure(pressure)
    }

    /// Bass against the middle range, from face and place alone, in dB.
    pub(crate) fn face_loss(&self) -> f64 {
        let scene = &self.scene;
        let mean = |low: f64, high: f64| {
            let range = scene.grid.hertz.partition_point(|&f| f < low)
                ..scene.grid.hertz.partition_point(|&f| f < high);
            let count = range.len() as f64;
            range
                .map(|i| scene.baffle[i] * scene.baffle[i] * scene.place[i])
                .sum::<f64>()
                / count
        };
        db_power(mean(500.0, 2000.0) / mean(60.0, 120.0))
    }

    /// Curves of a studied build.
    pub(crate) fn traces(&self, studied: &Studied) -> Traces {
        let Studied { build, gains, .. } = studied;
        let scene = &self.scene;
        let count = scene.grid.hertz.len();
        let caps = self.caps(build, build.battery.mid_voltage());
        let clip = caps.peak_volts / SQRT_2;
        let scaled = |quantity: &[f64]| quantity.iter().map(|value| clip * value).collect();
        let shown = |i: usize| {
            let pressure = gains.pressure[i] * scene.place[i].sqrt() * SHOWN_VOLTAGE;
            db_of_pressure(pressure)
        };
        let ceilings: Vec<Ceiling> = (0..count)
            .map(|i| Ceiling::lowest(caps.sine(gains, i)))
            .collect();
        let greatest = |i: usize| {
            let pressure = gains.pressure[i] * scene.to_listener(i).sqrt() * ceilings[i].volts;
            db_of_pressure(pressure)
        };
        Traces {
            response: (0..count).map(shown).collect(),
            impedance: gains.impedance.clone(),
            phase: gains.phase.iter().map(|phase| phase * 180.0 / PI).collect(),
            travel: scaled(&gains.travel),
            radiator_travel: scaled(&gains.radiator_travel),
            vent_speed: scaled(&gains.vent_speed),
            max_level: (0..count).map(greatest).collect(),
            max_limit: ceilings.iter().map(|ceiling| ceiling.limit).collect(),
            group_delay: group_delay(&scene.grid.hertz, &gains.sound_phase),
            current: scaled(&gains.current),
        }
    }

    /// Programme voltages at which each limit is just reached, on a half-empty battery.
    pub(crate) fn ceilings(&self, studied: &Studied) -> Vec<Ceiling> {
        let caps = self.caps(&studied.build, studied.build.battery.mid_voltage());
        programme_ceilings(&studied.gains, &caps, &self.scene).into()
    }

    /// The discharge of a studied build at the brief's loudness, with its curve.
    pub(crate) fn discharge(&self, studied: &Studied) -> Discharge {
        let channels = self.subject.channels_used();
        let playing = Playing::Programme(studied.outcome.brief_volts);
        let drawn = consumption(
            &studied.build,
            &studied.load,
            &self.scene,
            channels,
            playing,
        );
        studied.build.battery.discharge(&drawn)
    }
}

fn least_impedance(hertz: &[f64], gains: &Gains) -> f64 {
    let audible = hertz
        .iter()
        .zip(&gains.impedance)
        .filter(|(hertz, _)| **hertz >= 20.0);
    audible
        .map(|(_, impedance)| *impedance)
        .fold(f64::INFINITY, f64::min)
}

/// Peak current a battery must pass while a peak of music drives every channel to its limit.
fn peak_current(build: &Build, gains: &Gains, caps: &Caps, channels: u32) -> f64 {
    let greatest = gains.current.iter().copied().fold(0.0, f64::max);
    let output = (caps.peak_volts * greatest).min(caps.peak_current);
    // A bridge, or either half of a single-ended pair, passes its output current from the supply.
    let aside = build.aside.amperes(build.battery.full_voltage());
    f64::from(channels) * output + build.amplifier.stage.idle_current + aside
}

/// −dφ/dω by central differences on the unwrapped phase.
fn group_delay(hertz: &[f64], phase: &[f64]) -> Vec<f64> {
    let mut unwrapped = Vec::with_capacity(phase.len());
    let mut turns = 0.0;
    for (i, &value) in phase.iter().enumerate() {
        if i > 0 {
            let step = value - phase[i - 1];
            turns -= TAU * (step / TAU).round();
        }
        unwrapped.push(value + turns);
    }
    let last = hertz.len() - 1;
    (0..=last)
        .map(|i| {
            let (a, b) = (i.saturating_sub(1), (i + 1).min(last));
            -(unwrapped[b] - unwrapped[a]) / (TAU * (hertz[b] - hertz[a]))
        })
        .collect()
}
