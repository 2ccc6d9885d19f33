//! Nets: which terminals are one piece of metal.

use crate::{End, Mode, System, Through};

/// A net, by its place in the list of a [`Nets`].
pub type Net = usize;

/// The nets of a system with its switches in one position each.
///
/// Joined are wires, closed contacts and whatever else is metal inside a part;
/// fuses, resistances and loads join nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Nets {
    offsets: Vec<usize>,
    of: Vec<Net>,
    members: Vec<Vec<End>>,
}

impl Nets {
    /// The nets in a mode, numbered by their first terminal.
    #[must_use]
    pub fn new(system: &System, mode: &Mode) -> Self {
        let offsets = system.offsets();
        let place = |end: End| offsets[end.part] + end.terminal;
        let mut forest = Forest::new(offsets[system.parts.len()]);
        for wire in &system.wires {
            forest.join(place(wire.from), place(wire.to));
        }
        for (part, own) in system.parts.iter().enumerate() {
            for inner in &own.inner {
                if inner.through == Through::Metal && inner.conducts(mode.positions[part]) {
                    let [a, b] = inner.between;
                    forest.join(offsets[part] + a, offsets[part] + b);
                }
            }
        }
        let mut number = vec![None; offsets[system.parts.len()]];
        let mut of = Vec::with_capacity(number.len());
        let mut members: Vec<Vec<End>> = Vec::new();
        for end in system.ends() {
            let root = forest.root(place(end));
            let net = *number[root].get_or_insert_with(|| {
                members.push(Vec::new());
                members.len() - 1
            });
            of.push(net);
            members[net].push(end);
        }
        Self {
            offsets,
            of,
            members,
        }
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.members.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.members.is_empty()
    }

    /// The net of a terminal.
    #[must_use]
    pub fn of(&self, end: End) -> Net {
        self.of[self.offsets[end.part] + end.terminal]
    }

    /// The terminals of a net.
    #[must_use]
    pub fn members(&self, net: Net) -> &[End] {
        &self.members[net]
    }

    /// Whether two terminals are one piece of metal.
    #[must_use]
    pub fn joined(&self, a: End, b: End) -> bool {
        self.of(a) == self.of(b)
    }
}

/// Disjoint sets with path halving.
struct Forest {
    above: Vec<usize>,
}

impl Forest {
    fn new(count: usize) -> Self {
        Self {
            above: (0..count).collect(),
        }
    }

    fn root(&mut self, mut at: usize) -> usize {
        while self.above[at] != at {
            self.above[at] = self.above[self.above[at]];
            at = self.above[at];
        }
        at
    }

    fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.root(a), self.root(b));
        self.above[a.max(b)] = a.min(b);
    }
}
