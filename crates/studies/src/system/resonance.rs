//! Resonances and Qs of one box in closed form: what a maker compares with
//! tables, beside the network that gives the response.

use crate::build::{Build, RadiatorBuild};
use crate::subject::{Subject, on_one_channel};
use core::f64::consts::TAU;
use physics::driver::free_air_mass;
use physics::loudspeaker::vent_tuning;

/// Resonances of one box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Resonance {
    /// Of driver and closed box in Hz: what a sealed box sounds at.
    pub(crate) closed: f64,
    /// Total Q there, amplifier, cable, leaks and filling included.
    pub(crate) closed_q: f64,
    /// Of vent or radiator and box in Hz, where there is one.
    pub(crate) tuning: Option<f64>,
    /// Of the passive radiator in free air in Hz, added mass included.
    pub(crate) radiator: Option<f64>,
}

impl Resonance {
    /// The resonance the box is built around: its tuning, or that of the closed box.
    #[must_use]
    pub(crate) fn box_frequency(&self) -> f64 {
        self.tuning.unwrap_or(self.closed)
    }

    /// Resonances of a build (`small-1972`, eq. for f_C and Q_TC, with the air
    /// load of a piston in the face; `small-1973` for the tuning).
    #[must_use]
    pub(crate) fn of(subject: &Subject, build: &Build) -> Self {
        let enclosure = &build.enclosure;
        let air = &build.air;
        let stiffness = air.density * air.sound_speed * air.sound_speed;
        // Each driver has its share of the box.
        let drivers: f64 = subject
            .project
            .design
            .drivers
            .iter()
            .map(|group| f64::from(group.count))
            .sum();
        let volume = enclosure.net / drivers;
        // The first group stands for all; unlike drivers in one chamber are a finding of their own.
        let example = &build.drivers[0];
        let driver = &example.driver;
        let mass = driver.mass + 2.0 * free_air_mass(driver.area, air);
        let box_compliance = |omega: f64| {
            let slow =
                1.0 / (1.0 + (omega * enclosure.relaxation) * (omega * enclosure.relaxation));
            volume / stiffness * (1.0 + (air.gamma - 1.0) * enclosure.filling * slow)
        };
        let mechanical = |omega: f64| {
            let on_cone = box_compliance(omega) / (driver.area * driver.area);
            1.0 / (1.0 / driver.compliance + 1.0 / on_cone)
        };
        // The filling's share depends a little on frequency: three rounds settle it.
        let mut omega = TAU * example.fs();
        for _ in 0..3 {
            omega = 1.0 / (mass * mechanical(omega)).sqrt();
        }
        let feed = &build.amplifier.feed;
        let path = feed.output_resistance + feed.cable_resistance;
        let wiring = series_over_parallel(subject);
        let electrical = driver.bl * driver.bl / (driver.re + path / wiring);
        let resistance = driver.resistance + electrical;
        let box_stiffness = driver.area * driver.area / box_compliance(omega);
        // Losses of leaks and of heat exchange, as share of the energy in the box air.
        let filling = (air.gamma - 1.0) * enclosure.filling * omega * enclosure.relaxation
            / (1.0 + (omega * enclosure.relaxation) * (omega * enclosure.relaxation));
        let box_loss =
            1.0 / enclosure.leak_q + filling / (1.0 + (air.gamma - 1.0) * enclosure.filling);
        let loss = omega * resistance + box_stiffness * box_loss;
        let closed_q = omega * omega * mass / loss;
        let whole = box_compliance(omega) * drivers * stiffness;
        Self {
            closed: omega / TAU,
            closed_q,
            tuning: enclosure
                .vent
                .map(|vent| vent_tuning(whole, &vent.duct(), air))
                .or_else(|| {
                    build
                        .radiator
                        .map(|radiator| radiator_tuning(&radiator, whole, stiffness))
                }),
            radiator: build
                .radiator
                .map(|radiator| 1.0 / (TAU * (radiator.mms * radiator.compliance).sqrt())),
        }
    }
}

/// Equal drivers on one channel: how many times one driver's impedance they are.
fn series_over_parallel(subject: &Subject) -> f64 {
    let design = &subject.project.design;
    let group = &design.drivers[0];
    let on_channel = f64::from(on_one_channel(group));
    match group.wiring.value {
        design::Wiring::Parallel => 1.0 / on_channel,
        design::Wiring::Series => on_channel,
        design::Wiring::SeriesParallel => 4.0 / on_channel,
    }
}

fn radiator_tuning(radiator: &RadiatorBuild, volume: f64, stiffness: f64) -> f64 {
    let area = radiator.area * f64::from(radiator.count);
    let box_stiffness = stiffness * area * area / volume;
    let own = f64::from(radiator.count) / radiator.compliance;
    ((own + box_stiffness) / (f64::from(radiator.count) * radiator.mms)).sqrt() / TAU
}
