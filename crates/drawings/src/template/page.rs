//! One page of a template.

use super::Imprint;
use super::subject::Subject;
use super::tile::{CROSS, Cross, Tiling, window};
use crate::geometry::{Point, Rect};
use crate::layout::{BODY, SMALL, STRONG};
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Group, Sheet, Stroke, Style, Text, pen};
use crate::text::Lettering;

/// Length of both bars in mm.
const BAR: f64 = 100.0;
/// Half the height of the strokes that end a bar.
const END: f64 = 2.5;
/// Letters of the names of crosses.
const NAMES: Lettering = Lettering::bold(2.7);
/// What must be done before anything else.
const TRUE: &str = "Print at 100 %, never “fit to page”: both bars must measure 100 mm.";

/// The pages of one subject.
pub(super) fn pages(subject: &Subject, tiling: &Tiling, imprint: &Imprint) -> Vec<Sheet> {
    let crosses = tiling.crosses();
    let labels = subject.labels(&crosses);
    let mut out = Vec::new();
    for row in 0..tiling.rows {
        for column in 0..tiling.columns {
            let title = title(subject, tiling, column, row);
            let mut sheet = framed(&title, imprint);
            let seen = tiling.seen(column, row);
            let shown = shown(subject, &crosses, &labels, &seen);
            let at = window(imprint.paper);
            let (dx, dy) = (at.x - seen.x, at.y - seen.y);
            let clip = Group::Clip(at);
            sheet.drawing.group(clip, subject.lines.moved(dx, dy));
            sheet.drawing.append(shown.moved(dx, dy));
            map(tiling, (column, row), imprint, &mut sheet.drawing);
            out.push(sheet);
        }
    }
    out
}

fn title(subject: &Subject, tiling: &Tiling, column: usize, row: usize) -> String {
    if tiling.count() == 1 {
        return subject.title.clone();
    }
    let page = row * tiling.columns + column + 1;
    format!(
        "{}: page {page} of {}, column {}, row {}",
        subject.title,
        tiling.count(),
        column + 1,
        row + 1
    )
}

/// What lies whole on the page: crosses and labels, in the subject's own mm.
fn shown(subject: &Subject, crosses: &[Cross], labels: &[Text], seen: &Rect) -> Drawing {
    let mut out = Drawing::default();
    let whole = Rect::new(0.0, 0.0, subject.size.0, subject.size.1);
    let hair = Stroke::new(Role::Muted, pen::HAIR);
    for cross in crosses.iter().filter(|c| seen.contains(&c.rect())) {
        let at = cross.at;
        for (dx, dy) in [(CROSS, 0.0), (0.0, CROSS)] {
            out.line(at.moved(-dx, -dy), at.moved(dx, dy), hair);
        }
        out.circle(at, CROSS / 3.0, Style::stroked(hair));
        let base = at.moved(CROSS / 3.0 + 0.3, -CROSS / 3.0 - 0.3);
        let name = Text::new(base, &cross.name, NAMES);
        out.rect(name.upright_box().inset(-0.2), Style::filled(Role::Paper));
        out.text(name);
    }
    for label in labels {
        if label
            .corners()
            .iter()
            .all(|p| seen.holds(*p) && whole.holds(*p))
        {
            out.text(label.clone());
        }
    }
    out
}

/// A page with its window, its words and its bars.
pub(super) fn framed(title: &str, imprint: &Imprint) -> Sheet {
    let mut sheet = Sheet::new(imprint.paper, title);
    let out = &mut sheet.drawing;
    let window = window(imprint.paper);
    out.rect(
        window,
        Style::stroked(Stroke::new(Role::Hairline, pen::HAIR)),
    );
    let left = window.x;
    let room = window.w - MAP - 4.0;
    let heading = STRONG.ellipsis(title, room);
    out.text(Text::new(
        Point::new(left, window.bottom() + 5.5),
        &heading,
        STRONG,
    ));
    let bar = Point::new(left, window.bottom() + 14.0);
    level_bar(bar, out);
    let beside = Point::new(bar.x + BAR + 5.0, bar.y + BODY.cap_height() / 2.0);
    out.text(Text::new(beside, TRUE, BODY));
    let words = SMALL.ellipsis(&imprint.words, room);
    let below = Point::new(left, window.bottom() + 20.5);
    out.text(Text::new(below, &words, SMALL).coloured(Role::Muted));
    upright_bar(
        Point::new(window.x - 5.0, window.centre().y - BAR / 2.0),
        out,
    );
    sheet
}

fn ends(from: Point, to: Point, (dx, dy): (f64, f64), out: &mut Drawing) {
    let stroke = Stroke::new(Role::Ink, pen::MEDIUM);
    out.line(from, to, stroke);
    for p in [from, to] {
        out.line(p.moved(-dx, -dy), p.moved(dx, dy), stroke);
    }
}

fn level_bar(from: Point, out: &mut Drawing) {
    let to = from.moved(BAR, 0.0);
    ends(from, to, (0.0, END), out);
    let base = from.towards(to, 0.5).moved(0.0, -0.9);
    out.text(Text::new(base, "100 mm", SMALL).anchored(Anchor::Middle));
}

fn upright_bar(from: Point, out: &mut Drawing) {
    let to = from.moved(0.0, BAR);
    ends(from, to, (END, 0.0), out);
    let base = from.towards(to, 0.5).moved(-0.9, 0.0);
    let text = Text::new(base, "100 mm", SMALL).anchored(Anchor::Middle);
    out.text(text.turned(-90.0));
}

/// Width of the map of pages in mm.
const MAP: f64 = 60.0;

/// Which of the pages this is.
fn map(tiling: &Tiling, here: (usize, usize), imprint: &Imprint, out: &mut Drawing) {
    let window = window(imprint.paper);
    if tiling.count() == 1 {
        return;
    }
    let (columns, rows) = (tiling.columns as f64, tiling.rows as f64);
    let cell_w = (MAP / columns)
        .min(9.0)
        .min(11.0 / rows * window.w / window.h);
    let cell_h = cell_w * window.h / window.w;
    let corner = Point::new(window.right() - columns * cell_w, window.bottom() + 1.5);
    for row in 0..tiling.rows {
        for column in 0..tiling.columns {
            let x = corner.x + column as f64 * cell_w;
            let y = corner.y + row as f64 * cell_h;
            let line = Stroke::new(Role::Ink, pen::FINE);
            let style = if (column, row) == here {
                Style::filled(Role::Accent).edged(line)
            } else {
                Style::stroked(line)
            };
            out.rect(Rect::new(x, y, cell_w, cell_h), style);
        }
    }
}
