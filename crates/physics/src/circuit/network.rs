//! Nodes and elements by name.

use super::element::{Admittance, Impedance, SemiInductance, Value};

/// A node of a circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Node(pub(super) usize);

/// The node all potentials are counted from.
pub const GROUND: Node = Node(0);

/// An element of a circuit, by place in the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ElementId(pub(super) usize);

/// An element: its name, where it is connected, and what it does.
#[derive(Clone, Debug)]
pub struct Element {
    /// A name, unique in the circuit.
    pub name: String,
    /// The two terminals of the first port.
    pub first: [Node; 2],
    /// The two terminals of the second port; both ground where there is none.
    pub second: [Node; 2],
    /// Its law and numbers.
    pub value: Value,
}

/// A linear network.
#[derive(Clone, Debug)]
pub struct Circuit {
    nodes: Vec<String>,
    elements: Vec<Element>,
}

impl Default for Circuit {
    fn default() -> Self {
        Self {
            nodes: vec!["0".into()],
            elements: Vec::new(),
        }
    }
}

impl Circuit {
    /// A circuit with nothing but ground.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a node.
    pub fn node(&mut self, name: impl Into<String>) -> Node {
        self.nodes.push(name.into());
        Node(self.nodes.len() - 1)
    }

    /// Adds an element of one port.
    pub fn add(&mut self, name: impl Into<String>, port: [Node; 2], value: Value) -> ElementId {
        debug_assert!(!value.has_two_ports(), "a second port is needed");
        self.push(name.into(), port, [GROUND; 2], value)
    }

    /// Adds an element of two ports.
    pub fn add_two_port(
        &mut self,
        name: impl Into<String>,
        first: [Node; 2],
        second: [Node; 2],
        value: Value,
    ) -> ElementId {
        debug_assert!(value.has_two_ports(), "there is no second port");
        self.push(name.into(), first, second, value)
    }

    /// Adds a resistor, in Ω.
    pub fn resistor(&mut self, name: impl Into<String>, port: [Node; 2], r: f64) -> ElementId {
        self.add(name, port, Value::Impedance(Impedance::resistor(r)))
    }

    /// Adds an inductor, in H.
    pub fn inductor(&mut self, name: impl Into<String>, port: [Node; 2], l: f64) -> ElementId {
        self.add(name, port, Value::Impedance(Impedance::inductor(l)))
    }

    /// Adds a capacitor, in F.
    pub fn capacitor(&mut self, name: impl Into<String>, port: [Node; 2], c: f64) -> ElementId {
        self.add(name, port, Value::Admittance(Admittance::capacitor(c)))
    }

    /// Adds a lossy inductor Z = K(jω)ⁿ, K in Ω·sⁿ.
    pub fn semi_inductor(
        &mut self,
        name: impl Into<String>,
        port: [Node; 2],
        semi: SemiInductance,
    ) -> ElementId {
        let impedance = Impedance {
            semi,
            ..Impedance::SHORT
        };
        self.add(name, port, Value::Impedance(impedance))
    }

    /// Gives an element other numbers.
    ///
    /// # Panics
    /// When the new value is of another kind: that would be another structure.
    pub fn set(&mut self, id: ElementId, value: Value) {
        let element = &mut self.elements[id.0];
        assert!(
            element.value.same_kind(&value),
            "{} would change its kind",
            element.name
        );
        element.value = value;
    }

    /// One element.
    #[must_use]
    pub fn element(&self, id: ElementId) -> &Element {
        &self.elements[id.0]
    }

    /// All elements, in the order they were added.
    #[must_use]
    pub fn elements(&self) -> &[Element] {
        &self.elements
    }

    /// The identities of all elements.
    pub fn ids(&self) -> impl Iterator<Item = ElementId> + use<> {
        (0..self.elements.len()).map(ElementId)
    }

    /// The name of a node.
    #[must_use]
    pub fn node_name(&self, node: Node) -> &str {
        &self.nodes[node.0]
    }

    /// All nodes but ground.
    pub fn nodes(&self) -> impl Iterator<Item = Node> + use<> {
        (1..self.nodes.len()).map(Node)
    }

    /// How many nodes there are, ground included.
    #[must_use]
    pub fn node_count(&self) -> usize {
        self.nodes.len()
    }

    fn push(
        &mut self,
        name: String,
        first: [Node; 2],
        second: [Node; 2],
        value: Value,
    ) -> ElementId {
        self.elements.push(Element {
            name,
            first,
            second,
            value,
        });
        ElementId(self.elements.len() - 1)
    }
}
