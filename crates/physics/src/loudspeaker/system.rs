//! What the network is made from: plain numbers in SI units.

use crate::air::Air;

/// A whole loudspeaker: one or two amplifier channels, their drivers, and the
/// chambers these share.
///
/// Identical halves need not both be modelled: fed the same signal, two equal
/// channels in a common chamber behave as one channel in half that chamber.
#[derive(Clone, Debug, PartialEq)]
pub struct System {
    /// The air inside and around.
    pub air: Air,
    /// How the air load on cones and radiators is treated.
    pub air_load: AirLoad,
    /// Amplifier channels, each with what it drives.
    pub channels: Vec<Channel>,
    /// The chambers behind the drivers.
    pub chambers: Vec<Chamber>,
}

/// How the air's mass and radiation resistance on moving pistons is treated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AirLoad {
    /// Moving masses already hold it and nothing more is added: the classical
    /// analogous network.
    InMass,
    /// Masses are those of cone and coil alone; piston air load is added
    /// outside (a piston in the face of a box) and inside.
    Piston,
}

/// One amplifier channel and what hangs on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Channel {
    /// The source as the drivers see it.
    pub feed: Feed,
    /// Open-circuit drive relative to the common source; 1 as a rule, −1 for
    /// a channel wired in reverse.
    pub drive: f64,
    /// The drivers on this channel, all groups in parallel with one another.
    pub groups: Vec<DriverGroup>,
}

/// The electrical path between an ideal source and the drivers.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Feed {
    /// Output resistance of the amplifier, both legs of a bridge, in Ω.
    pub output_resistance: f64,
    /// The low-pass filter of a switching amplifier, where there is one.
    pub output_filter: Option<OutputFilter>,
    /// A capacitor in series with the load, in F.
    pub coupling_capacitance: Option<f64>,
    /// Resistance of the cable, both conductors, in Ω.
    pub cable_resistance: f64,
}

/// Low-pass filter between a switching output and the load, seen across the load.
///
/// A bridged stage with L in each leg and C from each leg to ground is 2·L and C/2 here.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutputFilter {
    /// Total series inductance in H.
    pub inductance: f64,
    /// Capacitance across the load in F.
    pub capacitance: f64,
}

/// Equal drivers on one channel and in one chamber.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DriverGroup {
    /// One driver of the group.
    pub driver: Driver,
    /// Drivers in series within a string.
    pub series: u32,
    /// Strings in parallel.
    pub parallel: u32,
    /// Index of the chamber behind them.
    pub chamber: usize,
}

/// An electrodynamic driver, by physical cause.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Driver {
    /// Direct-current resistance of the voice coil R<sub>E</sub> in Ω.
    pub re: f64,
    /// The coil's inductance.
    pub inductance: CoilInductance,
    /// Force factor Bl in T·m.
    pub bl: f64,
    /// Moving mass in kg: M<sub>MS</sub> with [`AirLoad::InMass`], M<sub>MD</sub> with [`AirLoad::Piston`].
    pub mass: f64,
    /// Suspension compliance C<sub>MS</sub> in m/N.
    pub compliance: f64,
    /// Mechanical resistance R<sub>MS</sub> in N·s/m.
    pub resistance: f64,
    /// Effective cone area S<sub>D</sub> in m².
    pub area: f64,
}

/// Inductance of a voice coil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CoilInductance {
    /// None.
    None,
    /// An ideal inductor, in H.
    Plain(f64),
    /// Z = K (jω)^n with n between 0.5 and 1 (`leach-2002`).
    Lossy {
        /// K in Ω·sⁿ.
        k: f64,
        /// The exponent n.
        n: f64,
    },
}

/// A chamber of the box.
#[derive(Clone, Debug, PartialEq)]
pub struct Chamber {
    /// Net volume of air in m³.
    pub volume: f64,
    /// Fibre filling.
    pub filling: Filling,
    /// Acoustic resistance of leaks in Pa·s/m³, where there are any.
    pub leak_resistance: Option<f64>,
    /// Acoustic resistance in series with the box compliance in Pa·s/m³
    /// (absorption by lining and walls beside that of the filling).
    pub absorption_resistance: f64,
    /// Vents and passive radiators.
    pub outlets: Vec<Outlet>,
}

/// Fibre filling: air in thermal contact with fibres is compressed less stiffly.
///
/// C(ω) = C₀·(1 + (γ−1)·share/(1 + jωτ)): adiabatic at high frequency, at low
/// frequency at most isothermal.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Filling {
    /// Share of the chamber's air that lies among fibres, 0 to 1.
    pub share: f64,
    /// Thermal relaxation time τ in s.
    pub relaxation: f64,
}

/// An opening of a chamber to the outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outlet {
    /// A vent.
    Vent(Vent),
    /// A passive radiator.
    Radiator(Radiator),
}

/// Equal round vents, or slots of the same area and hydraulic radius.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vent {
    /// Number of equal vents.
    pub count: u32,
    /// Open area of one vent in m².
    pub area: f64,
    /// Physical length in m.
    pub length: f64,
    /// Hydraulic radius 2·area/perimeter in m; the radius of a round vent.
    pub hydraulic_radius: f64,
    /// The end inside the box.
    pub inner: VentEnd,
    /// The end at the outside.
    pub outer: VentEnd,
    /// Multiplies the smooth-wall viscous loss; 1 for a smooth tube.
    pub roughness: f64,
}

/// How a vent ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VentEnd {
    /// A thin-walled tube in free space.
    Free,
    /// Flush with a large face.
    Flush,
    /// No end correction: for networks whose vent mass is given whole.
    None,
}

/// Equal passive radiators.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Radiator {
    /// Number of equal radiators.
    pub count: u32,
    /// Moving mass in kg, with or without air load as [`AirLoad`] says.
    pub mass: f64,
    /// Suspension compliance in m/N.
    pub compliance: f64,
    /// Mechanical resistance in N·s/m.
    pub resistance: f64,
    /// Effective area in m².
    pub area: f64,
}
