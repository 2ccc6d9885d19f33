//! What makes one place for a part better than another. A score is a length: what a wish costs
//! is said in metres of cable.

use super::field::Field;
use crate::vector::{Vector, length, sub};

/// Cost of standing one metre higher: a heavy part as high as the box is wide makes it tip twice
/// as easily (common practice, no source: batteries stand low).
const LOW: f64 = 3.0;
/// Cost of standing one metre off the middle (common practice, no source: so the box hangs
/// level).
const CENTRAL: f64 = 1.0;
/// Cost of one metre less distance than wished: it outweighs any cable.
const AWAY: f64 = 50.0;
/// Distance of an amplifier from the battery in m (common practice, no source): heat ages cells.
const FROM_BATTERY: f64 = 0.020;

/// What a wish is about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Target {
    /// A point in the box in m.
    Point(Vector),
    /// A fixed part, by index.
    Fixed(usize),
    /// Another loose part, by index; it counts once it has a place.
    Loose(usize),
}

/// What makes one place better than another.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Wishes {
    /// Cost of a metre of height of its middle above the floor.
    pub low: f64,
    /// Cost of a metre from the middle of the room, across and in depth.
    pub central: f64,
    /// Keep so far away in m.
    pub away: Vec<(Target, f64)>,
    /// Cost of a metre of cable to there; cables run along walls, so that the three axes add up.
    pub near: Vec<(Target, f64)>,
    /// A place from which it can be carried out again goes before a better one.
    pub comes_out: bool,
}

impl Wishes {
    /// Of a battery: low, central, and to be taken out again.
    #[must_use]
    pub fn battery() -> Self {
        Self {
            low: LOW,
            central: CENTRAL,
            comes_out: true,
            ..Self::default()
        }
    }

    /// Of an amplifier board: away from the battery, and short cables to the others.
    #[must_use]
    pub fn amplifier(battery: Target, cables: Vec<Target>) -> Self {
        let mut near: Vec<(Target, f64)> = cables.into_iter().map(|to| (to, 1.0)).collect();
        near.push((battery, 1.0));
        Self {
            away: vec![(battery, FROM_BATTERY)],
            near,
            comes_out: true,
            ..Self::default()
        }
    }

    /// What a place costs a part that fills the block between two corners there.
    pub(crate) fn score(&self, field: &Field, low: Vector, high: Vector) -> f64 {
        let middle = [0, 1, 2].map(|i| 0.5 * (low[i] + high[i]));
        let off = sub(middle, field.middle);
        let central = self.central * length([off[0], off[1], 0.0]);
        let height = self.low * (middle[2] - field.low[2]);
        let near = self.near.iter().filter_map(|(target, cost)| {
            let [from, to] = field.target(*target)?;
            let way = (0..3).map(|i| (0.5 * (from[i] + to[i]) - middle[i]).abs());
            Some(cost * way.sum::<f64>())
        });
        let away = self.away.iter().filter_map(|(target, wanted)| {
            let [from, to] = field.target(*target)?;
            let apart = [0, 1, 2].map(|i| (from[i] - high[i]).max(low[i] - to[i]).max(0.0));
            Some(AWAY * (wanted - length(apart)).max(0.0))
        });
        central + height + near.sum::<f64>() + away.sum::<f64>()
    }
}
