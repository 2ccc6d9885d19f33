//! Short items side by side, in rows.

use super::BODY;
use super::block::{Block, Piece};
use crate::geometry::Point;
use crate::sheet::{Drawing, Text};

/// Between items, mm.
const GAP: f64 = 5.0;
/// From base line to base line, mm.
const PITCH: f64 = 4.4;

/// Items of about one width, read row by row.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Grid {
    /// What is written.
    pub items: Vec<String>,
}

impl Block for Grid {
    fn pieces(&self, width: f64) -> Vec<Piece> {
        let widest = self.items.iter().map(|i| BODY.width(i)).fold(0.0, f64::max);
        let pitch = widest + GAP;
        let columns = (((width + GAP) / pitch) as usize).max(1);
        let rows = self.items.chunks(columns).map(|some| {
            let mut drawing = Drawing::default();
            for (i, item) in some.iter().enumerate() {
                let at = Point::new(pitch * i as f64, BODY.cap_height());
                drawing.text(Text::new(at, item, BODY));
            }
            Piece {
                height: PITCH,
                drawing,
                keep_with_next: false,
            }
        });
        rows.collect()
    }

    fn space_above(&self) -> f64 {
        1.5
    }
}
