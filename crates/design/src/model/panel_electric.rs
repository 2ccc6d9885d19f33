//! What a part in the control panel is electrically.

use crate::{Choice, FuseForm, LightColour, Value};

/// What a part in the control panel is electrically; all of it may be unknown.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PanelElectric {
    /// How its contacts are arranged.
    pub contacts: Option<Choice<Contacts>>,
    /// Direct current it is rated for, in A.
    pub dc_current: Option<Value>,
    /// Direct voltage it is rated for, in V.
    pub dc_voltage: Option<Value>,
    /// Resistance of each track of a potentiometer in Ω.
    pub resistance: Option<Value>,
    /// How that resistance grows along the track.
    pub law: Option<Choice<TrackLaw>>,
    /// How many tracks turn with the shaft.
    pub gangs: Option<u32>,
    /// Terminals of a socket.
    pub poles: Option<u32>,
    /// Whether a socket opens a contact when a plug goes in.
    pub switched: Option<Choice<bool>>,
    /// Forward voltage of a light in V; `None` where its resistor is built in.
    pub forward_voltage: Option<Value>,
    /// Current it draws in A.
    pub current: Option<Value>,
    /// Colour of its light.
    pub light: Option<Choice<LightColour>>,
    /// Lowest supply in V.
    pub supply_min: Option<Value>,
    /// Highest supply in V.
    pub supply_max: Option<Value>,
    /// Highest sine level of its signal output in V rms.
    pub output_level: Option<Value>,
    /// Impedance of that output in Ω.
    pub output_impedance: Option<Value>,
    /// The fuses a holder takes.
    pub takes: Option<Choice<FuseForm>>,
}

/// How the contacts of a switch are arranged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Contacts {
    /// One contact, open or closed.
    Spst,
    /// One contact to either of two.
    Spdt,
    /// One contact to either of two, or to none in the middle.
    SpdtCentreOff,
    /// Two contacts, open or closed.
    Dpst,
    /// Two contacts to either of two.
    Dpdt,
    /// Two contacts to either of two, or to none in the middle.
    DpdtCentreOff,
}

impl Contacts {
    /// How many circuits it switches at once.
    #[must_use]
    pub const fn poles(self) -> u32 {
        match self {
            Self::Spst | Self::Spdt | Self::SpdtCentreOff => 1,
            Self::Dpst | Self::Dpdt | Self::DpdtCentreOff => 2,
        }
    }

    /// How many contacts each of them can be joined to.
    #[must_use]
    pub const fn throws(self) -> u32 {
        match self {
            Self::Spst | Self::Dpst => 1,
            Self::Spdt | Self::SpdtCentreOff | Self::Dpdt | Self::DpdtCentreOff => 2,
        }
    }
}

/// How the resistance of a track grows with the turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TrackLaw {
    /// Evenly.
    Linear,
    /// Slowly first, as hearing wants it.
    Logarithmic,
}
