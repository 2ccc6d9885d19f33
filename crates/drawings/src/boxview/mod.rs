//! The box as a picture: lid off and dimensioned, and its front to scale.

mod axonometric;
mod balloon;
mod dimension;
mod front;
mod project;
mod solid;

pub use front::FrontView;

use crate::geometry::Rect;
use crate::sheet::Drawing;

/// A box and its parts, as far as a picture needs them. Lengths in metres;
/// x runs to the right and y upwards from the middle of the front, z runs
/// backwards from its outer face.
#[derive(Clone, Debug, PartialEq)]
pub struct BoxPicture {
    /// Width, height, depth over the walls.
    pub outside: [f64; 3],
    /// Thickness of the walls.
    pub wall: f64,
    /// What is in and on it.
    pub parts: Vec<PicturePart>,
}

/// One part of the picture.
#[derive(Clone, Debug, PartialEq)]
pub struct PicturePart {
    /// Its number in the list of parts; equal parts share one.
    pub number: usize,
    /// Its name in that list.
    pub label: String,
    /// What it looks like.
    pub shape: PictureShape,
}

/// What a part looks like.
#[derive(Clone, Debug, PartialEq)]
pub enum PictureShape {
    /// A block inside.
    Block {
        /// Width, height, depth.
        size: [f64; 3],
        /// Its middle.
        centre: [f64; 3],
        /// What it is made of, for its colour.
        stuff: Stuff,
    },
    /// A driver in the front.
    Driver {
        /// Middle on the front.
        centre: [f64; 2],
        /// Outer diameter of the frame.
        frame: f64,
        /// Diameter of the hole.
        cutout: f64,
        /// Diameter of the magnet.
        magnet: f64,
        /// Depth behind the face of the front.
        depth: f64,
    },
    /// A tube open to the front.
    Vent {
        /// Middle on the front.
        centre: [f64; 2],
        /// Inner diameter.
        diameter: f64,
        /// Diameter of the hole.
        cutout: f64,
        /// Length, the wall included.
        length: f64,
    },
    /// A passive radiator in the front.
    Radiator {
        /// Middle on the front.
        centre: [f64; 2],
        /// Outer diameter of the frame.
        frame: f64,
        /// Diameter of the hole.
        cutout: f64,
        /// Depth behind the face of the front.
        depth: f64,
    },
}

/// What a block is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stuff {
    /// A battery.
    Cell,
    /// A circuit board.
    Board,
    /// Anything else.
    Other,
}

impl BoxPicture {
    /// The box seen from the right, front and above, lid lifted, with outside
    /// dimensions and numbered parts; fills `area` as far as its shape allows.
    #[must_use]
    pub fn axonometric(&self, area: Rect) -> Drawing {
        axonometric::draw(self, area)
    }

    /// The front with its holes and where they sit, in a round scale that
    /// fits `area`.
    #[must_use]
    pub fn front_view(&self, area: Rect) -> FrontView {
        front::draw(self, area)
    }
}

#[cfg(test)]
mod tests;
