//! What one build does: the same calculation for the nominal build and for drawn ones.

mod bench;
mod traces;

pub(crate) use bench::{Bench, Studied};
pub use traces::Traces;

use crate::sound::Limit;

/// The headline numbers of one build.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outcome {
    /// Frequency at which the box's roll-off has lost 6 dB, in Hz.
    pub low: f64,
    /// Frequency at which it has lost 3 dB, in Hz.
    pub low_3db: f64,
    /// Where the bass stands highest above the mid-band, in Hz.
    pub hump_at: f64,
    /// By how much, in dB.
    pub hump: f64,
    /// Highest long-term level at the brief's distance in dB, unweighted.
    pub loud: f64,
    /// The same, A-weighted.
    pub loud_a: f64,
    /// What limits it.
    pub limit: Limit,
    /// Programme voltage at that level, V rms.
    pub loudest_volts: f64,
    /// Programme voltage at the brief's loudness, V rms; that of the loudest where it is not reached.
    pub brief_volts: f64,
    /// Level lost to hot coils at the loudest, in dB.
    pub hot_loss: f64,
    /// Playing time at the brief's loudness in s.
    pub runtime: f64,
    /// Playing time with programme whose peaks clip, in s.
    pub runtime_clip: f64,
    /// Playing time with a sine at the clip point, in s.
    pub runtime_sine: f64,
    /// Weight in kg.
    pub weight: f64,
    /// Still to be spent.
    pub cost: f64,
    /// Resonance of driver and closed box in Hz.
    pub closed: f64,
    /// Total Q there.
    pub closed_q: f64,
    /// Tuning of vent or radiator in Hz; NaN for a sealed box.
    pub tuning: f64,
    /// Resonance of the passive radiator itself in Hz; NaN where there is none.
    pub radiator_resonance: f64,
    /// Net volume in m³.
    pub net: f64,
    /// Level of one driver group's side at 1 m for 2.83 V into half space, mid-band, in dB.
    pub sensitivity: f64,
    /// Clean power of one channel in W on a full battery.
    pub clean_full: f64,
    /// The same on a half-empty one.
    pub clean_mid: f64,
    /// The same on an empty one.
    pub clean_empty: f64,
    /// Power drawn at the brief's loudness in W.
    pub draw_brief: f64,
    /// Power drawn with nothing playing in W.
    pub draw_idle: f64,
    /// Peak current drawn from the battery at full output in A.
    pub peak_current: f64,
    /// Output over input power with a sine at the clip point, amplifier alone.
    pub efficiency: f64,
    /// The same at the brief's loudness, idle counted.
    pub efficiency_brief: f64,
    /// Time from empty to full on the charger, in s; NaN where its current is not stated.
    pub charge_time: f64,
    /// Least impedance on one channel between 20 Hz and 20 kHz, in Ω.
    pub least_impedance: f64,
    /// Greatest air speed in the vent at the brief's loudness, peak, in m/s; NaN without a vent.
    pub vent_speed: f64,
    /// Greatest share of its travel any cone uses at the brief's loudness.
    pub travel_share: f64,
    /// Share of its travel the passive radiator uses at the brief's loudness; NaN without one.
    pub radiator_share: f64,
}
