//! The frame of a sheet and its title block.

use super::{BODY, SMALL};
use crate::geometry::{Point, Rect};
use crate::paper::Paper;
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Sheet, Stroke, Style, Text, pen};
use crate::text::Lettering;

/// What the title block says.
#[derive(Clone, Debug, PartialEq)]
pub struct TitleBlock {
    /// Name of the project.
    pub project: String,
    /// What the sheet shows.
    pub title: String,
    /// Number of the sheet, from 1.
    pub number: usize,
    /// How many sheets there are.
    pub count: usize,
    /// Scale ("1 : 4", "not to scale").
    pub scale: String,
    /// Revision; a dash when empty.
    pub revision: String,
    /// Date as given from outside; left out when empty.
    pub date: String,
    /// The paper it is laid out for.
    pub paper: Paper,
}

/// From the edge of the paper to the frame.
const MARGIN: f64 = 8.0;
/// Inside the frame.
const PAD: f64 = 6.0;
/// Height of the title block.
const HEIGHT: f64 = 24.0;
/// Width of the title block.
const WIDTH: f64 = 150.0;
/// Side of the check square.
const SQUARE: f64 = 20.0;

const PROJECT: Lettering = Lettering::bold(5.2);
const VALUE: Lettering = Lettering::bold(3.2);

fn frame(paper: Paper) -> Rect {
    paper.rect().inset(MARGIN)
}

/// Where the content of a sheet goes: inside the frame, above the title
/// block, over the whole width.
#[must_use]
pub fn content_area(paper: Paper) -> Rect {
    let inner = frame(paper).inset(PAD);
    Rect {
        h: inner.h - HEIGHT + PAD - 4.0,
        ..inner
    }
}

/// The strip left of the title block, for notes on how to read the sheet.
#[must_use]
pub fn notes_area(paper: Paper) -> Rect {
    let frame = frame(paper);
    Rect::new(
        frame.x + PAD,
        frame.bottom() - HEIGHT + 2.0,
        frame.w - WIDTH - 2.0 * PAD,
        HEIGHT - 4.0,
    )
}

impl TitleBlock {
    /// An empty sheet with frame and title block.
    #[must_use]
    pub fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.paper, &self.title);
        let frame = frame(self.paper);
        let outline = Style::stroked(Stroke::new(Role::Ink, pen::FRAME));
        sheet.drawing.rect(frame, outline);
        let block = Rect::new(
            frame.right() - WIDTH,
            frame.bottom() - HEIGHT,
            WIDTH,
            HEIGHT,
        );
        self.block(block, &mut sheet.drawing);
        sheet
    }

    fn block(&self, block: Rect, out: &mut Drawing) {
        let bold = Stroke::new(Role::Ink, pen::FRAME);
        let thin = Stroke::new(Role::Ink, pen::THIN);
        out.polyline(
            &[
                Point::new(block.x, block.bottom()),
                Point::new(block.x, block.y),
                Point::new(block.right(), block.y),
            ],
            bold,
        );
        let middle = block.y + HEIGHT / 2.0;
        let left = block.x + check_square(block, out);
        let split = left + 62.0;
        out.line(
            Point::new(left, block.y),
            Point::new(left, block.bottom()),
            thin,
        );
        out.line(
            Point::new(split, block.y),
            Point::new(split, block.bottom()),
            thin,
        );
        out.line(
            Point::new(left, middle),
            Point::new(block.right(), middle),
            thin,
        );
        self.name(Rect::new(left, block.y, split - left, HEIGHT / 2.0), out);
        let on_paper = format!("scale on {}", self.paper.name());
        let sheet = format!("{} of {} · {}", self.number, self.count, self.title);
        let cell = |x: f64, y: f64, w: f64| Rect::new(x, y, w, HEIGHT / 2.0);
        let right = block.right() - split;
        field("sheet", &sheet, cell(split, block.y, right), out);
        field(
            &on_paper,
            &self.scale,
            cell(left, middle, split - left),
            out,
        );
        let revision = if self.revision.is_empty() {
            "–"
        } else {
            &self.revision
        };
        let third = if self.date.is_empty() {
            right
        } else {
            right / 2.0
        };
        field("revision", revision, cell(split, middle, third), out);
        if !self.date.is_empty() {
            let x = split + third;
            out.line(Point::new(x, middle), Point::new(x, block.bottom()), thin);
            field("date", &self.date, cell(x, middle, right - third), out);
        }
    }

    fn name(&self, cell: Rect, out: &mut Drawing) {
        let room = cell.w - 6.0;
        let letters = PROJECT.fitted(&self.project, room, 3.0);
        let text = letters.ellipsis(&self.project, room);
        let at = Point::new(cell.x + 3.0, cell.centre().y);
        out.text(Text::new(at, &text, letters).centred());
    }
}

/// A field of the title block: a small name over a value.
fn field(name: &str, value: &str, cell: Rect, out: &mut Drawing) {
    let room = cell.w - 6.0;
    let x = cell.x + 3.0;
    let top = Point::new(x, cell.y + 1.8 + SMALL.cap_height());
    out.text(Text::new(top, &SMALL.ellipsis(name, room), SMALL).coloured(Role::Muted));
    let letters = VALUE.fitted(value, room, 2.3);
    let base = Point::new(x, cell.bottom() - 2.8);
    out.text(Text::new(base, &letters.ellipsis(value, room), letters));
}

/// The square to measure before anything else; gives the width it takes.
fn check_square(block: Rect, out: &mut Drawing) -> f64 {
    let inset = (HEIGHT - SQUARE) / 2.0;
    let square = Rect::new(block.x + inset, block.y + inset, SQUARE, SQUARE);
    out.rect(square, Style::stroked(Stroke::new(Role::Ink, pen::MEDIUM)));
    let middle = square.centre();
    for (text, letters, dy) in [
        ("20 mm", BODY, -2.6),
        ("measure first:", Lettering::regular(2.0), 1.6),
        ("if not, do not", Lettering::regular(2.0), 4.6),
        ("cut from this", Lettering::regular(2.0), 7.6),
    ] {
        out.text(
            Text::new(middle.moved(0.0, dy), text, letters)
                .anchored(Anchor::Middle)
                .centred(),
        );
    }
    HEIGHT
}
