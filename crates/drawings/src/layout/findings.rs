//! What was found, worst first: sign, title, cause, mend.

use super::block::{Block, Piece};
use super::words::lines;
use super::{BODY, SMALL, STRONG, symbol};
use crate::geometry::{Point, Rect};
use crate::role::Role;
use crate::sheet::{Drawing, Stroke, Style, pen};
use studies::check::Severity;

/// One finding as text.
#[derive(Clone, Debug, PartialEq)]
pub struct FindingBlock {
    /// How bad.
    pub severity: Severity,
    /// What, in a few words.
    pub title: String,
    /// Why, in a sentence or two.
    pub cause: String,
    /// Measured and limiting value, id and source, as text; may be empty.
    pub measured: String,
    /// What to change; may be empty.
    pub mend: String,
}

/// From the left edge to the text.
const INDENT: f64 = 5.0;

impl FindingBlock {
    /// The finding with the gap between its texts, in mm.
    fn piece(&self, width: f64, gap: f64) -> Piece {
        let inner = width - INDENT;
        let mut drawing = Drawing::default();
        let rule = Stroke::new(Role::Hairline, pen::FINE);
        drawing.line(Point::new(0.0, 0.0), Point::new(width, 0.0), rule);
        let mut y = 1.5 + gap;
        let middle = Point::new(1.5, y + STRONG.cap_height() / 2.0);
        symbol(&mut drawing, self.severity, middle, 2.4);
        for (text, letters, role) in [
            (&self.title, STRONG, Role::Ink),
            (&self.cause, BODY, Role::Ink),
            (&self.measured, SMALL, Role::Muted),
        ] {
            if !text.is_empty() {
                let (part, height) = lines(text, letters, role, inner);
                drawing.append(part.moved(INDENT, y));
                y += height + gap;
            }
        }
        if !self.mend.is_empty() {
            y += boxed(&self.mend, y + 0.4, inner, &mut drawing) + 1.4;
        }
        Piece {
            height: y + 0.7 + gap,
            drawing,
            keep_with_next: false,
        }
    }
}

impl Block for FindingBlock {
    fn pieces(&self, width: f64) -> Vec<Piece> {
        vec![self.piece(width, 0.9)]
    }

    fn tight_pieces(&self, width: f64) -> Vec<Piece> {
        vec![self.piece(width, 0.5)]
    }

    fn space_above(&self) -> f64 {
        0.0
    }
}

/// A mend in a thin frame; gives the height of the frame.
fn boxed(mend: &str, y: f64, width: f64, out: &mut Drawing) -> f64 {
    const PAD: f64 = 1.5;
    let said = format!("mend: {mend}");
    let (part, height) = lines(&said, BODY, Role::Accent, width - 2.0 * PAD);
    let widest = BODY
        .wrap(&said, width - 2.0 * PAD)
        .iter()
        .map(|l| BODY.width(l))
        .fold(0.0, f64::max);
    let frame = Rect::new(INDENT, y, widest + 2.0 * PAD, height + 2.0 * PAD - 0.4);
    out.rect(frame, Style::stroked(Stroke::new(Role::Accent, pen::FINE)));
    out.append(part.moved(INDENT + PAD, y + PAD));
    frame.h
}
