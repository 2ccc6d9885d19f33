//! How a drawing is spread over pages, and the crosses that join them.

use super::OVERLAP_MM;
use crate::geometry::{Point, Rect};
use crate::math;
use crate::paper::Paper;

/// Unprinted edge of the paper, in mm.
const MARGIN: f64 = 10.0;
/// Left of the window, for the upright bar.
const LEFT: f64 = 10.0;
/// Below the window, for words and the level bar.
const BELOW: f64 = 22.0;
/// Half the size of the square around a cross and its name, in mm: both lie
/// within the overlap.
pub(super) const CROSS: f64 = OVERLAP_MM / 2.0 - 0.5;

/// The part of a page that shows a part of the drawing.
pub(super) fn window(paper: Paper) -> Rect {
    let page = paper.rect().inset(MARGIN);
    Rect::new(page.x + LEFT, page.y, page.w - LEFT, page.h - BELOW)
}

/// A drawing on a grid of pages.
pub(super) struct Tiling {
    pub(super) columns: usize,
    pub(super) rows: usize,
    window: Rect,
    size: (f64, f64),
}

/// A cross that lies on two pages.
pub(super) struct Cross {
    /// Its middle in the drawing, in mm.
    pub(super) at: Point,
    pub(super) name: String,
}

impl Cross {
    /// What it takes of the drawing.
    pub(super) fn rect(&self) -> Rect {
        let at = self.at;
        Rect::new(at.x - CROSS, at.y - CROSS, 2.0 * CROSS, 2.0 * CROSS)
    }
}

impl Tiling {
    /// The fewest pages that hold a drawing of width and height in mm.
    pub(super) fn new(size: (f64, f64), paper: Paper) -> Self {
        let window = window(paper);
        let needed = |long: f64, seen: f64| {
            let more = (long - OVERLAP_MM) / (seen - OVERLAP_MM);
            math::ceil(more - 1e-9).max(1.0) as usize
        };
        Self {
            columns: needed(size.0, window.w),
            rows: needed(size.1, window.h),
            window,
            size,
        }
    }

    pub(super) const fn count(&self) -> usize {
        self.columns * self.rows
    }

    /// Where a page begins in the drawing, in mm.
    pub(super) fn start(&self, column: usize, row: usize) -> Point {
        Point::new(
            column as f64 * (self.window.w - OVERLAP_MM),
            row as f64 * (self.window.h - OVERLAP_MM),
        )
    }

    /// What a page shows of the drawing.
    pub(super) fn seen(&self, column: usize, row: usize) -> Rect {
        let start = self.start(column, row);
        Rect::new(start.x, start.y, self.window.w, self.window.h)
    }

    /// Two crosses in the overlap of every two neighbours, each pair with a
    /// letter.
    pub(super) fn crosses(&self) -> Vec<Cross> {
        let mut out = Vec::new();
        let mut seams = 0;
        let mut join = |a: Point, b: Point| {
            let letter = seam_letter(seams);
            seams += 1;
            for (number, at) in [a, b].into_iter().enumerate() {
                let name = format!("{letter}{}", number + 1);
                out.push(Cross { at, name });
            }
        };
        for row in 0..self.rows {
            for column in 0..self.columns {
                let start = self.start(column, row);
                let far = Point::new(
                    (start.x + self.window.w).min(self.size.0),
                    (start.y + self.window.h).min(self.size.1),
                );
                let (thirds_x, thirds_y) = ((far.x - start.x) / 4.0, (far.y - start.y) / 4.0);
                if column + 1 < self.columns {
                    let x = start.x + self.window.w - OVERLAP_MM / 2.0;
                    join(
                        Point::new(x, start.y + thirds_y),
                        Point::new(x, far.y - thirds_y),
                    );
                }
                if row + 1 < self.rows {
                    let y = start.y + self.window.h - OVERLAP_MM / 2.0;
                    join(
                        Point::new(start.x + thirds_x, y),
                        Point::new(far.x - thirds_x, y),
                    );
                }
            }
        }
        out
    }
}

/// A, B, … Z, AA, AB, …
fn seam_letter(index: usize) -> String {
    let last = char::from(b'A' + (index % 26) as u8);
    if index < 26 {
        last.to_string()
    } else {
        format!("{}{last}", seam_letter(index / 26 - 1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn rect(p: Point) -> Rect {
        Rect::new(p.x, p.y, 0.0, 0.0)
    }

    #[test]
    fn a_small_drawing_takes_one_page() {
        let tiling = Tiling::new((200.0, 150.0), Paper::A4);
        assert_eq!(tiling.count(), 1);
        assert!(tiling.crosses().is_empty());
    }

    proptest! {
        #[test]
        fn pages_cover_the_drawing_and_share_their_crosses(
            w in 10.0_f64..1300.0, h in 10.0_f64..900.0, letter in proptest::bool::ANY,
        ) {
            let paper = if letter { Paper::Letter } else { Paper::A4 };
            let tiling = Tiling::new((w, h), paper);
            let pages: Vec<Rect> = (0..tiling.rows)
                .flat_map(|row| (0..tiling.columns).map(move |column| (column, row)))
                .map(|(column, row)| tiling.seen(column, row))
                .collect();
            for (x, y) in [(0.0, 0.0), (w, h), (w / 2.0, h / 2.0), (w, 0.0), (0.3 * w, 0.9 * h)] {
                prop_assert!(pages.iter().any(|page| page.holds(Point::new(x, y))));
            }
            // No page without any of the drawing.
            let whole = Rect::new(0.0, 0.0, w, h);
            prop_assert!(pages.iter().all(|page| page.overlaps(&whole)));
            for cross in tiling.crosses() {
                let on = pages.iter().filter(|page| page.contains(&cross.rect().inset(CROSS))).count();
                prop_assert!(on >= 2, "{} lies on {on} pages", cross.name);
                prop_assert!(whole.contains(&rect(cross.at)));
            }
        }
    }
}
