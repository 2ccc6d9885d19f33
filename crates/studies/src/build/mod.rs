//! The numbers of one box: nominal, or drawn within the tolerances.

mod driver;

pub(crate) use driver::DriverBuild;

use crate::electrics::Share;
use physics::air::Air;
use physics::amplifier::Amplifier;
use physics::battery::Battery;
use physics::loudspeaker::{Feed, Vent, VentEnd};

/// One box.
#[derive(Clone, Debug)]
pub(crate) struct Build {
    /// The air at the place of use.
    pub(crate) air: Air,
    /// One example of the drivers of each group.
    pub(crate) drivers: Vec<DriverBuild>,
    /// Passive radiators, where there are any.
    pub(crate) radiator: Option<RadiatorBuild>,
    /// The amplifier with its source.
    pub(crate) amplifier: AmplifierBuild,
    /// The battery.
    pub(crate) battery: Battery,
    /// What is drawn from it beside the amplifier.
    pub(crate) aside: Share,
    /// The box.
    pub(crate) enclosure: EnclosureBuild,
    /// Weight in kg.
    pub(crate) weight: f64,
    /// Still to be spent, in the brief's currency.
    pub(crate) cost: f64,
}

/// The box of one build.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct EnclosureBuild {
    /// Width, height, depth over the walls in m.
    pub(crate) outside: [f64; 3],
    /// Width, height, and depth on the floor between the walls in m.
    pub(crate) inside: [f64; 3],
    /// Thickness of the sheet of the walls in m.
    pub(crate) thickness: f64,
    /// Volume between the walls in m³.
    pub(crate) gross: f64,
    /// Air taken up by parts, in m³.
    pub(crate) displaced: f64,
    /// Air left, in m³.
    pub(crate) net: f64,
    /// Volume of wood in m³, holes taken off.
    pub(crate) wood: f64,
    /// Weight in kg of walls, of boards inside, and of the plate of the control panel.
    pub(crate) wood_weights: [f64; 3],
    /// Share of the air that lies among fibres, 0 to 1.
    pub(crate) filling: f64,
    /// Heat exchange time of the filling in s.
    pub(crate) relaxation: f64,
    /// Q of the leaks at the box's own resonance.
    pub(crate) leak_q: f64,
    /// The vents, where there are any.
    pub(crate) vent: Option<VentBuild>,
}

/// The vents of one build.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct VentBuild {
    /// Inner diameter in m.
    pub(crate) diameter: f64,
    /// Length in m.
    pub(crate) length: f64,
    /// How many.
    pub(crate) count: u32,
}

impl VentBuild {
    /// The ducts as the physics takes them: one end flush with the front, one
    /// free inside.
    pub(crate) fn duct(self) -> Vent {
        let radius = self.diameter / 2.0;
        Vent {
            count: self.count,
            area: core::f64::consts::PI * radius * radius,
            length: self.length,
            hydraulic_radius: radius,
            inner: VentEnd::Free,
            outer: VentEnd::Flush,
            roughness: 1.0,
        }
    }
}

/// The passive radiators of one build.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct RadiatorBuild {
    /// How many.
    pub(crate) count: u32,
    /// Moving mass with the air load of free air and what was added, in kg.
    pub(crate) mms: f64,
    /// Compliance in m/N.
    pub(crate) compliance: f64,
    /// Mechanical resistance in N·s/m.
    pub(crate) resistance: f64,
    /// Area in m².
    pub(crate) area: f64,
    /// Travel one way, peak, in m.
    pub(crate) xmax: f64,
}

/// The amplifier of one build.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct AmplifierBuild {
    /// The output stage.
    pub(crate) stage: Amplifier,
    /// What lies between it and the drivers.
    pub(crate) feed: Feed,
    /// Voltage gain as a ratio.
    pub(crate) gain: f64,
    /// Highest sine level of the source in V rms.
    pub(crate) source_level: f64,
    /// Loss between source and board in dB.
    pub(crate) source_loss_db: f64,
}

impl AmplifierBuild {
    /// Highest output the source can call for, in V rms.
    #[must_use]
    pub(crate) fn source_output(&self) -> f64 {
        self.source_level * self.gain * physics::math::amplitude_from_db(-self.source_loss_db)
    }
}
