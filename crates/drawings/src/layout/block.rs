//! Things that can be stacked.

use crate::geometry::Point;
use crate::sheet::Drawing;

/// A part of a block that is not cut in two, drawn from (0, 0) downwards.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Piece {
    /// Height taken in mm.
    pub height: f64,
    /// What is drawn, its top left corner at (0, 0).
    pub drawing: Drawing,
    /// Whether it must not be the last in a column.
    pub keep_with_next: bool,
}

/// Something that lays itself out into pieces.
pub trait Block {
    /// The pieces for a column so many mm wide.
    fn pieces(&self, width: f64) -> Vec<Piece>;

    /// The same with a little less clear space, to save a page.
    fn tight_pieces(&self, width: f64) -> Vec<Piece> {
        self.pieces(width)
    }

    /// What to repeat on top when the block goes on in another column.
    fn repeated(&self, _width: f64) -> Option<Piece> {
        None
    }

    /// Clear space wanted above it in mm, but not at the top of a column.
    fn space_above(&self) -> f64 {
        4.5
    }
}

/// Blocks one below another from a point, without regard to any page end;
/// gives the drawing and the y below it.
#[must_use]
pub fn stacked(blocks: &[Box<dyn Block>], at: Point, width: f64) -> (Drawing, f64) {
    let mut out = Drawing::default();
    let mut y = at.y;
    for (i, block) in blocks.iter().enumerate() {
        if i > 0 {
            y += block.space_above();
        }
        for piece in block.pieces(width) {
            out.append(piece.drawing.moved(at.x, y));
            y += piece.height;
        }
    }
    (out, y)
}
