//! What one volt at the amplifier's output does, frequency by frequency.

use super::Scene;
use crate::build::Build;
use crate::subject::{Subject, on_one_channel};
use core::f64::consts::{PI, SQRT_2};
use physics::loudspeaker::{ChannelSweep, Sweep};
use physics::math::{Complex, J, omega};

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

/// Volume velocity of one side that, with another like it, gives the mean
/// square of two unlike ones: in the bass that of everything summed, in the
/// treble that of each side by itself. `pair` is the mean-square
/// gain from one of two equal sides to both, 2(1 + s) with s the coherence.
fn mean_side(
    subject: &Subject,
    build: &Build,
    sources: &[usize],
    sweep: &Sweep,
    i: usize,
    pair: f64,
) -> f64 {
    let mut sources = sources.iter();
    let mut cones = [Complex::default(); 2];
    for (channel, flow) in sweep.channels.iter().zip(&mut cones) {
        for (group, &source) in channel.groups.iter().zip(&mut sources) {
            let count = on_one_channel(&subject.project.design.drivers[source]);
            let area = f64::from(count) * build.drivers[source].driver.area;
            *flow += group.cone_velocity[i] * area;
        }
    }
    // Vents, radiators and leaks count half to each side.
    let rest = (sweep.volume_velocity[i] - cones[0] - cones[1]) / 2.0;
    let apart: f64 = cones.map(|flow| (flow + rest).norm_sqr()).iter().sum();
    let coherence = pair / 2.0 - 1.0;
    let together = sweep.volume_velocity[i].norm_sqr();
    let square = (together * coherence + apart * (1.0 - coherence)) / pair;
    square.max(0.0).sqrt()
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
            gains.read_sound(sweep, i, omega(hertz));
            let side = match sweep.channels.len() {
                2 => mean_side(subject, build, sources, sweep, i, scene.sides[i]),
                _ => sweep.volume_velocity[i].norm() / folds,
            };
            let pressure = build.air.density * omega(hertz) * side / (4.0 * PI);
            gains.pressure.push(pressure);
            gains.read_cones(build, sources, sweep, i, omega(hertz));
            gains.read_outlet(build, sweep, i, omega(hertz));
            gains.read_output(sweep, folds, i);
        }
        gains.shape_treble(scene);
        gains
    }

    /// What the box sends out as a whole, at the angular frequency `w`.
    fn read_sound(&mut self, sweep: &Sweep, i: usize, w: f64) {
        let flow = sweep.volume_velocity[i];
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
        let outlets = sweep.chambers.iter().flat_map(|chamber| &chamber.outlets);
        let fastest = outlets.map(|outlet| outlet.velocity[i].norm());
        let speed = SQRT_2 * fastest.fold(0.0, f64::max);
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
        for (pressure, baffle) in self.pressure.iter_mut().zip(scene.baffle.iter()) {
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
