//! Headings and paragraphs.

use super::block::{Block, Piece};
use super::{BODY, HEAD, SMALL};
use crate::geometry::Point;
use crate::role::Role;
use crate::sheet::{Drawing, Text};
use crate::text::Lettering;

/// A heading with a side remark.
#[derive(Clone, Debug, PartialEq)]
pub struct Heading {
    /// The heading.
    pub text: String,
    /// What it leaves open, in small letters beside it; may be empty.
    pub remark: String,
}

impl Heading {
    /// A heading.
    #[must_use]
    pub fn new(text: &str, remark: &str) -> Self {
        Self {
            text: text.to_owned(),
            remark: remark.to_owned(),
        }
    }
}

impl Block for Heading {
    fn pieces(&self, width: f64) -> Vec<Piece> {
        let mut drawing = Drawing::default();
        let mut base = HEAD.cap_height();
        let mut end = 0.0;
        for (i, line) in HEAD.wrap(&self.text, width).iter().enumerate() {
            if i > 0 {
                base += HEAD.leading();
            }
            drawing.text(Text::new(Point::new(0.0, base), line, HEAD));
            end = HEAD.width(line) + 2.5;
        }
        let muted = |x: f64, y: f64, line: &str| {
            Text::new(Point::new(x, y), line, SMALL).coloured(Role::Muted)
        };
        let beside = end + SMALL.width(&self.remark) <= width;
        if beside && !self.remark.is_empty() {
            drawing.text(muted(end, base, &self.remark));
        } else if !beside {
            for line in SMALL.wrap(&self.remark, width) {
                base += SMALL.leading() + 0.3;
                drawing.text(muted(0.0, base, &line));
            }
        }
        vec![Piece {
            height: base + 2.4,
            drawing,
            keep_with_next: true,
        }]
    }

    fn space_above(&self) -> f64 {
        7.0
    }
}

/// Running text.
#[derive(Clone, Debug, PartialEq)]
pub struct Paragraph {
    /// What it says.
    pub text: String,
    /// Its letters.
    pub letters: Lettering,
    /// Its colour.
    pub role: Role,
}

impl Paragraph {
    /// Text for reading.
    #[must_use]
    pub fn new(text: &str) -> Self {
        Self {
            text: text.to_owned(),
            letters: BODY,
            role: Role::Ink,
        }
    }

    /// A side remark.
    #[must_use]
    pub fn remark(text: &str) -> Self {
        Self {
            text: text.to_owned(),
            letters: SMALL,
            role: Role::Muted,
        }
    }
}

impl Block for Paragraph {
    fn pieces(&self, width: f64) -> Vec<Piece> {
        let (drawing, height) = lines(&self.text, self.letters, self.role, width);
        vec![Piece {
            height,
            drawing,
            keep_with_next: false,
        }]
    }

    fn space_above(&self) -> f64 {
        2.5
    }
}

/// Wrapped lines from (0, 0) and their height, the depth of the last line's
/// hanging letters included.
pub(crate) fn lines(text: &str, letters: Lettering, role: Role, width: f64) -> (Drawing, f64) {
    let mut drawing = Drawing::default();
    let mut base = 0.0;
    for (i, line) in letters.wrap(text, width).iter().enumerate() {
        base += if i == 0 {
            letters.cap_height()
        } else {
            letters.leading()
        };
        drawing.text(Text::new(Point::new(0.0, base), line, letters).coloured(role));
    }
    (drawing, base + letters.descent())
}
