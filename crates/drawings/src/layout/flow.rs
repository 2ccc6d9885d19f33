//! Filling columns and pages.

use super::block::{Block, Piece};
use crate::geometry::Rect;
use crate::sheet::Drawing;

/// Blocks in columns of equal width within `area`, as many pages as needed;
/// each page is a drawing.
#[must_use]
pub fn flow(blocks: &[Box<dyn Block>], area: Rect, columns: usize, gutter: f64) -> Vec<Drawing> {
    let columns = columns.max(1);
    let width = (area.w - gutter * (columns - 1) as f64) / columns as f64;
    let mut pages = Pages {
        area,
        columns,
        pitch: width + gutter,
        column: 0,
        used: 0.0,
        done: vec![Drawing::default()],
    };
    let parts = parts(blocks, width);
    let mut at = 0;
    while at < parts.len() {
        let run = run_length(&parts[at..]);
        pages.put(&parts[at..at + run]);
        at += run;
    }
    pages.done
}

/// A piece with what its block has to say about it.
struct Part {
    piece: Piece,
    /// Clear space wanted above, when not at the top of a column.
    above: f64,
    /// What to draw first when the column begins with this piece.
    repeated: Option<Piece>,
}

fn parts(blocks: &[Box<dyn Block>], width: f64) -> Vec<Part> {
    let mut out = Vec::new();
    for block in blocks {
        for (i, piece) in block.pieces(width).into_iter().enumerate() {
            out.push(Part {
                piece,
                above: if i == 0 { block.space_above() } else { 0.0 },
                repeated: if i == 0 { None } else { block.repeated(width) },
            });
        }
    }
    out
}

struct Pages {
    area: Rect,
    columns: usize,
    pitch: f64,
    column: usize,
    used: f64,
    done: Vec<Drawing>,
}

impl Pages {
    /// Draws parts that stay together.
    fn put(&mut self, run: &[Part]) {
        let height: f64 = run.iter().map(|p| p.piece.height + p.above).sum();
        if self.used > 0.0 && self.used + height > self.area.h + 1e-6 {
            self.next_column();
            if let Some(top) = &run[0].repeated {
                self.draw(top);
            }
        }
        for part in run {
            if self.used > 0.0 {
                self.used += part.above;
            }
            self.draw(&part.piece);
        }
    }

    fn next_column(&mut self) {
        self.used = 0.0;
        self.column += 1;
        if self.column == self.columns {
            self.column = 0;
            self.done.push(Drawing::default());
        }
    }

    fn draw(&mut self, piece: &Piece) {
        let x = self.area.x + self.pitch * self.column as f64;
        let y = self.area.y + self.used;
        if let Some(page) = self.done.last_mut() {
            page.append(piece.drawing.moved(x, y));
        }
        self.used += piece.height;
    }
}

/// How many parts from the first on have to stay together.
fn run_length(parts: &[Part]) -> usize {
    let chained = parts.iter().take_while(|p| p.piece.keep_with_next).count();
    (chained + 1).min(parts.len())
}
