//! What makes a system no system.

use crate::{End, System};

/// A reference to something that is not there, or a name that is there twice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Two parts have one name.
    PartTwice(String),
    /// A part has two terminals of one name.
    TerminalTwice(String),
    /// A wire ends where there is no terminal: its place in the list.
    WireEnd(usize),
    /// A wire ends where it begins: its place in the list.
    WireLoop(usize),
    /// A conduction inside a part names a terminal or a position it does not have.
    Inner(String),
}

pub(crate) fn faults(system: &System) -> Vec<Fault> {
    let mut found = Vec::new();
    for (index, part) in system.parts.iter().enumerate() {
        if system.parts[..index]
            .iter()
            .any(|other| other.name == part.name)
        {
            found.push(Fault::PartTwice(part.name.clone()));
        }
        for (own, terminal) in part.terminals.iter().enumerate() {
            let earlier = &part.terminals[..own];
            if earlier.iter().any(|other| other.name == terminal.name) {
                let end = End {
                    part: index,
                    terminal: own,
                };
                found.push(Fault::TerminalTwice(system.name(end)));
            }
        }
        let most = part.positions.len().max(1);
        let known = |terminal: &usize| *terminal < part.terminals.len();
        let sound = part.inner.iter().all(|inner| {
            inner.between.iter().all(known) && inner.when.iter().all(|position| *position < most)
        });
        if !sound {
            found.push(Fault::Inner(part.name.clone()));
        }
    }
    let there = |end: End| {
        let part = system.parts.get(end.part);
        part.is_some_and(|part| end.terminal < part.terminals.len())
    };
    for (index, wire) in system.wires.iter().enumerate() {
        if !there(wire.from) || !there(wire.to) {
            found.push(Fault::WireEnd(index));
        } else if wire.from == wire.to {
            found.push(Fault::WireLoop(index));
        }
    }
    found
}
