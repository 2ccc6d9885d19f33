//! Positions from one datum edge, each written at the end of its own line, so
//! that figures never meet however close the positions are.

use super::dimension::LETTERS;
use crate::geometry::{Point, Rect};
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Stroke, Text, pen};
use crate::spread::spread;

/// From the outline to the end of an extension line.
pub(crate) const JOG: f64 = 5.0;
/// Between figures side by side.
const PITCH: f64 = 3.4;
const FINE: Stroke = Stroke::new(Role::Ink, pen::FINE);

/// On which side of an outline figures stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SideOf {
    /// Below it.
    Below,
    /// To its left.
    Left,
    /// To its right.
    Right,
}

/// A position: where on the sheet (along the side), and what is written.
pub(crate) type Position = (f64, String);

/// Positions that differ by a tenth of a millimetre or more, rising; values in m.
pub(crate) fn distinct(values: impl IntoIterator<Item = f64>) -> Vec<f64> {
    let mut all: Vec<f64> = values.into_iter().collect();
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| (*a - *b).abs() < 1e-4);
    all
}

/// Whether so many figures find room along a side so long, in mm.
pub(crate) fn fits(count: usize, along: f64) -> bool {
    count as f64 * PITCH <= along + 3.0 * PITCH
}

/// Draws positions along a side of an outline.
pub(crate) fn draw(outline: Rect, side: SideOf, mut positions: Vec<Position>, out: &mut Drawing) {
    positions.sort_by(|a, b| a.0.total_cmp(&b.0));
    let upright = matches!(side, SideOf::Left | SideOf::Right);
    let (low, high) = if upright {
        (outline.y, outline.bottom())
    } else {
        (outline.x, outline.right())
    };
    let feet: Vec<f64> = positions.iter().map(|p| p.0).collect();
    let ends = spread(&feet, PITCH, low - PITCH, high + PITCH);
    for ((foot, figure), end) in positions.iter().zip(ends) {
        let at = |along: f64, away: f64| match side {
            SideOf::Below => Point::new(along, outline.bottom() + away),
            SideOf::Left => Point::new(outline.x - away, along),
            SideOf::Right => Point::new(outline.right() + away, along),
        };
        out.polyline(&[at(*foot, 1.0), at(*foot, 2.2), at(end, JOG)], FINE);
        let tip = at(end, JOG + 0.8);
        let text = Text::new(tip, figure, LETTERS);
        out.text(match side {
            SideOf::Below => turned(text, Anchor::End),
            SideOf::Left => text.anchored(Anchor::End).centred(),
            SideOf::Right => text.centred(),
        });
    }
}

/// Read from the right, its middle on the line.
fn turned(text: Text, anchor: Anchor) -> Text {
    let shift = text.letters.cap_height() / 2.0;
    let at = text.at.moved(shift, 0.0);
    Text { at, ..text }.anchored(anchor).turned(-90.0)
}
