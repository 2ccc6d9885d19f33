//! What one volt at the amplifier's output does, frequency by frequency.

use super::Scene;
use crate::build::Build;
use crate::subject::Subject;
use core::f64::consts::{PI, SQRT_2};
use physics::loudspeaker::{ChannelSweep, Sweep};
use physics::math::{J, omega};

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
        let mut gains = Self::default();
        let folds = f64::from(subject.folds());
        for (i, &hertz) in scene.grid.hertz.iter().enumerate() {
            gains.read_sound(build, sweep, folds, i, omega(hertz));
            gains.read_cones(build, sources, sweep, i, omega(hertz));
            gains.read_outlet(build, sweep, i, omega(hertz));
            gains.read_output(sweep, folds, i);
        }
        gains.shape_treble(scene);
        gains
    }

    /// What the box sends out: `folds` sides, angular frequency `w`.
    fn read_sound(&mut self, build: &Build, sweep: &Sweep, folds: f64, i: usize, w: f64) {
        let flow = sweep.volume_velocity[i];
        let whole = build.air.density * w * flow.norm() / (4.0 * PI);
        self.pressure.push(whole / folds);
        self.roll_off
            .push(w * flow.norm() / sweep.reference_acceleration);
        self.sound_phase.push((flow * J).arg());
    }

    /// The cone nearest its limit, and the hottest coil.
    fn read_cones(&mut self, build: &Build, sources: &[usize], sweep: &Sweep, i: usize, w: f64) {
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
        self.travel_share.push(share);
        self.travel.push(travel);
        self.heat_share.push(heat);
    }

    /// The air in the vent, or the passive radiator; zero where there is none.
    fn read_outlet(&mut self, build: &Build, sweep: &Sweep, i: usize, w: f64) {
        let chamber = sweep.chambers.first();
        let outlet = chamber.and_then(|chamber| chamber.outlets.first());
        let speed = outlet.map_or(0.0, |outlet| SQRT_2 * outlet.velocity[i].norm());
        let vent = build.enclosure.vent.is_some();
        let radiator = build.radiator.is_some();
        self.vent_speed.push(if vent { speed } else { 0.0 });
        self.radiator_travel
            .push(if radiator { speed / w } else { 0.0 });
    }

    /// What leaves the amplifier, and what the busier channel sees.
    fn read_output(&mut self, sweep: &Sweep, folds: f64, i: usize) {
        let busiest = sweep.channels.iter().max_by(|a, b| {
            let current = |channel: &ChannelSweep| channel.output_current[i].norm_sqr();
            current(a).total_cmp(&current(b))
        });
        let Some(busiest) = busiest else { return };
        let load = busiest.load_impedance[i];
        self.current.push(busiest.output_current[i].norm() / folds);
        self.impedance.push(load.norm() * folds);
        self.phase.push(load.arg());
        let powers = sweep
            .channels
            .iter()
            .map(|channel| channel.load_current[i].norm_sqr() * channel.load_impedance[i].re);
        let out: f64 = powers.sum();
        self.power.push(out / folds / sweep.channels.len() as f64);
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
