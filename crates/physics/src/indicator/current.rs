//! What an indicator draws.

use super::{Indicator, State};

/// Currents in A on a steady supply.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Currents {
    /// Through the reference.
    pub reference: f64,
    /// Through the lamp.
    pub light: f64,
    /// Into the comparator's output.
    pub sunk: f64,
    /// From the battery, all together.
    pub drawn: f64,
}

impl Indicator {
    /// What flows where on a steady supply in one state.
    #[must_use]
    pub fn currents(&self, supply: f64, state: State) -> Currents {
        let (input, output) = (self.input_at(supply, state), self.output_at(supply, state));
        let reference = self.reference.current(supply, self.feed.ohms);
        let top = (supply - input) / self.top.ohms();
        let light = match state {
            State::Lit => ((supply - self.light.forward - output) / self.light.series).max(0.0),
            State::Dark => 0.0,
        };
        let pull_up = self.pull_up.map_or(0.0, |one| (supply - output) / one.ohms);
        let back = self.feedback.map_or(0.0, |one| (input - output) / one.ohms);
        // An output that drives high takes the feedback's current from the battery.
        let driven = if self.pull_up.is_none() && state == State::Dark {
            -back
        } else {
            0.0
        };
        Currents {
            reference,
            light,
            sunk: match state {
                State::Lit => light + pull_up + back,
                State::Dark => 0.0,
            },
            drawn: self.comparator.supply_current + reference + top + light + pull_up + driven,
        }
    }

    /// Voltage in V left across lamp and resistor while the lamp should be dark.
    #[must_use]
    pub fn dark_light_voltage(&self, supply: f64) -> f64 {
        supply - self.output_at(supply, State::Dark)
    }
}
