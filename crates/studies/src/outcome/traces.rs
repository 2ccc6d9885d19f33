//! Curves of one build on a grid of frequencies.

use crate::sound::Limit;

/// Curves of one build.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Traces {
    /// Level of one side at 1 m for 2.83 V where it stands, in dB.
    pub(crate) response: Vec<f64>,
    /// Impedance on one channel, magnitude in Ω.
    pub(crate) impedance: Vec<f64>,
    /// Impedance on one channel, phase in degrees.
    pub(crate) phase: Vec<f64>,
    /// Peak cone travel at the clip point in m.
    pub(crate) travel: Vec<f64>,
    /// Peak travel of the passive radiator at the clip point in m.
    pub(crate) radiator_travel: Vec<f64>,
    /// Peak air speed in the vent at the clip point in m/s.
    pub(crate) vent_speed: Vec<f64>,
    /// Greatest level of a sine at the brief's distance in dB, both sides.
    pub(crate) max_level: Vec<f64>,
    /// What limits it.
    pub(crate) max_limit: Vec<Limit>,
    /// Group delay of the box in s.
    pub(crate) group_delay: Vec<f64>,
    /// Output current of one channel at the clip point in A rms.
    pub(crate) current: Vec<f64>,
}
