//! The amplifier board as seen from its battery and from its load.

mod filter;

use core::f64::consts::{PI, SQRT_2};

use crate::math::amplitude_from_db;

pub use filter::LowPass;

/// One channel of a power amplifier fed from a single supply.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Amplifier {
    /// Whether the load hangs between two outputs; otherwise between one
    /// output and half the supply.
    pub bridged: bool,
    /// Class AB when true, switching (class D) when false.
    pub linear: bool,
    /// Resistance in the output path, both legs of a bridge, in Ω.
    pub on_resistance: f64,
    /// Volts lost at each rail beside the resistance, in V.
    pub rail_loss: f64,
    /// Peak output current at which it limits, in A.
    pub current_limit: f64,
    /// Supply current of this channel with no signal, in A.
    pub idle_current: f64,
    /// Loss of a switching stage that grows with current: W per A of mean
    /// |output current|, that is V.
    pub switching_loss: f64,
}

/// A steady sine into a resistance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SinePoint {
    /// Power into the load in W.
    pub output: f64,
    /// Power from the supply in W.
    pub drawn: f64,
}

impl SinePoint {
    /// Output over supply power, 0 to 1.
    #[must_use]
    pub fn efficiency(&self) -> f64 {
        self.output / self.drawn
    }
}

impl Amplifier {
    /// Highest peak of the source behind the on-resistance, in V, at a supply voltage.
    #[must_use]
    pub fn open_circuit_peak(&self, supply: f64) -> f64 {
        let half = (supply / 2.0 - self.rail_loss).max(0.0);
        if self.bridged { 2.0 * half } else { half }
    }

    /// Highest unclipped peak at a resistive load (Ω), in V: V·Z/(Z + R), or
    /// what the current limit allows.
    #[must_use]
    pub fn clip_peak(&self, supply: f64, load: f64) -> f64 {
        let divided = self.open_circuit_peak(supply) * load / (load + self.on_resistance);
        divided.min(self.current_limit * load)
    }

    /// Highest clean sine power into a resistive load (Ω), in W.
    #[must_use]
    pub fn clean_power(&self, supply: f64, load: f64) -> f64 {
        let peak = self.clip_peak(supply, load);
        peak * peak / (2.0 * load)
    }

    /// Power taken from the supply in W, from the current it gives.
    ///
    /// Switching: what goes out, the loss in the on-resistance, a loss that
    /// grows with mean |current|, and idle. Linear: the supply carries |i| all
    /// the time (bridge) or half of the time (one output against half the
    /// supply), and idle. `output_power` is that into cable and load.
    #[must_use]
    pub fn supply_power(
        &self,
        supply: f64,
        rms_output_current: f64,
        mean_abs_output_current: f64,
        output_power: f64,
    ) -> f64 {
        let idle = supply * self.idle_current;
        if self.linear {
            let share = if self.bridged { 1.0 } else { 0.5 };
            supply * share * mean_abs_output_current + idle
        } else {
            let resistive = self.on_resistance * rms_output_current * rms_output_current;
            output_power + resistive + self.switching_loss * mean_abs_output_current + idle
        }
    }

    /// A sine of a given peak (V) at a resistive load (Ω), not beyond clipping.
    #[must_use]
    pub fn sine(&self, supply: f64, load: f64, peak: f64) -> SinePoint {
        let current = peak.min(self.clip_peak(supply, load)) / load;
        let output = current * current * load / 2.0;
        let drawn = self.supply_power(supply, current / SQRT_2, 2.0 * current / PI, output);
        SinePoint { output, drawn }
    }

    /// Input in V rms of a sine that just reaches the open-circuit peak.
    #[must_use]
    pub fn input_to_clip(&self, supply: f64, gain_db: f64) -> f64 {
        self.open_circuit_peak(supply) / SQRT_2 / amplitude_from_db(gain_db)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn board(linear: bool, bridged: bool) -> Amplifier {
        Amplifier {
            bridged,
            linear,
            on_resistance: 0.3,
            rail_loss: 0.0,
            current_limit: f64::INFINITY,
            idle_current: 0.02,
            switching_loss: 0.2,
        }
    }

    /// (V·Z/(Z+R))²/2Z worked by hand: common practice, no source.
    #[test]
    fn clean_power_of_a_bridge() {
        let bridge = board(false, true);
        for (supply, load, watts) in [
            (12.0, 8.0, 8.4),
            (12.0, 4.0, 15.6),
            (10.5, 8.0, 6.4),
            (10.5, 4.0, 11.9),
        ] {
            let got = bridge.clean_power(supply, load);
            assert!((got - watts).abs() < 0.06, "{supply} V, {load} Ω: {got}");
        }
    }

    /// Input for clipping at 12 V: 849, 425, 213, 134 mV at 20, 26, 32, 36 dB.
    #[test]
    fn input_for_clipping() {
        for (gain, millivolts) in [(20.0, 849.0), (26.0, 425.0), (32.0, 213.0), (36.0, 134.5)] {
            let got = 1000.0 * board(false, true).input_to_clip(12.0, gain);
            assert!((got - millivolts).abs() < 0.6, "{gain} dB: {got}");
        }
    }

    #[test]
    fn current_limit_holds() {
        let limited = Amplifier {
            current_limit: 2.0,
            ..board(false, true)
        };
        assert_eq!(limited.clip_peak(12.0, 4.0), 8.0);
        assert_eq!(
            limited.clip_peak(12.0, 8.0),
            board(false, true).clip_peak(12.0, 8.0)
        );
    }

    /// A fact of the trade (common practice, no source): at full power into
    /// the rated load a switching board gives 90 to 95 % of what it draws,
    /// a linear one 20 to 60 % between quiet and full playing.
    #[test]
    fn switching_is_twice_as_efficient_as_linear() {
        let switching = board(false, true);
        let full = switching.sine(12.0, 8.0, f64::INFINITY).efficiency();
        assert!((0.90..=0.95).contains(&full), "{full}");
        let linear = Amplifier {
            rail_loss: 1.5,
            idle_current: 0.08,
            ..board(true, true)
        };
        let full = linear.sine(12.0, 8.0, f64::INFINITY).efficiency();
        let quiet = linear.sine(12.0, 8.0, 0.5 * 9.0).efficiency();
        assert!((0.5..=0.6).contains(&full), "{full}");
        assert!((0.2..0.3).contains(&quiet), "{quiet}");
    }

    proptest! {
        /// A single output gives a quarter of a bridge's power when resistance is nothing.
        #[test]
        fn bridge_gives_four_times(supply in 5.0_f64..40.0, load in 2.0_f64..16.0) {
            let bare = |bridged| Amplifier { on_resistance: 0.0, ..board(false, bridged) };
            let ratio = bare(true).clean_power(supply, load) / bare(false).clean_power(supply, load);
            prop_assert!((ratio - 4.0).abs() < 1e-9);
        }

        /// Never more out than in, and never less drawn than idle.
        #[test]
        fn energy_balances(
            supply in 5.0_f64..40.0,
            load in 2.0_f64..16.0,
            peak in 0.0_f64..40.0,
            linear: bool,
            bridged: bool,
        ) {
            let amplifier = board(linear, bridged);
            let point = amplifier.sine(supply, load, peak);
            let lost = amplifier.on_resistance * point.output / load;
            prop_assert!(point.drawn >= point.output + lost + supply * amplifier.idle_current - 1e-9);
        }

        /// More drive never draws less.
        #[test]
        fn draw_grows_with_level(peak in 0.1_f64..10.0, linear: bool, bridged: bool) {
            let amplifier = board(linear, bridged);
            let drawn = |p| amplifier.sine(12.0, 8.0, p).drawn;
            prop_assert!(drawn(1.1 * peak) >= drawn(peak));
        }
    }
}
