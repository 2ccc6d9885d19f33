//! What a loudspeaker does, frequency by frequency, for one volt of source.

use core::f64::consts::PI;

use super::network::{ChamberNet, ChannelNet, GroupNet, Network, OutletNet};
use super::parts;
use super::reference::reference_acceleration;
use super::system::{Chamber, Channel, DriverGroup, Outlet};
use crate::air::Air;
use crate::circuit::{Grid, Lanes, Solver};
use crate::math::{self, Complex};

/// Phasors for 1 V rms of the common source, that is, of the amplifier's
/// open-circuit output; SI units, rms. One value for each frequency.
///
/// Velocities and volume velocities count outwards from the box.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sweep {
    /// Frequencies in Hz.
    pub frequencies: Vec<f64>,
    /// By channel, as in the system.
    pub channels: Vec<ChannelSweep>,
    /// By chamber, as in the system.
    pub chambers: Vec<ChamberSweep>,
    /// Volume velocity of the whole box in m³/s: cones, outlets and leaks.
    pub volume_velocity: Vec<Complex>,
    /// Volume acceleration in m³/s² that drivers held by their mass alone
    /// would give, far above resonance and with no inductance: the 0 dB of a
    /// roll-off.
    pub reference_acceleration: f64,
}

/// One amplifier channel.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChannelSweep {
    /// Current of the amplifier's output stage in A, its filter included.
    pub output_current: Vec<Complex>,
    /// Current into coupling capacitor, cable and drivers in A.
    pub load_current: Vec<Complex>,
    /// Impedance in Ω that the output sees: coupling capacitor, cable and
    /// drivers, with the other channels at work. Without meaning for a channel
    /// that is not driven.
    pub load_impedance: Vec<Complex>,
    /// Voltage at the terminals the groups share, in V.
    pub terminal_voltage: Vec<Complex>,
    /// By group, as in the system.
    pub groups: Vec<GroupSweep>,
}

/// One driver of a group.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct GroupSweep {
    /// Velocity of its cone in m/s.
    pub cone_velocity: Vec<Complex>,
    /// Current of its coil in A.
    pub coil_current: Vec<Complex>,
    /// Voltage across it in V.
    pub terminal_voltage: Vec<Complex>,
}

/// One chamber.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChamberSweep {
    /// Sound pressure inside in Pa.
    pub pressure: Vec<Complex>,
    /// Volume velocity of its leaks in m³/s.
    pub leak_volume_velocity: Vec<Complex>,
    /// By outlet, as in the system.
    pub outlets: Vec<OutletSweep>,
}

/// Equal vents, or equal passive radiators.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OutletSweep {
    /// Volume velocity at the outside, of all of them together, in m³/s.
    pub volume_velocity: Vec<Complex>,
    /// Volume velocity at the inside, of all of them together, in m³/s.
    pub inner_volume_velocity: Vec<Complex>,
    /// Velocity in m/s: of one passive radiator; of the air at the end of one
    /// vent where it moves more, mean over the opening.
    pub velocity: Vec<Complex>,
}

impl Sweep {
    /// Free-space sound pressure in Pa for one volt at a distance in m, as of
    /// one small source: jωρU/4πr.
    ///
    /// Delay over the distance, directivity and surroundings are left out.
    #[must_use]
    pub fn pressure(&self, index: usize, distance: f64, air: &Air) -> Complex {
        let omega = math::omega(self.frequencies[index]);
        self.volume_velocity[index] * Complex::new(0.0, omega * air.density / (4.0 * PI * distance))
    }

    /// Volume acceleration relative to the reference: the response of the box
    /// as a high-pass filter.
    #[must_use]
    pub fn relative_response(&self, index: usize) -> Complex {
        let omega = math::omega(self.frequencies[index]);
        self.volume_velocity[index] * Complex::new(0.0, omega / self.reference_acceleration)
    }
}

impl Network {
    /// Solves at these frequencies (Hz).
    ///
    /// # Panics
    /// When a frequency is not positive and finite, or the system's numbers
    /// leave the network without a solution (a driver without mass, a chamber
    /// without volume, a number that is not finite).
    pub fn sweep(&mut self, frequencies: &[f64]) -> Sweep {
        let mut sweep = Sweep::default();
        self.sweep_into(frequencies, &mut sweep);
        sweep
    }

    /// [`sweep`](Self::sweep) into the storage of an earlier one.
    ///
    /// # Panics
    /// As [`sweep`](Self::sweep).
    pub fn sweep_into(&mut self, frequencies: &[f64], sweep: &mut Sweep) {
        if self.grid.frequencies() != frequencies {
            self.grid = Grid::new(frequencies);
        }
        sweep.reset(self);
        let Self {
            solver,
            grid,
            system,
            channels,
            chambers,
            ..
        } = self;
        for (_, count, band) in grid.bands() {
            solver
                .solve_band(band)
                .expect("a loudspeaker of finite parts has one solution");
            let reader = Reader { solver, count };
            let mut total = Lanes::ZERO;
            for ((net, channel), out) in channels
                .iter()
                .zip(&system.channels)
                .zip(&mut sweep.channels)
            {
                total += reader.channel(net, channel, out);
            }
            for ((net, chamber), out) in chambers
                .iter()
                .zip(&system.chambers)
                .zip(&mut sweep.chambers)
            {
                total += reader.chamber(net, chamber, out);
            }
            reader.push(&mut sweep.volume_velocity, total);
        }
        sweep.reference_acceleration = reference_acceleration(system);
    }
}

/// Takes the lanes of a solved band into vectors by frequency.
struct Reader<'a> {
    solver: &'a Solver,
    count: usize,
}

impl Reader<'_> {
    fn push(&self, out: &mut Vec<Complex>, lanes: Lanes) {
        out.extend((0..self.count).map(|lane| lanes.lane(lane)));
    }

    fn potential(&self, node: crate::circuit::Node) -> Lanes {
        self.solver.unknowns()[self.solver.potential(node)]
    }

    fn current(&self, id: crate::circuit::ElementId) -> Lanes {
        let place = self
            .solver
            .current(id)
            .expect("only series branches are read");
        self.solver.unknowns()[place]
    }

    /// Reads a channel; returns the volume velocity of its cones.
    fn channel(&self, net: &ChannelNet, channel: &Channel, out: &mut ChannelSweep) -> Lanes {
        let load_current = self.current(net.line);
        let terminals = self.potential(net.terminals);
        self.push(&mut out.output_current, self.current(net.stage));
        self.push(&mut out.load_current, load_current);
        self.push(
            &mut out.load_impedance,
            self.potential(net.output) * load_current.recip(),
        );
        self.push(&mut out.terminal_voltage, terminals);
        let mut total = Lanes::ZERO;
        for ((net, group), out) in net.groups.iter().zip(&channel.groups).zip(&mut out.groups) {
            total += self.group(net, group, terminals, out);
        }
        total
    }

    fn group(
        &self,
        net: &GroupNet,
        group: &DriverGroup,
        terminals: Lanes,
        out: &mut GroupSweep,
    ) -> Lanes {
        let (series, parallel) = (f64::from(group.series), f64::from(group.parallel));
        let velocity = self.current(net.motion);
        self.push(&mut out.cone_velocity, velocity);
        self.push(
            &mut out.coil_current,
            self.current(net.coil).scaled(1.0 / parallel),
        );
        self.push(&mut out.terminal_voltage, terminals.scaled(1.0 / series));
        velocity.scaled(series * parallel * group.driver.area)
    }

    /// Reads a chamber; returns the volume velocity of its outlets and leaks.
    fn chamber(&self, net: &ChamberNet, chamber: &Chamber, out: &mut ChamberSweep) -> Lanes {
        let pressure = self.potential(net.node);
        let leak = pressure.scaled(parts::leak_conductance(chamber));
        self.push(&mut out.pressure, pressure);
        self.push(&mut out.leak_volume_velocity, leak);
        let mut total = leak;
        for ((net, outlet), out) in net
            .outlets
            .iter()
            .zip(&chamber.outlets)
            .zip(&mut out.outlets)
        {
            total += self.outlet(net, outlet, out);
        }
        total
    }

    fn outlet(&self, net: &OutletNet, outlet: &Outlet, out: &mut OutletSweep) -> Lanes {
        let (inside, outside, velocity) = match (net, outlet) {
            (OutletNet::Vent { inner, mouth, .. }, Outlet::Vent(vent)) => {
                let (inside, outside) = (self.current(*inner), self.current(*mouth));
                let area = f64::from(vent.count) * vent.area;
                let velocity = faster(inside, outside).scaled(1.0 / area);
                (inside, outside, velocity)
            }
            (OutletNet::Radiator { motion, .. }, Outlet::Radiator(radiator)) => {
                let velocity = self.current(*motion);
                let volume = velocity.scaled(f64::from(radiator.count) * radiator.area);
                (volume, volume, velocity)
            }
            _ => unreachable!("the network was made for these outlets"),
        };
        self.push(&mut out.inner_volume_velocity, inside);
        self.push(&mut out.volume_velocity, outside);
        self.push(&mut out.velocity, velocity);
        outside
    }
}

/// In each lane the number of larger magnitude.
fn faster(a: Lanes, b: Lanes) -> Lanes {
    let mut out = a;
    for lane in 0..crate::circuit::LANES {
        if b.lane(lane).norm_sqr() > a.lane(lane).norm_sqr() {
            out.set_lane(lane, b.lane(lane));
        }
    }
    out
}

impl Sweep {
    /// Empties every list and gives it the shape of the network.
    fn reset(&mut self, network: &Network) {
        self.frequencies.clear();
        self.frequencies.extend(network.grid.frequencies());
        self.volume_velocity.clear();
        self.channels
            .resize_with(network.channels.len(), Default::default);
        for (channel, net) in self.channels.iter_mut().zip(&network.channels) {
            channel.output_current.clear();
            channel.load_current.clear();
            channel.load_impedance.clear();
            channel.terminal_voltage.clear();
            channel
                .groups
                .resize_with(net.groups.len(), Default::default);
            for group in &mut channel.groups {
                group.cone_velocity.clear();
                group.coil_current.clear();
                group.terminal_voltage.clear();
            }
        }
        self.chambers
            .resize_with(network.chambers.len(), Default::default);
        for (chamber, net) in self.chambers.iter_mut().zip(&network.chambers) {
            chamber.pressure.clear();
            chamber.leak_volume_velocity.clear();
            chamber
                .outlets
                .resize_with(net.outlets.len(), Default::default);
            for outlet in &mut chamber.outlets {
                outlet.volume_velocity.clear();
                outlet.inner_volume_velocity.clear();
                outlet.velocity.clear();
            }
        }
    }
}
