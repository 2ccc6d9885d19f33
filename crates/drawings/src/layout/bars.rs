//! Bars that compare a few values at a glance.

use super::BODY;
use super::block::{Block, Piece};
use crate::geometry::{Point, Rect};
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Stroke, Style, Text, pen};

/// One bar.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// What it stands for.
    pub name: String,
    /// Its value as text, with unit.
    pub value: String,
    /// Its length relative to the others'; negative ones are drawn as long
    /// but hollow.
    pub length: f64,
}

/// Bars under one another, all from the same start; lengths are compared
/// from zero. They are not parted.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bars {
    /// The bars.
    pub bars: Vec<Bar>,
}

impl Block for Bars {
    fn pieces(&self, width: f64) -> Vec<Piece> {
        let widest = |text: fn(&Bar) -> &str| {
            let widths = self.bars.iter().map(|b| BODY.width(text(b)));
            widths.fold(0.0, f64::max)
        };
        let values = widest(|b| &b.value).min(0.35 * width);
        let names = widest(|b| &b.name).min(0.6 * width);
        let room = (width - names - values - 6.0).max(0.1 * width);
        let names = width - room - values - 6.0;
        let longest = self.bars.iter().map(|b| b.length.abs()).fold(0.0, f64::max);
        let count = self.bars.len();
        self.bars
            .iter()
            .enumerate()
            .map(|(i, bar)| {
                let share = if longest > 0.0 {
                    bar.length / longest
                } else {
                    0.0
                };
                row(bar, [names, values, room], share, i + 1 == count)
            })
            .collect()
    }

    fn space_above(&self) -> f64 {
        1.5
    }
}

fn row(bar: &Bar, [names, values, room]: [f64; 3], share: f64, last: bool) -> Piece {
    let mut drawing = Drawing::default();
    let height = BODY.cap_height() + 2.85;
    let base = 1.25 + BODY.cap_height();
    let name = BODY.ellipsis(&bar.name, names);
    drawing.text(Text::new(Point::new(0.0, base), &name, BODY));
    let right = Point::new(names + 3.0 + values, base);
    let value = BODY.ellipsis(&bar.value, values);
    drawing.text(Text::new(right, &value, BODY).anchored(Anchor::End));
    let left = names + values + 6.0;
    let rect = Rect::new(left, base - 1.75, room * share.abs(), 1.5);
    let style = if share < 0.0 {
        Style::stroked(Stroke::new(Role::Muted, pen::THIN))
    } else {
        Style::filled(Role::Muted)
    };
    if rect.w > 0.0 {
        drawing.rect(rect, style);
    }
    if !last {
        let rule = Stroke::new(Role::Hairline, pen::FINE);
        let end = left + room;
        drawing.line(Point::new(0.0, height), Point::new(end, height), rule);
    }
    Piece {
        height,
        drawing,
        keep_with_next: !last,
    }
}
