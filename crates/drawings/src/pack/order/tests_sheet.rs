//! Where to stop and test: how, what this build should read, and what it means if not.

use super::steps::BOX;
use super::words::expected;
use crate::geometry::{Point, Rect};
use crate::layout::{BODY, Block, HEAD, Piece, SMALL, STRONG};
use crate::pack::{Page, flowed};
use crate::paper::Paper;
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Stroke, Style, Text, pen};
use crate::text::Lettering;
use studies::order::{Expect, Hold, Order, Taken, instrument};

/// Room to write a reading into, in mm.
const WRITTEN: f64 = 24.0;
const NOTE: &str = "Bands: what eight of ten builds drawn within the tolerances read, widened by what a \
     common meter errs by. Outside the band: stop, find out why, then go on.";

pub(super) fn pages(order: &Order, paper: Paper) -> Vec<Page> {
    let blocks: Vec<Box<dyn Block>> = order
        .holds
        .iter()
        .enumerate()
        .map(|(index, hold)| {
            let block = Test {
                number: index + 1,
                step: hold.step + 1,
                hold: hold.clone(),
            };
            Box::new(block) as Box<dyn Block>
        })
        .collect();
    let pages = flowed("Stop and test", &blocks, paper, 2);
    pages.into_iter().map(|page| page.noted(NOTE)).collect()
}

struct Test {
    number: usize,
    step: usize,
    hold: Hold,
}

/// Pieces as they grow downwards.
struct Writer {
    width: f64,
    pieces: Vec<Piece>,
}

impl Writer {
    /// A line of words, wrapped, from `left` on.
    fn words(&mut self, said: &str, letters: Lettering, role: Role, left: f64) {
        let mut drawing = Drawing::default();
        let mut base = 0.0;
        for (i, line) in letters.wrap(said, self.width - left).iter().enumerate() {
            base += if i == 0 {
                letters.cap_height() + 1.0
            } else {
                letters.leading()
            };
            drawing.text(Text::new(Point::new(left, base), line, letters).coloured(role));
        }
        self.put(base + letters.descent(), drawing);
    }

    fn put(&mut self, height: f64, drawing: Drawing) {
        self.pieces.push(Piece {
            height,
            drawing,
            keep_with_next: true,
        });
    }
}

impl Block for Test {
    fn pieces(&self, width: f64) -> Vec<Piece> {
        let mut out = Writer {
            width,
            pieces: Vec::new(),
        };
        self.head(&mut out);
        if let Some(care) = &self.hold.caution {
            out.words(care, SMALL, Role::Caution, 2.0);
        }
        if let Taken::Not(missing) = &self.hold.taken {
            let said = format!("Cannot be tested with your tools: it takes {missing}.");
            out.words(&said, STRONG, Role::Stop, 2.0);
        }
        for how in &self.hold.how {
            out.words(&format!("• {how}"), SMALL, Role::Ink, 2.0);
        }
        for reading in &self.hold.readings {
            self.reading(&mut out, &reading.label, &reading.expect);
        }
        let mut otherwise = Writer {
            width,
            pieces: Vec::new(),
        };
        for (sign, meaning) in &self.hold.otherwise {
            let said = format!("{sign}? {meaning}");
            otherwise.words(&said, SMALL, Role::Muted, 2.0);
        }
        out.pieces.extend(otherwise.pieces);
        if let Some(last) = out.pieces.last_mut() {
            last.keep_with_next = false;
        }
        out.pieces
    }

    fn space_above(&self) -> f64 {
        6.0
    }
}

impl Test {
    fn head(&self, out: &mut Writer) {
        let mut drawing = Drawing::default();
        let frame = Style::stroked(Stroke::new(Role::Ink, pen::MEDIUM));
        drawing.rect(Rect::new(0.0, 0.0, BOX, BOX), frame);
        let base = HEAD.cap_height() + 0.3;
        let title = format!("{}  {}", self.number, self.hold.title);
        let with: Vec<&str> = self.hold.with.iter().map(|one| instrument(*one)).collect();
        let with = if with.is_empty() {
            format!("step {}", self.step)
        } else {
            format!("step {}; {}", self.step, with.join(", "))
        };
        let room = out.width - SMALL.width(&with) - 9.0;
        let letters = HEAD.fitted(&title, room, BODY.size_mm);
        drawing.text(Text::new(Point::new(6.0, base), &title, letters));
        let right = Point::new(out.width, base);
        drawing.text(
            Text::new(right, &with, SMALL)
                .anchored(Anchor::End)
                .coloured(Role::Muted),
        );
        out.put(base + 1.6, drawing);
    }

    /// What is read, what it should be, and room to write.
    fn reading(&self, out: &mut Writer, label: &str, expect: &Expect) {
        let mut drawing = Drawing::default();
        let seen = matches!(expect, Expect::Seen(_));
        let should = expected(expect);
        let column = (out.width - WRITTEN - 2.0) / 2.0;
        let mut deepest = 0.0_f64;
        for (left, said, letters) in [(4.0, label, BODY), (2.0 + column, should.as_str(), STRONG)] {
            let letters = if seen { BODY } else { letters };
            let mut base = 0.0;
            for (i, line) in letters.wrap(said, column - 3.0).iter().enumerate() {
                base += if i == 0 {
                    letters.cap_height() + 2.0
                } else {
                    letters.leading()
                };
                drawing.text(Text::new(Point::new(left, base), line, letters));
            }
            deepest = deepest.max(base);
        }
        let line = Stroke::new(Role::Muted, pen::FINE);
        if seen {
            let frame = Style::stroked(line);
            drawing.rect(Rect::new(out.width - BOX, 1.4, BOX, BOX), frame);
        } else {
            let from = out.width - WRITTEN;
            drawing.line(
                Point::new(from, deepest + 0.8),
                Point::new(out.width, deepest + 0.8),
                line,
            );
        }
        out.put(deepest + 1.0, drawing);
    }
}
