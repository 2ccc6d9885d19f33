//! A system: parts, wires, and the positions its switches stand in.

use crate::{Fault, Part};

/// A terminal of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct End {
    /// The part, by its place in the list.
    pub part: usize,
    /// The terminal, by its place in the part's list.
    pub terminal: usize,
}

/// What a wire is there to carry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Carries {
    /// Supply or its return.
    Supply,
    /// The charger's current.
    Charge,
    /// A signal or what it is measured against.
    Signal,
    /// An amplifier's output.
    Output,
    /// Nothing: metal that lies on metal, such as a bare part on a plate.
    Touch,
}

/// A wire from one terminal to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wire {
    /// One end.
    pub from: End,
    /// The other.
    pub to: End,
    /// What it is there to carry.
    pub carries: Carries,
}

/// What is to happen in a mode.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// Nothing.
    Off,
    /// Switched on with an empty battery: nothing but what holds the rest off.
    Low,
    /// It plays.
    On,
    /// The charger is plugged in, the main switch off.
    Charging,
    /// The charger is plugged in, the main switch on.
    Both,
}

/// The positions all parts stand in, under a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mode {
    /// Such as "off" or "charging".
    pub name: String,
    /// What is to happen in it.
    pub state: State,
    /// Position of each part, 0 for those that do not switch.
    pub positions: Vec<usize>,
}

/// Parts and the wires between them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct System {
    /// The parts.
    pub parts: Vec<Part>,
    /// The wires.
    pub wires: Vec<Wire>,
}

impl System {
    /// The part of this name.
    #[must_use]
    pub fn part(&self, name: &str) -> Option<usize> {
        self.parts.iter().position(|part| part.name == name)
    }

    /// The terminal written "part terminal": the part's name, a space, the terminal's.
    #[must_use]
    pub fn end(&self, written: &str) -> Option<End> {
        let mut found = None;
        for (part, own) in self.parts.iter().enumerate() {
            let Some(rest) = written.strip_prefix(own.name.as_str()) else {
                continue;
            };
            let Some(terminal) = rest.strip_prefix(' ').and_then(|name| own.terminal(name)) else {
                continue;
            };
            found = found.or(Some(End { part, terminal }));
        }
        found
    }

    /// A terminal as it is written: "part terminal".
    #[must_use]
    pub fn name(&self, end: End) -> String {
        let part = &self.parts[end.part];
        format!("{} {}", part.name, part.terminals[end.terminal].name)
    }

    /// Every terminal, part after part.
    pub fn ends(&self) -> impl Iterator<Item = End> + '_ {
        self.parts.iter().enumerate().flat_map(|(part, own)| {
            (0..own.terminals.len()).map(move |terminal| End { part, terminal })
        })
    }

    /// The place of the first terminal of each part in [`System::ends`], and their number.
    pub(crate) fn offsets(&self) -> Vec<usize> {
        let mut offsets = vec![0];
        for part in &self.parts {
            offsets.push(offsets[offsets.len() - 1] + part.terminals.len());
        }
        offsets
    }

    /// What is wrong with the numbers: names that are there twice, terminals that are not there.
    #[must_use]
    pub fn faults(&self) -> Vec<Fault> {
        crate::fault::faults(self)
    }
}
