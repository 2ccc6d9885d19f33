//! Curves of one build on a grid of frequencies.

use crate::sound::Limit;

/// Curves of one build.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Traces {
    /// Level of one side at 1 m for 2.83 V where it stands, in dB.
    pub response: Vec<f64>,
    /// Impedance on one channel, magnitude in Ω.
    pub impedance: Vec<f64>,
    /// Impedance on one channel, phase in degrees.
    pub phase: Vec<f64>,
    /// Peak cone travel at the clip point in m.
    pub travel: Vec<f64>,
    /// Peak travel of the passive radiator at the clip point in m.
    pub radiator_travel: Vec<f64>,
    /// Peak air speed in the vent at the clip point in m/s.
    pub vent_speed: Vec<f64>,
    /// Greatest level of a sine at the brief's distance in dB, both sides.
    pub max_level: Vec<f64>,
    /// What limits it.
    pub max_limit: Vec<Limit>,
    /// Group delay of the box in s.
    pub group_delay: Vec<f64>,
    /// Output current of one channel at the clip point in A rms.
    pub current: Vec<f64>,
}
