//! What the signal study gives, nominal.

use serde::Serialize;

/// The signal's way from each source to the drivers.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Signal {
    /// Every source with the levels on its way.
    pub sources: Vec<SourcePath>,
    /// The volume control, where one is named with its resistance.
    pub volume: Option<Bend>,
    /// Capacitors in series with the signal.
    pub coupled: Vec<Coupled>,
    /// The filter of a switching output.
    pub filter: Option<Filtered>,
}

/// One source and the levels on its way.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SourcePath {
    /// What it is.
    pub name: String,
    /// Whether its level is stated; otherwise the usual one.
    pub level_known: bool,
    /// Loss in dB between source and board with the volume fully up.
    pub loss: f64,
    /// Whether that loss is the one the design states; otherwise computed from the parts named.
    pub loss_stated: bool,
    /// Stages in order.
    pub stages: Vec<Stage>,
    /// Turn of the control, 0 to 1, that plays the brief; `None` where it is not reached
    /// or no control is named.
    pub brief_turn: Option<f64>,
    /// Turn from which the loudest passages clip; `None` where they never do.
    pub clip_turn: Option<f64>,
    /// What two such sources do to one another through the resistors of the sum, in dB.
    pub crosstalk: Option<f64>,
}

impl SourcePath {
    /// V rms at the input of the board with the volume fully up.
    #[must_use]
    pub fn input(&self) -> f64 {
        // The amplifier's output comes last, its input before it.
        let at = self.stages.len().checked_sub(2);
        at.map_or(0.0, |at| self.stages[at].full)
    }
}

/// The level after one stage, as sines with the peaks of what plays.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stage {
    /// After what.
    pub name: &'static str,
    /// V rms with the source at its highest and the volume fully up.
    pub full: f64,
    /// V rms at the brief's loudness, its loudest passages; `None` where not known.
    pub brief: Option<f64>,
    /// V rms at which the stage clips, on a half-empty battery; `None` where it cannot.
    pub limit: Option<f64>,
}

/// How the board bends the law of the volume control.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Bend {
    /// The part.
    pub name: String,
    /// Resistance of its track in Ω.
    pub resistance: f64,
    /// Whether its track is linear.
    pub linear: bool,
    /// What it works into, in Ω.
    pub load: f64,
    /// Level in dB that the load takes away with half the resistance below the wiper.
    pub at_half: f64,
    /// Turns, 0 to 1.
    pub turns: Vec<f64>,
    /// Level in dB at these turns without a load.
    pub bare: Vec<f64>,
    /// The same with it.
    pub loaded: Vec<f64>,
}

/// A capacitor in series with the signal.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Coupled {
    /// Stable name: "input" or "output".
    pub id: &'static str,
    /// In words.
    pub name: &'static str,
    /// In F.
    pub capacitance: f64,
    /// Frequency in Hz where it takes 3 dB, into a resistor.
    pub corner: f64,
    /// What it takes in dB at most from the brief's lowest tone to two octaves above, into
    /// what is really there.
    pub loss: f64,
    /// Where it does, in Hz.
    pub lowest: f64,
}

/// The filter of a switching output into the computed impedance.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Filtered {
    /// Frequencies in Hz.
    pub hertz: Vec<f64>,
    /// Gain in dB into the drivers as computed.
    pub gain: Vec<f64>,
    /// The same into a resistor of the drivers' rated impedance.
    pub rated: Vec<f64>,
    /// The same as `gain` with the values of `damped`, empty where there are none.
    pub damped_gain: Vec<f64>,
    /// Largest gain in dB, and where in Hz.
    pub peak: (f64, f64),
    /// Largest gain in dB up to 20 kHz.
    pub audible: f64,
    /// Whether the design damps it already.
    pub damped_now: bool,
    /// Values to buy that hold the peak, where any do and it is not damped yet.
    pub damped: Option<Damped>,
}

/// Resistor and capacitor across each output.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Damped {
    /// The resistor in Ω.
    pub resistance: f64,
    /// The capacitor in F.
    pub capacitance: f64,
    /// Largest gain left in dB.
    pub peak: f64,
    /// Heat in the resistor in W with a full sine of 20 kHz, which no music asks for.
    pub heat: f64,
}
