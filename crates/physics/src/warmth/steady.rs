//! Where a network comes to rest.

use super::linear::Factors;
use super::network::Network;

/// Heat in W left over that counts as none.
const LEFT: f64 = 1e-9;
const ROUNDS: usize = 60;
/// Longest step of one round in K: keeps far starts within the laws' range.
const STRIDE: f64 = 80.0;

impl Network {
    /// Temperatures in °C of all bodies once nothing changes any more, by
    /// Newton's method; `None` where some body has no way to a held one, or
    /// heat finds no balance within the laws' range.
    #[must_use]
    pub fn steady(&self) -> Option<Vec<f64>> {
        let held: Vec<f64> = self.nodes.iter().filter_map(|node| node.held).collect();
        let mean = held.iter().sum::<f64>() / held.len() as f64;
        // The slope of a plate's flow vanishes with the difference; start apart.
        self.steady_from(&self.all_at(mean + 5.0))
    }

    /// The same from temperatures that are near it already.
    #[must_use]
    pub fn steady_from(&self, start: &[f64]) -> Option<Vec<f64>> {
        let mut celsius = start.to_vec();
        for _ in 0..ROUNDS {
            let net = self.free_balance(&celsius);
            if net.iter().all(|left| left.abs() < LEFT) {
                return Some(celsius);
            }
            let step = self.newton(&celsius, &net)?;
            let longest = step.iter().fold(0.0_f64, |most, by| most.max(by.abs()));
            let scale = (STRIDE / longest).min(1.0);
            for (value, by) in celsius.iter_mut().zip(&step) {
                *value += scale * by;
            }
            if longest < 1e-10 {
                return Some(celsius);
            }
        }
        None
    }

    /// The balance with held bodies taken out.
    fn free_balance(&self, celsius: &[f64]) -> Vec<f64> {
        let mut net = self.balance(celsius);
        for (value, node) in net.iter_mut().zip(&self.nodes) {
            if node.held.is_some() {
                *value = 0.0;
            }
        }
        net
    }

    fn newton(&self, celsius: &[f64], net: &[f64]) -> Option<Vec<f64>> {
        let size = self.nodes.len();
        let mut cells = self.slope(celsius);
        for cell in &mut cells {
            *cell = -*cell;
        }
        for (i, node) in self.nodes.iter().enumerate() {
            if node.held.is_some() {
                cells[i * size + i] = 1.0;
            }
        }
        Some(Factors::of(size, cells)?.solve(net))
    }
}
