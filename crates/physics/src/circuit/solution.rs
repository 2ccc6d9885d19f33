//! Reading potentials, currents and powers from a solved network.

use super::band::Band;
use super::element::Value;
use super::layout::Layout;
use super::network::{Circuit, ElementId, Node};
use crate::math::Complex;

/// A circuit solved at a list of frequencies.
#[derive(Clone, Debug)]
pub struct Solution {
    circuit: Circuit,
    layout: Layout,
    frequencies: Vec<f64>,
    unknowns: Vec<Vec<Complex>>,
}

impl Solution {
    pub(super) const fn new(
        circuit: Circuit,
        layout: Layout,
        frequencies: Vec<f64>,
        unknowns: Vec<Vec<Complex>>,
    ) -> Self {
        Self {
            circuit,
            layout,
            frequencies,
            unknowns,
        }
    }

    /// The frequencies in Hz.
    #[must_use]
    pub fn frequencies(&self) -> &[f64] {
        &self.frequencies
    }

    /// Potential of a node at the frequency of this index, in V rms.
    #[must_use]
    pub fn potential(&self, index: usize, node: Node) -> Complex {
        self.unknowns[index][self.layout.potential(node)]
    }

    /// Potential between two nodes, in V rms.
    #[must_use]
    pub fn across(&self, index: usize, [a, b]: [Node; 2]) -> Complex {
        self.potential(index, a) - self.potential(index, b)
    }

    /// Currents into the first terminals of both ports of an element, in A rms.
    #[must_use]
    pub fn currents(&self, index: usize, id: ElementId) -> [Complex; 2] {
        let element = self.circuit.element(id);
        let first = self.across(index, element.first);
        let second = self.across(index, element.second);
        let own = self
            .layout
            .current(id)
            .map_or(Complex::ZERO, |place| self.unknowns[index][place]);
        let band = || Band::splat(self.frequencies[index]);
        match &element.value {
            Value::Impedance(_) | Value::OnePort(_) | Value::VoltageSource(_) => {
                [own, Complex::ZERO]
            }
            Value::Transformer(ratio) => [own, -own * *ratio],
            Value::Gyrator(ratio) => [second / *ratio, -first / *ratio],
            Value::CurrentSource(amps) => [Complex::new(*amps, 0.0), Complex::ZERO],
            Value::Admittance(law) => [law.at(&band()).lane(0) * first, Complex::ZERO],
            Value::TwoPort(law) => {
                let y = law.admittance(&band()).map(|value| value.lane(0));
                [y[0] * first + y[1] * second, y[1] * first + y[2] * second]
            }
        }
    }

    /// Power taken up by an element, in W: negative for a source that feeds
    /// the network, zero for what only stores.
    #[must_use]
    pub fn power(&self, index: usize, id: ElementId) -> f64 {
        let element = self.circuit.element(id);
        let [into_first, into_second] = self.currents(index, id);
        let first = self.across(index, element.first) * into_first.conj();
        let second = self.across(index, element.second) * into_second.conj();
        first.re + second.re
    }
}
