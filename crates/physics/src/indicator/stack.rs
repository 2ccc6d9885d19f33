//! Tolerance stacks: how far thresholds may lie from nominal.

use super::circuit::Stray;
use super::{Arm, Indicator, Resistor, Thresholds};

/// What one cause may add to a threshold, one way, in V.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// In words.
    pub cause: &'static str,
    /// How far its limits move the falling threshold, one way, in V.
    pub falling: f64,
    /// The same for the rising threshold.
    pub rising: f64,
}

/// One threshold with its tolerances, in V.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stack {
    /// With every value nominal.
    pub nominal: f64,
    /// With every value at the limit that lowers it.
    pub least: f64,
    /// With every value at the limit that raises it.
    pub most: f64,
    /// Root of the sum of squares of what the limits bring, one way: the reach
    /// of limits that differ independently.
    pub root_square: f64,
}

impl Stack {
    /// Standard deviation when every value lies anywhere within its limits,
    /// equally likely (`gum-2008`, 4.3.7).
    #[must_use]
    pub fn deviation(&self) -> f64 {
        self.root_square / 3.0_f64.sqrt()
    }
}

/// Everything that has limits.
const CAUSES: [&str; 12] = [
    "first resistor above",
    "second resistor above",
    "first resistor below",
    "second resistor below",
    "feedback resistor",
    "feed resistor",
    "reference voltage",
    "reference with temperature",
    "slope of the reference",
    "offset",
    "input current and leakage",
    "high output",
];

/// Share by which the voltage lost by a high output may differ: common
/// practice, no source.
pub(super) const HIGH_LOSS_TOLERANCE: f64 = 0.3;

impl Indicator {
    /// The circuit with its `cause` so many limits off (−1 to 1), and what strays.
    fn off(&self, cause: usize, by: f64, stray: &mut Stray) -> Self {
        let mut circuit = *self;
        let reference = &mut circuit.reference;
        match cause {
            0 => circuit.top = shifted(circuit.top, 0, by),
            1 => circuit.top = shifted(circuit.top, 1, by),
            2 => circuit.bottom = shifted(circuit.bottom, 0, by),
            3 => circuit.bottom = shifted(circuit.bottom, 1, by),
            4 => circuit.feedback = circuit.feedback.map(|one| moved(one, by)),
            5 => circuit.feed = moved(circuit.feed, by),
            6 => reference.volts *= 1.0 + by * reference.tolerance,
            7 => reference.volts *= 1.0 + by * reference.drift,
            8 => reference.slope *= 1.0 + by * reference.slope_tolerance,
            9 => stray.offset += by * self.comparator.offset,
            10 => {
                let leakage = self.delay.map_or(0.0, |capacitor| capacitor.leakage);
                // A capacitor only ever draws.
                let drawn = self.comparator.bias + if by > 0.0 { leakage } else { 0.0 };
                stray.drawn += by * drawn;
            }
            _ => {
                let loss = &mut circuit.comparator.output_high;
                *loss = loss.map(|loss| loss * (1.0 + by * HIGH_LOSS_TOLERANCE));
            }
        }
        circuit
    }

    /// Thresholds with each cause so many limits off (−1 to 1), in the order of
    /// [`Indicator::shares`].
    #[must_use]
    pub fn thresholds_off(&self, by: &[f64]) -> Thresholds {
        let (mut circuit, mut stray) = (*self, Stray::default());
        for (cause, by) in by.iter().enumerate().take(CAUSES.len()) {
            circuit = circuit.off(cause, *by, &mut stray);
        }
        circuit.strayed(stray)
    }

    /// How many causes there are.
    #[must_use]
    pub const fn causes() -> usize {
        CAUSES.len()
    }

    /// What each cause brings, in a fixed order.
    #[must_use]
    pub fn shares(&self) -> [Share; CAUSES.len()] {
        core::array::from_fn(|cause| {
            let (low, high) = self.ends(cause);
            Share {
                cause: CAUSES[cause],
                falling: (high.falling - low.falling) / 2.0,
                rising: (high.rising - low.rising) / 2.0,
            }
        })
    }

    /// Thresholds with one cause at its lower and at its upper limit.
    fn ends(&self, cause: usize) -> (Thresholds, Thresholds) {
        let at = |by: f64| {
            let mut stray = Stray::default();
            let circuit = self.off(cause, by, &mut stray);
            circuit.strayed(stray)
        };
        (at(-1.0), at(1.0))
    }

    /// The falling threshold with its tolerances.
    #[must_use]
    pub fn falling_stack(&self) -> Stack {
        self.stack(|thresholds| thresholds.falling)
    }

    /// The rising threshold with its tolerances.
    #[must_use]
    pub fn rising_stack(&self) -> Stack {
        self.stack(|thresholds| thresholds.rising)
    }

    /// A threshold rises or falls steadily with every cause, so its ends lie at
    /// corners.
    fn stack(&self, of: impl Fn(&Thresholds) -> f64) -> Stack {
        let mut corner = [0.0; CAUSES.len()];
        let mut squares = 0.0;
        for (cause, sign) in corner.iter_mut().enumerate() {
            let (low, high) = self.ends(cause);
            let half = (of(&high) - of(&low)) / 2.0;
            *sign = if half >= 0.0 { 1.0 } else { -1.0 };
            squares += half * half;
        }
        let lowest = corner.map(|sign| -sign);
        Stack {
            nominal: of(&self.thresholds()),
            least: of(&self.thresholds_off(&lowest)),
            most: of(&self.thresholds_off(&corner)),
            root_square: squares.sqrt(),
        }
    }
}

fn moved(one: Resistor, by: f64) -> Resistor {
    Resistor {
        ohms: one.ohms * (1.0 + by * one.tolerance),
        ..one
    }
}

/// An arm of which one resistor is so many tolerances off.
fn shifted(arm: Arm, which: usize, by: f64) -> Arm {
    match (arm, which) {
        (Arm::One(one), 0) => Arm::One(moved(one, by)),
        (Arm::One(_), _) => arm,
        (Arm::Series(a, b), 0) => Arm::Series(moved(a, by), b),
        (Arm::Series(a, b), _) => Arm::Series(a, moved(b, by)),
        (Arm::Parallel(a, b), 0) => Arm::Parallel(moved(a, by), b),
        (Arm::Parallel(a, b), _) => Arm::Parallel(a, moved(b, by)),
    }
}
