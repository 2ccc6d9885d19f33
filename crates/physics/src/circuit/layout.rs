//! Which unknown stands where, and which element writes into which place of
//! the matrix.

use super::element::Value;
use super::network::{Circuit, Element, ElementId, GROUND, Node};

/// What an element adds to one place of the matrix: one of its parts, or its
/// negative. Part 0 is unity, the others are the element's own numbers.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stamp {
    pub(super) slot: usize,
    pub(super) part: usize,
    pub(super) sign: f64,
}

/// The structure of the equations of a circuit: one row for each node but
/// ground (currents leaving it sum to zero) and one for each unknown current.
#[derive(Clone, Debug)]
pub(super) struct Layout {
    /// Number of equations and of unknowns.
    pub(super) size: usize,
    /// Row and column of each slot; column `size` is the right-hand side.
    pub(super) places: Vec<(usize, usize)>,
    /// The stamps of each element.
    pub(super) stamps: Vec<Vec<Stamp>>,
    /// Unknown current of each element, where it has one.
    currents: Vec<Option<usize>>,
}

impl Layout {
    pub(super) fn new(circuit: &Circuit) -> Self {
        let mut size = circuit.node_count() - 1;
        let currents: Vec<_> = circuit
            .elements()
            .iter()
            .map(|element| {
                element.value.has_current().then(|| {
                    size += 1;
                    size - 1
                })
            })
            .collect();
        let mut writer = Writer {
            size,
            places: Vec::new(),
            stamps: Vec::new(),
        };
        let stamps = circuit
            .elements()
            .iter()
            .zip(&currents)
            .map(|(element, current)| writer.element(element, *current))
            .collect();
        Self {
            size,
            places: writer.places,
            stamps,
            currents,
        }
    }

    /// Where the potential of a node stands among the unknowns; `size` for
    /// ground, where the solver keeps a zero.
    pub(super) fn potential(&self, node: Node) -> usize {
        potential(node, self.size)
    }

    /// Where the current of an element stands among the unknowns.
    pub(super) fn current(&self, id: ElementId) -> Option<usize> {
        self.currents[id.0]
    }
}

fn potential(node: Node, size: usize) -> usize {
    if node == GROUND { size } else { node.0 - 1 }
}

struct Writer {
    size: usize,
    places: Vec<(usize, usize)>,
    stamps: Vec<Stamp>,
}

impl Writer {
    fn element(&mut self, element: &Element, current: Option<usize>) -> Vec<Stamp> {
        let [a, b] = element.first;
        match element.value {
            Value::Impedance(_) | Value::OnePort(_) => {
                let row = current.unwrap_or_default();
                self.flow([a, b], row, 0, 1.0);
                self.drop(row, [a, b], 0, 1.0);
                self.stamp(row, row, 1, -1.0);
            }
            Value::Admittance(_) => self.transfer([a, b], [a, b], 1, 1.0),
            Value::TwoPort(_) => {
                let ports = [element.first, element.second];
                for (into, from, part) in [(0, 0, 1), (0, 1, 2), (1, 0, 2), (1, 1, 3)] {
                    self.transfer(ports[into], ports[from], part, 1.0);
                }
            }
            Value::Gyrator(_) => {
                self.transfer(element.first, element.second, 1, 1.0);
                self.transfer(element.second, element.first, 1, -1.0);
            }
            Value::Transformer(_) => {
                let row = current.unwrap_or_default();
                self.flow(element.first, row, 0, 1.0);
                self.flow(element.second, row, 1, -1.0);
                self.drop(row, element.first, 0, 1.0);
                self.drop(row, element.second, 1, -1.0);
            }
            Value::VoltageSource(_) => {
                let row = current.unwrap_or_default();
                self.flow([a, b], row, 0, 1.0);
                self.drop(row, [a, b], 0, 1.0);
                self.source(row, 1, 1.0);
            }
            Value::CurrentSource(_) => {
                self.source(potential(a, self.size), 1, -1.0);
                self.source(potential(b, self.size), 1, 1.0);
            }
        }
        core::mem::take(&mut self.stamps)
    }

    /// An unknown current leaves one node and enters the other.
    fn flow(&mut self, [a, b]: [Node; 2], current: usize, part: usize, sign: f64) {
        self.stamp(potential(a, self.size), current, part, sign);
        self.stamp(potential(b, self.size), current, part, -sign);
    }

    /// A difference of potential in the equation of an unknown current.
    fn drop(&mut self, row: usize, [a, b]: [Node; 2], part: usize, sign: f64) {
        self.stamp(row, potential(a, self.size), part, sign);
        self.stamp(row, potential(b, self.size), part, -sign);
    }

    /// A current through one pair of nodes caused by the potential between another.
    fn transfer(&mut self, into: [Node; 2], from: [Node; 2], part: usize, sign: f64) {
        for (row, row_sign) in [(into[0], sign), (into[1], -sign)] {
            self.drop(potential(row, self.size), from, part, row_sign);
        }
    }

    /// A place in the matrix proper; nothing at ground.
    fn stamp(&mut self, row: usize, column: usize, part: usize, sign: f64) {
        if column < self.size {
            self.write(row, column, part, sign);
        }
    }

    fn source(&mut self, row: usize, part: usize, sign: f64) {
        self.write(row, self.size, part, sign);
    }

    fn write(&mut self, row: usize, column: usize, part: usize, sign: f64) {
        if row == self.size {
            return;
        }
        let place = (row, column);
        let slot = self
            .places
            .iter()
            .position(|other| *other == place)
            .unwrap_or_else(|| {
                self.places.push(place);
                self.places.len() - 1
            });
        self.stamps.push(Stamp { slot, part, sign });
    }
}
