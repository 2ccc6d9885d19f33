//! What the box must do, and where it is played.

use crate::{Choice, Size, Value};

/// What the box must do. A wish that is absent is not held against the design.
#[derive(Clone, Debug, PartialEq)]
pub struct Brief {
    /// Kind of programme.
    pub programme: Choice<Programme>,
    /// Distance of the listeners in m.
    pub distance: Value,
    /// Long-term level wanted there, in dB re 20 µPa.
    pub loudness: Option<Loudness>,
    /// Lowest frequency wanted at −6 dB, in Hz.
    pub lowest: Option<Value>,
    /// Hours of playing wanted, in s.
    pub runtime: Option<Value>,
    /// Largest outside size, width × height × depth, in m.
    pub largest: Option<Size>,
    /// Greatest weight, in kg.
    pub weight: Option<Value>,
    /// Greatest cost, in the currency of [`Brief::currency`].
    pub cost: Option<Value>,
    /// The currency costs are counted in, as a three-letter code ("EUR").
    pub currency: String,
}

/// A wanted level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loudness {
    /// The level in dB.
    pub level: Value,
    /// Whether it is A-weighted ("88 dB(A)") or not ("88 dB").
    pub a_weighted: bool,
}

/// Kind of programme played.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Programme {
    /// Music as recorded.
    Music,
    /// Speech.
    Speech,
    /// Music squeezed by a limiter.
    SquashedMusic,
}

/// Where the box stands when played, and in which air.
#[derive(Clone, Debug, PartialEq)]
pub struct PlayPlace {
    /// What is near it.
    pub stands: Choice<Stands>,
    /// Air temperature in °C (20 unless stated).
    pub temperature: Option<Value>,
    /// Relative humidity, 0 to 1.
    pub humidity: Option<Value>,
    /// Height above sea level in m.
    pub altitude: Option<Value>,
    /// Volume of the room in m³ (indoors).
    pub room: Option<Value>,
    /// Reverberation time of the room in s (indoors).
    pub reverberation: Option<Value>,
    /// Height of the listeners' ears above the ground in m.
    pub ears: Option<Value>,
    /// Air temperature of the hottest day it is to play on, in °C.
    pub hottest: Option<Value>,
    /// Whether the sun shines on it.
    pub sun: Choice<bool>,
}

/// What is near the box when it plays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    /// Nothing near: a post, a rope.
    Free,
    /// On the ground out of doors.
    Ground,
    /// On the ground with its back against a wall, out of doors.
    Wall,
    /// In a room.
    Indoors,
}
