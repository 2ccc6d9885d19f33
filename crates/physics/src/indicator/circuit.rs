//! The circuit and its thresholds.

use super::{Arm, Capacitor, Comparator, Light, Reference, Resistor, State, node_voltage};
use crate::math::{ln, omega};

/// A low-battery indicator: its parts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Indicator {
    /// From the battery to the input.
    pub top: Arm,
    /// From the input to ground.
    pub bottom: Arm,
    /// From the output to the input; `None` without hysteresis.
    pub feedback: Option<Resistor>,
    /// Feeds the reference.
    pub feed: Resistor,
    /// The reference.
    pub reference: Reference,
    /// The comparator.
    pub comparator: Comparator,
    /// The lamp.
    pub light: Light,
    /// Pulls up an output that only pulls low.
    pub pull_up: Option<Resistor>,
    /// From the divider to the input, where the capacitor is to be small; `None`
    /// where they are one.
    pub slow: Option<Resistor>,
    /// From the input to ground; `None` without delay.
    pub delay: Option<Capacitor>,
    /// From the output to the input, in F: lets the hysteresis act at once, where the
    /// capacitor to ground alone would let it creep in and the lamp flicker
    /// with what ripple the reference passes. `None` without.
    pub speed_up: Option<f64>,
}

/// Battery voltages in V at which the lamp changes, when they are passed slowly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thresholds {
    /// It lights when the voltage falls below.
    pub falling: f64,
    /// It goes out when the voltage rises above.
    pub rising: f64,
}

impl Thresholds {
    /// How far the voltage must rise before the lamp goes out again, in V.
    #[must_use]
    pub fn hysteresis(&self) -> f64 {
        self.rising - self.falling
    }
}

/// What may be off in one example of a circuit.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Stray {
    /// Between the inputs, in V.
    pub(super) offset: f64,
    /// Drawn from the divider by input and capacitor, in A.
    pub(super) drawn: f64,
}

impl Indicator {
    /// Conductances of `top`, of the path from `rail` to the input through the
    /// feedback while the output is high, and of `bottom`, in S.
    pub(super) fn dark_conductances(&self) -> (f64, f64, f64) {
        let pull_up = self.pull_up.map_or(0.0, |one| one.ohms);
        let back = self.feedback.map_or(0.0, |one| 1.0 / (one.ohms + pull_up));
        (1.0 / self.top.ohms(), back, 1.0 / self.bottom.ohms())
    }

    /// How far below the battery the output stands when high, in V.
    pub(super) fn high_loss(&self) -> f64 {
        self.comparator.output_high.unwrap_or(0.0)
    }

    /// Both thresholds.
    #[must_use]
    pub fn thresholds(&self) -> Thresholds {
        self.strayed(Stray::default())
    }

    pub(super) fn strayed(&self, stray: Stray) -> Thresholds {
        Thresholds {
            falling: self.falling(stray),
            rising: self.rising(stray),
        }
    }

    /// Solves U·(g₁ + g_h) − loss·g_h − I = (V_ref(U) + offset)·(g₁ + g_h + g₂).
    fn falling(&self, stray: Stray) -> f64 {
        let (top, back, bottom) = self.dark_conductances();
        let (fixed, rise) = self.reference.line(self.feed.ohms);
        let sum = top + back + bottom;
        let input = fixed + stray.offset + stray.drawn * self.slow_ohms();
        let needed = input * sum + self.high_loss() * back + stray.drawn;
        needed / (top + back - rise * sum)
    }

    /// The same with the output low, where its voltage is that of the sink's
    /// resistance under the currents of lamp, pull-up and feedback.
    fn rising(&self, stray: Stray) -> f64 {
        let (top, bottom) = (1.0 / self.top.ohms(), 1.0 / self.bottom.ohms());
        let back = self.feedback.map_or(0.0, Resistor::siemens);
        let (fixed, rise) = self.reference.line(self.feed.ohms);
        let input = fixed + stray.offset + stray.drawn * self.slow_ohms();
        let output = self.low_output();
        let sum = top + back + bottom - back * output.from_input;
        let needed = input * sum - back * output.fixed + stray.drawn;
        needed / (top + back * output.from_supply - rise * sum)
    }

    /// The output when low.
    fn low_output(&self) -> LowOutput {
        let lamp = 1.0 / self.light.series;
        let pull_up = self.pull_up.map_or(0.0, Resistor::siemens);
        let back = self.feedback.map_or(0.0, Resistor::siemens);
        let sum = 1.0 / self.comparator.sink + lamp + pull_up + back;
        LowOutput {
            fixed: -self.light.forward * lamp / sum,
            from_supply: (lamp + pull_up) / sum,
            from_input: back / sum,
        }
    }

    /// Voltage at the divider in V on a steady supply.
    #[must_use]
    pub fn input_at(&self, supply: f64, state: State) -> f64 {
        let divider = [(supply, self.top.ohms()), (0.0, self.bottom.ohms())];
        let Some(back) = self.feedback else {
            return node_voltage(&divider, 0.0);
        };
        let (source, ohms) = match state {
            State::Dark => {
                let pull_up = self.pull_up.map_or(0.0, |one| one.ohms);
                (supply - self.high_loss(), back.ohms + pull_up)
            }
            State::Lit => {
                // What the output follows of the input shortens the path between them.
                let output = self.low_output();
                let apart = 1.0 - output.from_input;
                (output.at(supply, 0.0) / apart, back.ohms / apart)
            }
        };
        node_voltage(&[divider[0], divider[1], (source, ohms)], 0.0)
    }

    /// Voltage at the output in V on a steady supply.
    #[must_use]
    pub fn output_at(&self, supply: f64, state: State) -> f64 {
        match state {
            State::Lit => self.low_output().at(supply, self.input_at(supply, state)),
            State::Dark => match (self.pull_up, self.feedback) {
                (Some(pull_up), Some(back)) => {
                    let input = self.input_at(supply, state);
                    node_voltage(&[(supply, pull_up.ohms), (input, back.ohms)], 0.0)
                }
                _ => supply - self.high_loss(),
            },
        }
    }

    /// What lies between divider and input, in Ω.
    fn slow_ohms(&self) -> f64 {
        self.slow.map_or(0.0, |one| one.ohms)
    }

    /// Resistance of the divider while the lamp is dark, in Ω.
    #[must_use]
    pub fn source_resistance(&self) -> f64 {
        let (top, back, bottom) = self.dark_conductances();
        1.0 / (top + back + bottom)
    }

    /// The value of `speed_up` in F with which the hysteresis is all there at
    /// once and stays: both dividers, of resistors and of capacitors, alike.
    #[must_use]
    pub fn wanted_speed_up(&self) -> Option<f64> {
        let (above, back, below) = self.dark_conductances();
        let capacitor = self.delay?;
        (back > 0.0).then(|| capacitor.farads * back / (above + below))
    }

    /// Time constant of capacitors and divider in s; 0 without a capacitor.
    #[must_use]
    pub fn time_constant(&self) -> f64 {
        let speed_up = self.speed_up.unwrap_or(0.0);
        self.delay.map_or(0.0, |capacitor| {
            (capacitor.farads + speed_up) * (self.source_resistance() + self.slow_ohms())
        })
    }

    /// Shares of a change of the battery that reach the input: slowly, and at
    /// once through `speed_up`.
    fn followed(&self) -> (f64, f64) {
        let (above, back, below) = self.dark_conductances();
        let at_once = match (self.delay, self.speed_up) {
            (Some(capacitor), Some(speed_up)) => speed_up / (speed_up + capacitor.farads),
            _ => 0.0,
        };
        ((above + back) / (above + back + below), at_once)
    }

    /// Share of a fast ripple of the battery that is left at the inputs, as if
    /// it were a slow change: what the reference follows and what `speed_up`
    /// lets past, and what the capacitor leaves of a ripple of so many Hz.
    #[must_use]
    pub fn ripple_left(&self, hertz: f64) -> f64 {
        let (slow, at_once) = self.followed();
        let rise = self.reference.line(self.feed.ohms).1;
        let filtered = 1.0 / (omega(hertz) * self.time_constant()).max(1.0);
        ((slow - at_once) * filtered + (at_once - rise).abs()) / (slow - rise)
    }

    /// Seconds from a sudden fall of the battery to the lamp, when the fall ends
    /// as far below the threshold as it began above.
    #[must_use]
    pub fn delay_seconds(&self) -> f64 {
        self.delay_for(2.0)
    }

    /// The same for a fall from `from` V to `to` V; `None` where it does not
    /// reach below the threshold or begins there.
    #[must_use]
    pub fn delay_between(&self, from: f64, to: f64) -> Option<f64> {
        let trip = self.thresholds().falling;
        (from > trip && to < trip).then(|| self.delay_for((from - to) / (trip - to)))
    }

    /// τ·ln(r·(a − c)/(a − b)) for a fall that is r times its part below the
    /// threshold: the input follows a share a slowly and c at once, the
    /// reference b at once.
    fn delay_for(&self, ratio: f64) -> f64 {
        let (slow, at_once) = self.followed();
        let rise = self.reference.line(self.feed.ohms).1;
        (self.time_constant() * ln(ratio * (slow - at_once) / (slow - rise))).max(0.0)
    }
}

/// The output when low, in V: `fixed` + `from_supply`·supply + `from_input`·input.
#[derive(Clone, Copy, Debug, PartialEq)]
struct LowOutput {
    fixed: f64,
    from_supply: f64,
    from_input: f64,
}

impl LowOutput {
    fn at(&self, supply: f64, input: f64) -> f64 {
        self.fixed + self.from_supply * supply + self.from_input * input
    }
}
