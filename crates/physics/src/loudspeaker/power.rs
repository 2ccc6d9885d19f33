//! Where the power goes.

use super::network::{Network, OutletNet};
use crate::circuit::{ElementId, Grid, Value};

/// Powers in W for 1 V rms of the common source, one value for each frequency.
#[derive(Clone, Debug, PartialEq)]
pub struct PowerBalance {
    /// Given by the ideal sources; what the amplifier itself turns into heat
    /// besides its output resistance is not part of the network.
    pub delivered: Vec<f64>,
    /// Radiated by cones, radiators and vents; 0 where masses hold the air load.
    pub radiated: Vec<f64>,
    /// Turned into heat.
    pub dissipated: Vec<f64>,
    /// Element by element with its name, sources negative.
    pub elements: Vec<(String, Vec<f64>)>,
}

impl Network {
    /// Powers at these frequencies (Hz).
    ///
    /// # Panics
    /// As [`sweep`](Self::sweep).
    pub fn powers(&mut self, frequencies: &[f64]) -> PowerBalance {
        let solution = self
            .solver
            .solve(&self.circuit, &Grid::new(frequencies))
            .expect("a loudspeaker of finite parts has one solution");
        let radiating = self.radiating();
        let nothing = vec![0.0; frequencies.len()];
        let mut balance = PowerBalance {
            delivered: nothing.clone(),
            radiated: nothing.clone(),
            dissipated: nothing,
            elements: Vec::new(),
        };
        for id in self.circuit.ids() {
            let element = self.circuit.element(id);
            let powers: Vec<f64> = (0..frequencies.len())
                .map(|index| solution.power(index, id))
                .collect();
            let (sums, sign) = if matches!(element.value, Value::VoltageSource(_)) {
                (&mut balance.delivered, -1.0)
            } else if radiating.contains(&id) {
                (&mut balance.radiated, 1.0)
            } else {
                (&mut balance.dissipated, 1.0)
            };
            for (sum, power) in sums.iter_mut().zip(&powers) {
                *sum += sign * power;
            }
            balance.elements.push((element.name.clone(), powers));
        }
        balance
    }

    /// The elements that stand for the air outside.
    fn radiating(&self) -> Vec<ElementId> {
        let cones = self
            .channels
            .iter()
            .flat_map(|channel| &channel.groups)
            .filter_map(|group| group.front);
        let outlets = self
            .chambers
            .iter()
            .flat_map(|chamber| &chamber.outlets)
            .filter_map(|outlet| match outlet {
                OutletNet::Vent { mouth, .. } => Some(*mouth),
                OutletNet::Radiator { front, .. } => *front,
            });
        cones.chain(outlets).collect()
    }
}
