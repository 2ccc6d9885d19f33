//! The numbers of one box: nominal, or drawn within the tolerances.

mod resonance;
mod system;

pub use resonance::Resonance;
pub(crate) use resonance::vent_of;
pub(crate) use system::network_of;

use crate::subject::DriverBuild;
use physics::air::Air;
use physics::amplifier::Amplifier;
use physics::battery::Battery;
use physics::loudspeaker::Feed;

/// One box.
#[derive(Clone, Debug)]
pub struct Build {
    /// The air at the place of use.
    pub air: Air,
    /// One example of the drivers of each group.
    pub drivers: Vec<DriverBuild>,
    /// Passive radiators, where there are any.
    pub radiator: Option<RadiatorBuild>,
    /// The amplifier with its source.
    pub amplifier: AmplifierBuild,
    /// The battery.
    pub battery: Battery,
    /// The box.
    pub enclosure: EnclosureBuild,
    /// Weight in kg.
    pub weight: f64,
    /// Still to be spent, in the brief's currency.
    pub cost: f64,
}

/// The box of one build.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EnclosureBuild {
    /// Width, height, depth over the walls in m.
    pub outside: [f64; 3],
    /// Width, height, depth between the walls in m.
    pub inside: [f64; 3],
    /// Wall thickness in m.
    pub thickness: f64,
    /// Volume between the walls in m³.
    pub gross: f64,
    /// Air taken up by parts, in m³.
    pub displaced: f64,
    /// Air left, in m³.
    pub net: f64,
    /// Volume of a dividing panel in m³.
    pub divider: f64,
    /// Share of the air that lies among fibres, 0 to 1.
    pub filling: f64,
    /// Heat exchange time of the filling in s.
    pub relaxation: f64,
    /// Q of the leaks at the box's own resonance.
    pub leak_q: f64,
    /// The vents, where there are any.
    pub vent: Option<VentBuild>,
}

impl EnclosureBuild {
    /// Volume of wood in m³, cut-outs not taken off.
    #[must_use]
    pub fn wood(&self) -> f64 {
        self.outside.iter().product::<f64>() - self.gross + self.divider
    }
}

/// The vents of one build.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VentBuild {
    /// Inner diameter in m.
    pub diameter: f64,
    /// Length in m.
    pub length: f64,
    /// How many.
    pub count: u32,
}

/// The passive radiators of one build.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RadiatorBuild {
    /// How many.
    pub count: u32,
    /// Moving mass with the air load of free air and what was added, in kg.
    pub mms: f64,
    /// Compliance in m/N.
    pub compliance: f64,
    /// Mechanical resistance in N·s/m.
    pub resistance: f64,
    /// Area in m².
    pub area: f64,
    /// Travel one way, peak, in m.
    pub xmax: f64,
}

/// The amplifier of one build.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AmplifierBuild {
    /// The output stage.
    pub stage: Amplifier,
    /// What lies between it and the drivers.
    pub feed: Feed,
    /// Voltage gain as a ratio.
    pub gain: f64,
    /// Highest sine level of the source in V rms.
    pub source_level: f64,
    /// Loss between source and board in dB.
    pub source_loss_db: f64,
}

impl AmplifierBuild {
    /// Highest output the source can call for, in V rms.
    #[must_use]
    pub fn source_output(&self) -> f64 {
        self.source_level * self.gain * physics::math::amplitude_from_db(-self.source_loss_db)
    }
}
