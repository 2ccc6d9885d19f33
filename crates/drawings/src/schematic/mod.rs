//! Diagrams of parts and wires: symbols, lines and labels, laid out by
//! [`wiring::diagram`].
//!
//! A [`Schematic`] is a plain list of parts with named terminals and of nets between
//! them. [`sheets`] lays it out within an area, on one drawing or several, and draws
//! it with the graphical symbols of the trade (`iec-60617`).

mod draw;
mod lead;
mod strand;
mod symbol;
mod wire;

pub use draw::{SchematicSheet, sheets};
pub use symbol::Symbol;
pub use wire::{role_of, stroke_of};
pub use wiring::diagram::Face;

use crate::sheet::Stroke;

/// A terminal of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Terminal {
    /// Its name; may be empty.
    pub name: String,
    /// The side it is on.
    pub face: Face,
}

impl Terminal {
    /// A terminal.
    #[must_use]
    pub fn new(name: impl Into<String>, face: Face) -> Self {
        Self {
            name: name.into(),
            face,
        }
    }
}

/// A part to be drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// How it is drawn.
    pub symbol: Symbol,
    /// Its name, written above it or in it.
    pub name: String,
    /// Its value or what it is on the shelf, in small letters; may be empty.
    pub note: String,
    /// Its terminals: the order within a symbol is said with [`Symbol`].
    pub terminals: Vec<Terminal>,
}

impl Part {
    /// A part that is passed through, its two terminals on opposite sides, unnamed.
    #[must_use]
    pub fn through(symbol: Symbol, name: &str, note: &str) -> Self {
        Self {
            symbol,
            name: name.to_owned(),
            note: note.to_owned(),
            terminals: vec![Terminal::new("", Face::Either); 2],
        }
    }
}

/// Terminals joined to one another.
#[derive(Clone, Debug, PartialEq)]
pub struct Net {
    /// Its name, for a page that it leads on to.
    pub name: String,
    /// Part and terminal, by their places in the lists, with a label each for the line
    /// beside it; labels may be empty.
    pub ends: Vec<(usize, usize, String)>,
    /// Whether it runs from what gives to what takes; a return does not.
    pub leads: bool,
    /// How it is drawn.
    pub stroke: Stroke,
    /// Its wires, each from one of its ends to another, by their places in `ends`: a
    /// stretch that serves a single wire is drawn as that wire. May be empty.
    pub wires: Vec<Wire>,
}

/// A wire of a net.
#[derive(Clone, Debug, PartialEq)]
pub struct Wire {
    /// Its number, for a page that it leads on to.
    pub name: String,
    /// Its ends, by their places in the list of the net.
    pub ends: [usize; 2],
    /// How it is drawn.
    pub stroke: Stroke,
}

/// Parts and nets.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Schematic {
    /// The parts.
    pub parts: Vec<Part>,
    /// The nets.
    pub nets: Vec<Net>,
}

#[cfg(test)]
mod tests;
