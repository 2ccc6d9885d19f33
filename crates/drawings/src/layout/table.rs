//! Tables with aligned figures, and ledgers.

use super::block::{Block, Piece};
use super::{BODY, SMALL, STRONG};
use crate::geometry::Point;
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Stroke, Text, pen};
use crate::text::Lettering;

/// How a column stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Align {
    /// From the left, wrapped.
    #[default]
    Left,
    /// To the right.
    Right,
    /// Decimal points under one another.
    Decimal,
}

/// A column of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// Its heading; may be empty.
    pub heading: String,
    /// How it stands.
    pub align: Align,
    /// Its share of the table's width, relative to the other columns'.
    pub share: f64,
}

impl Column {
    /// A column.
    #[must_use]
    pub fn new(heading: &str, align: Align, share: f64) -> Self {
        Self {
            heading: heading.to_owned(),
            align,
            share,
        }
    }
}

/// What stands in one field.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    /// The text.
    pub text: String,
    /// Whether it stands out.
    pub strong: bool,
    /// Whether it is a side remark, in small letters.
    pub muted: bool,
}

impl Cell {
    /// The same, standing out.
    #[must_use]
    pub fn strong(self) -> Self {
        Self {
            strong: true,
            ..self
        }
    }

    /// The same as a side remark.
    #[must_use]
    pub fn muted(self) -> Self {
        Self {
            muted: true,
            ..self
        }
    }

    fn letters(&self) -> Lettering {
        match (self.strong, self.muted) {
            (true, _) => STRONG,
            (false, true) => SMALL,
            (false, false) => BODY,
        }
    }

    fn role(&self) -> Role {
        if self.muted { Role::Muted } else { Role::Ink }
    }
}

impl<T: Into<String>> From<T> for Cell {
    fn from(text: T) -> Self {
        Self {
            text: text.into(),
            strong: false,
            muted: false,
        }
    }
}

/// Rows under headings, ruled with hairlines.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// The columns.
    pub columns: Vec<Column>,
    /// The rows, each with a cell for every column.
    pub rows: Vec<Vec<Cell>>,
}

/// Between columns.
const GAP: f64 = 3.0;
/// Above and below the text of a row.
const PAD: f64 = 1.25;
/// The same where rows are drawn together to save a page.
const TIGHT: f64 = 1.0;
/// So many last rows stay together.
const TAIL: usize = 3;

struct Measured {
    left: f64,
    width: f64,
    /// Width of the longest part after a decimal point.
    tail: f64,
}

impl Table {
    fn measure(&self, width: f64) -> Vec<Measured> {
        let gaps = GAP * self.columns.len().saturating_sub(1) as f64;
        let shares: f64 = self.columns.iter().map(|c| c.share).sum();
        let mut left = 0.0;
        self.columns
            .iter()
            .enumerate()
            .map(|(i, column)| {
                let own = (width - gaps) * column.share / shares.max(1e-9);
                let cells = self.rows.iter().filter_map(|r| r.get(i));
                let tail = cells
                    .map(|c| c.letters().width(split_decimal(&c.text).1))
                    .fold(0.0, f64::max);
                let measured = Measured {
                    left,
                    width: own,
                    tail,
                };
                left += own + GAP;
                measured
            })
            .collect()
    }

    fn laid(&self, width: f64, pad: f64) -> Vec<Piece> {
        let measured = self.measure(width);
        let count = self.rows.len();
        let rows = self.rows.iter().enumerate().map(|(i, row)| Piece {
            keep_with_next: i + 1 < count && i + TAIL >= count,
            ..self.row(row, &measured, width, pad, i + 1 == count)
        });
        self.heading(width).into_iter().chain(rows).collect()
    }

    fn row(&self, row: &[Cell], at: &[Measured], width: f64, pad: f64, last: bool) -> Piece {
        let mut drawing = Drawing::default();
        let mut deepest = BODY.cap_height();
        for ((cell, column), m) in row.iter().zip(&self.columns).zip(at) {
            deepest = deepest.max(set_cell(cell, column.align, m, pad, &mut drawing));
        }
        let height = deepest + 2.0 * pad + 0.35;
        if !last {
            let rule = Stroke::new(Role::Hairline, pen::FINE);
            drawing.line(Point::new(0.0, height), Point::new(width, height), rule);
        }
        Piece {
            height,
            drawing,
            keep_with_next: false,
        }
    }

    fn heading(&self, width: f64) -> Option<Piece> {
        if self.columns.iter().all(|c| c.heading.is_empty()) {
            return None;
        }
        let mut drawing = Drawing::default();
        let mut deepest = 0.0_f64;
        for (column, m) in self.columns.iter().zip(self.measure(width)) {
            let mut base = 0.0;
            for (i, line) in SMALL.wrap(&column.heading, m.width).iter().enumerate() {
                base += if i == 0 {
                    SMALL.cap_height()
                } else {
                    SMALL.leading()
                };
                let text = match column.align {
                    Align::Left => Text::new(Point::new(m.left, base), line, SMALL),
                    Align::Right | Align::Decimal => {
                        let at = Point::new(m.left + m.width, base);
                        Text::new(at, line, SMALL).anchored(Anchor::End)
                    }
                };
                drawing.text(text.coloured(Role::Muted));
            }
            deepest = deepest.max(base);
        }
        let height = deepest + PAD + 0.5;
        let rule = Stroke::new(Role::Muted, pen::FINE);
        drawing.line(Point::new(0.0, height), Point::new(width, height), rule);
        Some(Piece {
            height,
            drawing,
            keep_with_next: true,
        })
    }
}

/// Sets one field; gives the y of its last base line,
/// less the clear space `pad` above it.
fn set_cell(cell: &Cell, align: Align, m: &Measured, pad: f64, out: &mut Drawing) -> f64 {
    let letters = cell.letters();
    let first = pad + BODY.cap_height();
    let right = m.left + m.width;
    let line = |x: f64, y: f64, text: &str, anchor: Anchor| {
        Text::new(Point::new(x, y), text, letters)
            .anchored(anchor)
            .coloured(cell.role())
    };
    match align {
        Align::Left => {
            let mut base = first;
            for (i, part) in letters.wrap(&cell.text, m.width).iter().enumerate() {
                base = first + letters.leading() * i as f64;
                out.text(line(m.left, base, part, Anchor::Start));
            }
            base - pad
        }
        Align::Right => {
            let text = letters.ellipsis(&cell.text, m.width);
            out.text(line(right, first, &text, Anchor::End));
            first - pad
        }
        Align::Decimal => {
            let text = letters.ellipsis(&cell.text, m.width);
            let (_, after) = split_decimal(&text);
            let x = right - m.tail + letters.width(after);
            out.text(line(x, first, &text, Anchor::End));
            first - pad
        }
    }
}

/// A number and what follows its whole part (point, decimals, unit).
fn split_decimal(text: &str) -> (&str, &str) {
    let whole = text
        .char_indices()
        .find(|(i, c)| *c == '.' || (*i > 0 && *c == ' ') || c.is_alphabetic() || *c == '%')
        .map_or(text.len(), |(i, _)| i);
    text.split_at(whole)
}

impl Block for Table {
    fn pieces(&self, width: f64) -> Vec<Piece> {
        self.laid(width, PAD)
    }

    fn tight_pieces(&self, width: f64) -> Vec<Piece> {
        self.laid(width, TIGHT)
    }

    fn repeated(&self, width: f64) -> Option<Piece> {
        self.heading(width)
    }

    fn space_above(&self) -> f64 {
        1.5
    }
}

/// Names with values to the right of them, the last one standing out if it
/// is a sum.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ledger {
    /// Name and value.
    pub rows: Vec<(String, String)>,
    /// Whether the last row is the sum of the others.
    pub summed: bool,
}

impl Ledger {
    fn table(&self, width: f64) -> Table {
        let widest = self
            .rows
            .iter()
            .map(|(_, value)| STRONG.width(value))
            .fold(0.0, f64::max);
        let value = (widest + 1.0).min(width * 0.6);
        let columns = vec![
            Column::new("", Align::Left, width - GAP - value),
            Column::new("", Align::Right, value),
        ];
        let count = self.rows.len();
        let rows = self
            .rows
            .iter()
            .enumerate()
            .map(|(i, (name, value))| {
                let strong = self.summed && i + 1 == count;
                let cell = |text: &String| Cell {
                    strong,
                    ..Cell::from(text.as_str())
                };
                vec![cell(name), cell(value)]
            })
            .collect();
        Table { columns, rows }
    }
}

impl Block for Ledger {
    fn pieces(&self, width: f64) -> Vec<Piece> {
        self.table(width).pieces(width)
    }

    fn tight_pieces(&self, width: f64) -> Vec<Piece> {
        self.table(width).tight_pieces(width)
    }

    fn space_above(&self) -> f64 {
        1.5
    }
}
