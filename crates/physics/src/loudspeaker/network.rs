//! The network of a system: structure once, values as often as wanted.

use super::parts;
use super::system::{AirLoad, Chamber, Channel, DriverGroup, Outlet, System};
use crate::air::Air;
use crate::circuit::{Circuit, ElementId, GROUND, Grid, Node, Solver, Value};

/// A loudspeaker's network, ready to be solved.
///
/// The structure follows from how many channels, groups, chambers and outlets
/// there are, of what kind and how connected; every number may change later.
///
/// The order of elimination follows the numbers the network was made with, and
/// another order rounds otherwise: for the same last digits on any number of
/// threads, make one network and clone it.
#[derive(Clone, Debug)]
pub struct Network {
    pub(super) circuit: Circuit,
    pub(super) solver: Solver,
    pub(super) grid: Grid,
    pub(super) system: System,
    pub(super) channels: Vec<ChannelNet>,
    pub(super) chambers: Vec<ChamberNet>,
}

/// Another structure was given to a network than the one it was made for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OtherStructure;

impl std::fmt::Display for OtherStructure {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("the system is connected otherwise than the network was made for")
    }
}

impl std::error::Error for OtherStructure {}

#[derive(Clone, Debug)]
pub(super) struct ChannelNet {
    pub(super) source: ElementId,
    pub(super) stage: ElementId,
    pub(super) filter: ElementId,
    pub(super) line: ElementId,
    pub(super) output: Node,
    pub(super) terminals: Node,
    pub(super) groups: Vec<GroupNet>,
}

#[derive(Clone, Debug)]
pub(super) struct GroupNet {
    pub(super) coil: ElementId,
    pub(super) force: ElementId,
    pub(super) motion: ElementId,
    pub(super) front: Option<ElementId>,
    pub(super) cone: ElementId,
}

#[derive(Clone, Debug)]
pub(super) struct ChamberNet {
    pub(super) node: Node,
    pub(super) absorption: ElementId,
    pub(super) air: ElementId,
    pub(super) leak: ElementId,
    pub(super) outlets: Vec<OutletNet>,
}

#[derive(Clone, Debug)]
pub(super) enum OutletNet {
    Vent {
        inner: ElementId,
        duct: ElementId,
        mouth: ElementId,
    },
    Radiator {
        face: ElementId,
        motion: ElementId,
        front: Option<ElementId>,
    },
}

impl Network {
    /// Builds the network of a system and plans its solution.
    ///
    /// # Panics
    /// When a group names a chamber that is not there.
    #[must_use]
    pub fn new(system: &System) -> Self {
        let mut builder = Builder {
            circuit: Circuit::new(),
            air: system.air,
            air_load: system.air_load,
        };
        let nodes: Vec<Node> = (1..=system.chambers.len())
            .map(|number| builder.circuit.node(format!("chamber{number}")))
            .collect();
        let channels = system
            .channels
            .iter()
            .enumerate()
            .map(|(index, channel)| builder.channel(&format!("ch{}", index + 1), channel, &nodes))
            .collect();
        let chambers = system
            .chambers
            .iter()
            .zip(nodes)
            .enumerate()
            .map(|(index, (chamber, node))| {
                builder.chamber(&format!("box{}", index + 1), chamber, node)
            })
            .collect();
        let solver = Solver::new(&builder.circuit);
        Self {
            circuit: builder.circuit,
            solver,
            grid: Grid::default(),
            system: system.clone(),
            channels,
            chambers,
        }
    }

    /// Takes the numbers of another system of the same structure.
    ///
    /// # Errors
    /// When that system is connected otherwise; nothing has changed then.
    pub fn set(&mut self, system: &System) -> Result<(), OtherStructure> {
        if !same_structure(&self.system, system) {
            return Err(OtherStructure);
        }
        self.system.clone_from(system);
        let (air, air_load) = (&system.air, system.air_load);
        let circuit = &mut self.circuit;
        for (net, channel) in self.channels.iter().zip(&system.channels) {
            net.set(circuit, channel, air_load, air);
        }
        for (net, chamber) in self.chambers.iter().zip(&system.chambers) {
            net.set(circuit, chamber, air_load, air);
        }
        self.solver.load(&self.circuit);
        Ok(())
    }

    /// The system the network now stands for.
    #[must_use]
    pub const fn system(&self) -> &System {
        &self.system
    }

    /// The network as a circuit.
    #[must_use]
    pub const fn circuit(&self) -> &Circuit {
        &self.circuit
    }
}

impl ChannelNet {
    fn set(&self, circuit: &mut Circuit, channel: &Channel, air_load: AirLoad, air: &Air) {
        let feed = parts::feed(&channel.feed);
        circuit.set(self.source, Value::VoltageSource(channel.drive));
        circuit.set(self.stage, feed.stage);
        circuit.set(self.filter, feed.filter);
        circuit.set(self.line, feed.line);
        for (net, group) in self.groups.iter().zip(&channel.groups) {
            let values = parts::group(group, air_load, air);
            circuit.set(net.coil, values.coil);
            circuit.set(net.force, values.force);
            circuit.set(net.motion, values.motion);
            circuit.set(net.cone, values.cone);
            if let Some(front) = net.front {
                circuit.set(front, values.front);
            }
        }
    }
}

impl ChamberNet {
    fn set(&self, circuit: &mut Circuit, chamber: &Chamber, air_load: AirLoad, air: &Air) {
        let values = parts::chamber(chamber, air);
        circuit.set(self.absorption, values.absorption);
        circuit.set(self.air, values.air);
        circuit.set(self.leak, values.leak);
        for (net, outlet) in self.outlets.iter().zip(&chamber.outlets) {
            match (net, outlet) {
                (OutletNet::Vent { inner, duct, mouth }, Outlet::Vent(vent)) => {
                    let values = parts::vent(vent, air);
                    circuit.set(*inner, values.inner);
                    circuit.set(*duct, values.duct);
                    circuit.set(*mouth, values.mouth);
                }
                (
                    OutletNet::Radiator {
                        face,
                        motion,
                        front,
                    },
                    Outlet::Radiator(radiator),
                ) => {
                    let values = parts::radiator(radiator, air_load, air);
                    circuit.set(*face, values.face);
                    circuit.set(*motion, values.motion);
                    if let Some(front) = front {
                        circuit.set(*front, values.front);
                    }
                }
                _ => unreachable!("the structure has been compared"),
            }
        }
    }
}

/// Whether two systems give the same network but for its numbers.
fn same_structure(a: &System, b: &System) -> bool {
    let groups_match = |a: &Channel, b: &Channel| {
        a.groups.len() == b.groups.len()
            && a.groups
                .iter()
                .zip(&b.groups)
                .all(|(a, b)| a.chamber == b.chamber)
    };
    let outlets_match = |a: &Chamber, b: &Chamber| {
        a.outlets.len() == b.outlets.len()
            && a.outlets.iter().zip(&b.outlets).all(|pair| {
                matches!(
                    pair,
                    (Outlet::Vent(_), Outlet::Vent(_)) | (Outlet::Radiator(_), Outlet::Radiator(_))
                )
            })
    };
    a.air_load == b.air_load
        && a.channels.len() == b.channels.len()
        && a.chambers.len() == b.chambers.len()
        && a.channels
            .iter()
            .zip(&b.channels)
            .all(|(a, b)| groups_match(a, b))
        && a.chambers
            .iter()
            .zip(&b.chambers)
            .all(|(a, b)| outlets_match(a, b))
}

struct Builder {
    circuit: Circuit,
    air: Air,
    air_load: AirLoad,
}

impl Builder {
    fn channel(&mut self, name: &str, channel: &Channel, chambers: &[Node]) -> ChannelNet {
        let values = parts::feed(&channel.feed);
        let circuit = &mut self.circuit;
        let source = circuit.node(format!("{name}_source"));
        let output = circuit.node(format!("{name}_output"));
        let terminals = circuit.node(format!("{name}_terminals"));
        ChannelNet {
            source: circuit.add(
                format!("{name}_amplifier"),
                [source, GROUND],
                Value::VoltageSource(channel.drive),
            ),
            stage: circuit.add(format!("{name}_stage"), [source, output], values.stage),
            filter: circuit.add(format!("{name}_filter"), [output, GROUND], values.filter),
            line: circuit.add(format!("{name}_line"), [output, terminals], values.line),
            output,
            terminals,
            groups: channel
                .groups
                .iter()
                .enumerate()
                .map(|(index, group)| {
                    let name = format!("{name}_group{}", index + 1);
                    self.group(&name, group, terminals, chambers[group.chamber])
                })
                .collect(),
        }
    }

    /// Coil, force factor, moving parts and cone, from the terminals to the
    /// chamber. A cone that moves outwards takes its volume from the chamber.
    fn group(&mut self, name: &str, group: &DriverGroup, plus: Node, chamber: Node) -> GroupNet {
        let values = parts::group(group, self.air_load, &self.air);
        let circuit = &mut self.circuit;
        let emf = circuit.node(format!("{name}_emf"));
        let force = circuit.node(format!("{name}_force"));
        let back = circuit.node(format!("{name}_back"));
        let coil = circuit.add(format!("{name}_coil"), [plus, emf], values.coil);
        let gyrator = circuit.add_two_port(
            format!("{name}_bl"),
            [emf, GROUND],
            [force, GROUND],
            values.force,
        );
        let (motion, front) = self.moving(name, [force, back], values.motion, values.front);
        let cone = self.circuit.add_two_port(
            format!("{name}_cone"),
            [back, GROUND],
            [GROUND, chamber],
            values.cone,
        );
        GroupNet {
            coil,
            force: gyrator,
            motion,
            front,
            cone,
        }
    }

    /// A moving mass on its suspension, and the air before it where that is
    /// not counted in the mass.
    fn moving(
        &mut self,
        name: &str,
        [from, to]: [Node; 2],
        motion: Value,
        front: Value,
    ) -> (ElementId, Option<ElementId>) {
        let circuit = &mut self.circuit;
        match self.air_load {
            AirLoad::InMass => (
                circuit.add(format!("{name}_motion"), [from, to], motion),
                None,
            ),
            AirLoad::Piston => {
                let face = circuit.node(format!("{name}_face"));
                (
                    circuit.add(format!("{name}_motion"), [from, face], motion),
                    Some(circuit.add(format!("{name}_front"), [face, to], front)),
                )
            }
        }
    }

    fn chamber(&mut self, name: &str, chamber: &Chamber, node: Node) -> ChamberNet {
        let values = parts::chamber(chamber, &self.air);
        let circuit = &mut self.circuit;
        let within = circuit.node(format!("{name}_within"));
        ChamberNet {
            node,
            absorption: circuit.add(
                format!("{name}_absorption"),
                [node, within],
                values.absorption,
            ),
            air: circuit.add(format!("{name}_air"), [within, GROUND], values.air),
            leak: circuit.add(format!("{name}_leak"), [node, GROUND], values.leak),
            outlets: chamber
                .outlets
                .iter()
                .enumerate()
                .map(|(index, outlet)| {
                    self.outlet(&format!("{name}_outlet{}", index + 1), outlet, node)
                })
                .collect(),
        }
    }

    fn outlet(&mut self, name: &str, outlet: &Outlet, chamber: Node) -> OutletNet {
        let circuit = &mut self.circuit;
        match outlet {
            Outlet::Vent(vent) => {
                let values = parts::vent(vent, &self.air);
                let inner = circuit.node(format!("{name}_inner_end"));
                let outer = circuit.node(format!("{name}_outer_end"));
                OutletNet::Vent {
                    inner: circuit.add(format!("{name}_inner"), [chamber, inner], values.inner),
                    duct: circuit.add_two_port(
                        format!("{name}_duct"),
                        [inner, GROUND],
                        [outer, GROUND],
                        values.duct,
                    ),
                    mouth: circuit.add(format!("{name}_mouth"), [outer, GROUND], values.mouth),
                }
            }
            Outlet::Radiator(radiator) => {
                let values = parts::radiator(radiator, self.air_load, &self.air);
                let force = circuit.node(format!("{name}_force"));
                let face = circuit.add_two_port(
                    format!("{name}_face"),
                    [force, GROUND],
                    [chamber, GROUND],
                    values.face,
                );
                let (motion, front) =
                    self.moving(name, [force, GROUND], values.motion, values.front);
                OutletNet::Radiator {
                    face,
                    motion,
                    front,
                }
            }
        }
    }
}
