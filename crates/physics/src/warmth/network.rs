//! Bodies, each at one temperature, and what carries heat between them.

use super::carry::Path;

/// Step in K over which flows are differentiated.
const NUDGE: f64 = 1e-4;

/// A body at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Node {
    /// Heat capacity in J/K; may be zero.
    pub capacity: f64,
    /// Heat put into it in W.
    pub heat: f64,
    /// The temperature in °C it is held at, as the air outdoors is.
    pub held: Option<f64>,
}

impl Node {
    /// A body of so many J/K, given so many W.
    #[must_use]
    pub const fn free(capacity: f64, heat: f64) -> Self {
        Self {
            capacity,
            heat,
            held: None,
        }
    }

    /// What keeps its temperature in °C whatever happens.
    #[must_use]
    pub const fn held(celsius: f64) -> Self {
        Self {
            capacity: 0.0,
            heat: 0.0,
            held: Some(celsius),
        }
    }
}

/// Two bodies and a way for heat between them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Link {
    /// One body; where air meets a plate, the plate.
    pub from: usize,
    /// The other.
    pub to: usize,
    /// The way.
    pub path: Path,
}

/// Bodies with what carries heat between them, in air under one pressure.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Network {
    /// Pressure of the air in Pa.
    pub pressure: f64,
    /// The bodies.
    pub nodes: Vec<Node>,
    /// The ways.
    pub links: Vec<Link>,
}

impl Network {
    /// None yet, in air under so many Pa.
    #[must_use]
    pub const fn new(pressure: f64) -> Self {
        Self {
            pressure,
            nodes: Vec::new(),
            links: Vec::new(),
        }
    }

    /// Adds a body and says its number.
    pub fn add(&mut self, node: Node) -> usize {
        self.nodes.push(node);
        self.nodes.len() - 1
    }

    /// Adds a way for heat.
    pub fn join(&mut self, from: usize, to: usize, path: Path) {
        self.links.push(Link { from, to, path });
    }

    /// Net heat in W into each body at these temperatures in °C, its own
    /// source included.
    #[must_use]
    pub fn balance(&self, celsius: &[f64]) -> Vec<f64> {
        let mut net: Vec<f64> = self.nodes.iter().map(|node| node.heat).collect();
        for link in &self.links {
            let flow = link
                .path
                .flow(celsius[link.from], celsius[link.to], self.pressure);
            net[link.from] -= flow;
            net[link.to] += flow;
        }
        net
    }

    /// The derivative of [`Self::balance`], row by row, rows and columns of
    /// held bodies left empty.
    pub(super) fn slope(&self, celsius: &[f64]) -> Vec<f64> {
        let size = self.nodes.len();
        let mut cells = vec![0.0; size * size];
        let mut add = |row: usize, column: usize, by: f64| {
            let free = |index: usize| self.nodes[index].held.is_none();
            if free(row) && free(column) {
                cells[row * size + column] += by;
            }
        };
        for link in &self.links {
            let (a, b) = (celsius[link.from], celsius[link.to]);
            let flow = |a: f64, b: f64| link.path.flow(a, b, self.pressure);
            let by_from = (flow(a + NUDGE, b) - flow(a - NUDGE, b)) / (2.0 * NUDGE);
            let by_to = (flow(a, b + NUDGE) - flow(a, b - NUDGE)) / (2.0 * NUDGE);
            add(link.from, link.from, -by_from);
            add(link.from, link.to, -by_to);
            add(link.to, link.from, by_from);
            add(link.to, link.to, by_to);
        }
        cells
    }

    /// Temperatures in °C to start from: held bodies at theirs, all others at
    /// one temperature.
    #[must_use]
    pub fn all_at(&self, celsius: f64) -> Vec<f64> {
        let of = |node: &Node| node.held.unwrap_or(celsius);
        self.nodes.iter().map(of).collect()
    }
}
