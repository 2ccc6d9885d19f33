//! What one volt at the amplifier's output does, frequency by frequency.

use super::Scene;
use crate::build::Build;
use crate::subject::Subject;
use core::f64::consts::{PI, SQRT_2};
use physics::loudspeaker::Sweep;
use physics::math::omega;

/// Per volt rms of the amplifier's open-circuit output, on the scene's grid.
#[derive(Clone, Debug, Default)]
pub(crate) struct Gains {
    /// Free-field pressure of one side on axis at 1 m, in Pa rms.
    pub(crate) pressure: Vec<f64>,
    /// Volume acceleration of the whole box over its mid-band asymptote.
    pub(crate) roll_off: Vec<f64>,
    /// Greatest share of its travel that any cone uses, peak (1 = at its limit).
    pub(crate) travel_share: Vec<f64>,
    /// Travel of the cone with the greatest share, peak, in m.
    pub(crate) travel: Vec<f64>,
    /// Travel of the passive radiator, peak, in m.
    pub(crate) radiator_travel: Vec<f64>,
    /// Air speed in the vent, peak, in m/s.
    pub(crate) vent_speed: Vec<f64>,
    /// Output current of the busier channel, rms, in A.
    pub(crate) current: Vec<f64>,
    /// Heat in the hottest coil over its rating, in 1 per V².
    pub(crate) heat_share: Vec<f64>,
    /// Power out of one channel's output terminals, in W per V².
    pub(crate) power: Vec<f64>,
    /// Impedance on one channel: magnitude in Ω.
    pub(crate) impedance: Vec<f64>,
    /// Impedance on one channel: phase in rad.
    pub(crate) phase: Vec<f64>,
    /// Phase of the volume acceleration in rad, for the group delay.
    pub(crate) sound_phase: Vec<f64>,
}

impl Gains {
    /// Reads the gains of one build from its solved network.
    pub(crate) fn read(
        subject: &Subject,
        build: &Build,
        sources: &[usize],
        sweep: &Sweep,
        scene: &Scene,
    ) -> Self {
        let count = scene.grid.hertz.len();
        let mut gains = Self::default();
        let folds = f64::from(subject.folds());
        let channels = sweep.channels.len() as f64;
        let reference = sweep.reference_acceleration;
        let vent = build.enclosure.vent.is_some();
        let radiator = build.radiator.is_some();
        for i in 0..count {
            let hertz = scene.grid.hertz[i];
            let w = omega(hertz);
            let flow = sweep.volume_velocity[i];
            let whole = build.air.density * w * flow.norm() / (4.0 * PI);
            gains.pressure.push(whole / folds);
            gains.roll_off.push(w * flow.norm() / reference);
            gains.sound_phase.push((flow * physics::math::J).arg());
            let (mut share, mut travel, mut heat) = (0.0_f64, 0.0, 0.0_f64);
            let groups = sweep.channels.iter().flat_map(|channel| &channel.groups);
            for (group, &source) in groups.zip(sources) {
                let example = &build.drivers[source];
                let peak = SQRT_2 * group.cone_velocity[i].norm() / w;
                if peak / example.xmax > share {
                    (share, travel) = (peak / example.xmax, peak);
                }
                let current = group.coil_current[i].norm_sqr();
                heat = heat.max(current * example.driver.re / example.power);
            }
            gains.travel_share.push(share);
            gains.travel.push(travel);
            gains.heat_share.push(heat);
            let outlet = sweep
                .chambers
                .first()
                .and_then(|chamber| chamber.outlets.first());
            let speed = outlet
                .filter(|_| vent)
                .map_or(0.0, |outlet| SQRT_2 * outlet.velocity[i].norm());
            gains.vent_speed.push(speed);
            let own = outlet
                .filter(|_| radiator)
                .map_or(0.0, |outlet| SQRT_2 * outlet.velocity[i].norm() / w);
            gains.radiator_travel.push(own);
            let busiest = sweep.channels.iter().max_by(|a, b| {
                a.output_current[i]
                    .norm_sqr()
                    .total_cmp(&b.output_current[i].norm_sqr())
            });
            let Some(busiest) = busiest else { continue };
            gains.current.push(busiest.output_current[i].norm() / folds);
            gains
                .impedance
                .push(busiest.load_impedance[i].norm() * folds);
            gains.phase.push(busiest.load_impedance[i].arg());
            let out: f64 = sweep
                .channels
                .iter()
                .map(|channel| channel.load_current[i].norm_sqr() * channel.load_impedance[i].re)
                .sum();
            gains.power.push(out / folds / channels);
        }
        gains.shape_treble(scene);
        gains
    }

    /// Holds the level where the cone no longer moves as one, and adds the face of the box.
    fn shape_treble(&mut self, scene: &Scene) {
        if let Some(hold) = scene.hold {
            let held = self.pressure[hold];
            self.pressure[hold..].fill(held);
        }
        for (pressure, baffle) in self.pressure.iter_mut().zip(&scene.baffle) {
            *pressure *= baffle;
        }
    }

    /// Square root of the programme-weighted mean of squares: the rms of a
    /// quantity per volt rms of programme.
    pub(crate) fn programme_rms(quantity: &[f64], scene: &Scene) -> f64 {
        Self::programme_mean(quantity.iter().map(|value| value * value), scene).sqrt()
    }

    /// Programme-weighted mean of a quantity that already is a square.
    pub(crate) fn programme_mean(squares: impl Iterator<Item = f64>, scene: &Scene) -> f64 {
        squares
            .zip(&scene.programme)
            .map(|(square, share)| square * share)
            .sum()
    }
}
