//! Filling columns and pages.

use super::block::{Block, Piece};
use crate::geometry::Rect;
use crate::sheet::Drawing;

/// Blocks in columns of equal width within `area`, as many pages as needed;
/// each page is a drawing. Gaps shrink where that saves a last page with next
/// to nothing on it.
#[must_use]
pub fn flow(blocks: &[Box<dyn Block>], area: Rect, columns: usize, gutter: f64) -> Vec<Drawing> {
    let columns = columns.max(1);
    let width = (area.w - gutter * (columns - 1) as f64) / columns as f64;
    let laid = |parts: &[Part]| {
        let mut pages = Pages {
            area,
            columns,
            pitch: width + gutter,
            column: 0,
            used: 0.0,
            done: vec![Drawing::default()],
        };
        let last = pages.fill(parts, 0);
        if columns > 1 && pages.column > 0 {
            pages.balance(parts, last);
        }
        pages.done
    };
    let roomy = laid(&parts(blocks, width, Gaps::Roomy));
    let slight = roomy.last().is_some_and(|page| is_slight(page, area));
    if roomy.len() < 2 || !slight {
        return roomy;
    }
    let tight = laid(&parts(blocks, width, Gaps::Tight));
    if tight.len() < roomy.len() {
        tight
    } else {
        roomy
    }
}

/// Share of the area below which a last page holds next to nothing.
const SLIGHT: f64 = 0.22;

/// Whether a last page holds next to nothing.
pub(crate) fn is_slight(page: &Drawing, area: Rect) -> bool {
    let used = |r: Rect| (r.right() - area.x) * (r.bottom() - area.y);
    let used = page.bounds().map_or(0.0, used);
    used < SLIGHT * area.w * area.h
}

/// How much clear space is left between pieces.
#[derive(Clone, Copy, PartialEq)]
enum Gaps {
    Roomy,
    Tight,
}

/// Of the clear space above a block, what is left where it is tight.
const SHRUNK: f64 = 0.7;

/// How finely the columns of the last page are evened out, mm.
const EVEN: f64 = 4.0;

/// A piece with what its block has to say about it.
struct Part {
    piece: Piece,
    /// Clear space wanted above, when not at the top of a column.
    above: f64,
    /// What to draw first when the column begins with this piece.
    repeated: Option<Piece>,
}

fn parts(blocks: &[Box<dyn Block>], width: f64, gaps: Gaps) -> Vec<Part> {
    let mut out = Vec::new();
    for block in blocks {
        let (pieces, above) = match gaps {
            Gaps::Roomy => (block.pieces(width), block.space_above()),
            Gaps::Tight => (block.tight_pieces(width), SHRUNK * block.space_above()),
        };
        for (i, piece) in pieces.into_iter().enumerate() {
            out.push(Part {
                piece,
                above: if i == 0 { above } else { 0.0 },
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
    /// Draws parts from `at` on; gives the first one on the last page.
    fn fill(&mut self, parts: &[Part], mut at: usize) -> usize {
        let mut first = at;
        let mut pages = self.done.len();
        while at < parts.len() {
            let run = run_length(&parts[at..]);
            self.put(&parts[at..at + run]);
            if self.done.len() > pages {
                (pages, first) = (self.done.len(), at);
            }
            at += run;
        }
        first
    }

    /// Draws the last page again in the shortest columns that hold it.
    fn balance(&mut self, parts: &[Part], first: usize) {
        let height = self.area.h;
        let mut best: Option<Drawing> = None;
        let mut trial = height;
        while trial > EVEN {
            let mut page = Pages {
                area: Rect {
                    h: trial,
                    ..self.area
                },
                columns: self.columns,
                pitch: self.pitch,
                column: 0,
                used: 0.0,
                done: vec![Drawing::default()],
            };
            if first > 0
                && let Some(top) = &parts[first].repeated
            {
                page.draw(top);
            }
            page.fill(parts, first);
            if page.done.len() > 1 {
                break;
            }
            best = page.done.pop();
            trial -= EVEN;
        }
        if let (Some(last), Some(best)) = (self.done.last_mut(), best) {
            *last = best;
        }
    }

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
