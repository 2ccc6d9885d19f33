//! A potentiometer as a level control.

/// Share of the whole resistance that a logarithmic track as sold has in the
/// middle of its turn: two straight stretches that meet there. Makers give 10
/// to 20 %. Common practice, no source.
const MIDDLE: f64 = 0.15;

/// How the resistance of a track grows with the turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Track {
    /// Evenly.
    Linear,
    /// Slowly first, then fast: two straight stretches.
    Logarithmic,
}

impl Track {
    /// Share of the resistance below the wiper at a turn, both 0 to 1.
    #[must_use]
    pub fn share(self, turn: f64) -> f64 {
        let turn = turn.clamp(0.0, 1.0);
        match self {
            Self::Linear => turn,
            Self::Logarithmic if turn <= 0.5 => 2.0 * MIDDLE * turn,
            Self::Logarithmic => MIDDLE + (1.0 - MIDDLE) * (2.0 * turn - 1.0),
        }
    }

    /// The turn at which that share stands below the wiper.
    #[must_use]
    pub fn turn(self, share: f64) -> f64 {
        let share = share.clamp(0.0, 1.0);
        match self {
            Self::Linear => share,
            Self::Logarithmic if share <= MIDDLE => share / (2.0 * MIDDLE),
            Self::Logarithmic => 0.5 + (share - MIDDLE) / (2.0 * (1.0 - MIDDLE)),
        }
    }
}

/// A level control between a source and a load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LevelControl {
    /// Resistance of the track in Ω.
    pub resistance: f64,
    /// How it grows.
    pub track: Track,
    /// Resistance of what feeds it in Ω.
    pub source: f64,
    /// Resistance it works into in Ω; may be infinite.
    pub load: f64,
}

impl LevelControl {
    /// Voltage at the load over the source's open-circuit voltage with a
    /// share of the track, 0 to 1, below the wiper.
    #[must_use]
    pub fn gain(&self, share: f64) -> f64 {
        let below = share * self.resistance;
        let shunt = below / (1.0 + below / self.load);
        let above = self.source + self.resistance - below;
        shunt / (above + shunt)
    }

    /// The same at a turn of the shaft, 0 to 1.
    #[must_use]
    pub fn gain_at_turn(&self, turn: f64) -> f64 {
        self.gain(self.track.share(turn))
    }

    /// The turn at which it passes that much; `None` where even the end passes less.
    #[must_use]
    pub fn turn_for(&self, gain: f64) -> Option<f64> {
        if gain > self.gain(1.0) {
            return None;
        }
        // The gain grows with the share throughout.
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if self.gain(middle) < gain {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(self.track.turn(high))
    }

    /// Resistance in Ω that the load sees looking back, with a share below the wiper.
    #[must_use]
    pub fn output(&self, share: f64) -> f64 {
        let below = share * self.resistance;
        let above = self.source + self.resistance - below;
        below * above / (below + above)
    }

    /// By how much the load bends the law: the gain over that of the track
    /// alone, from the same source, with half the resistance below the wiper.
    #[must_use]
    pub fn bend(&self) -> f64 {
        let alone = Self {
            load: f64::INFINITY,
            ..*self
        };
        self.gain(0.5) / alone.gain(0.5)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::db_amplitude;
    use proptest::prelude::*;

    /// A 50 kΩ control into 9 kΩ: 25 ∥ 9 kΩ under 25 kΩ, worked by hand.
    #[test]
    fn a_heavy_load_bends_the_law() {
        let control = LevelControl {
            resistance: 50e3,
            track: Track::Linear,
            source: 0.0,
            load: 9e3,
        };
        let bend = db_amplitude(control.bend());
        assert!((bend + 7.56).abs() < 0.01, "{bend}");
        let light = LevelControl {
            resistance: 1e3,
            ..control
        };
        assert!(db_amplitude(light.bend()) > -0.3);
    }

    fn control() -> impl Strategy<Value = LevelControl> {
        let track = prop_oneof![Just(Track::Linear), Just(Track::Logarithmic)];
        (1e3_f64..1e5, track, 0.0_f64..1e4, 1e3_f64..1e6).prop_map(
            |(resistance, track, source, load)| LevelControl {
                resistance,
                track,
                source,
                load,
            },
        )
    }

    proptest! {
        #[test]
        fn more_turn_is_more_level(control in control(), turn in 0.0_f64..0.99) {
            prop_assert!(control.gain_at_turn(turn + 0.01) > control.gain_at_turn(turn));
            prop_assert!(control.gain_at_turn(1.0) <= 1.0);
        }

        #[test]
        fn a_turn_is_found_again(control in control(), turn in 0.01_f64..1.0) {
            let found = control.turn_for(control.gain_at_turn(turn)).unwrap();
            prop_assert!((found - turn).abs() < 1e-9);
            prop_assert!((control.track.turn(control.track.share(turn)) - turn).abs() < 1e-12);
        }

        /// Thévenin: open-circuit gain and output resistance give the loaded gain.
        #[test]
        fn what_it_gives_is_open_gain_behind_its_output(control in control(), share in 0.01_f64..1.0) {
            let below = share * control.resistance;
            let open = below / (control.source + control.resistance);
            let loaded = open * control.load / (control.load + control.output(share));
            prop_assert!((loaded / control.gain(share) - 1.0).abs() < 1e-12);
        }
    }
}
