//! Labels to cut out and fold round the ends of the wires.

use super::list::cut;
use crate::geometry::{Point, Rect};
use crate::layout::{HEAD, SMALL, content_area};
use crate::pack::Page;
use crate::paper::Paper;
use crate::role::Role;
use crate::sheet::{Anchor, Dash, Drawing, Stroke, Style, Text, pen};
use crate::text::Lettering;
use studies::electrics::{Electrics, colour};

/// A label: its two halves lie back to back round the wire.
const SIZE: (f64, f64) = (64.0, 7.0);
const GAP: f64 = 2.0;
const HEADING: f64 = 8.0;
const LETTERS: Lettering = Lettering::regular(2.3);
const NUMBER: Lettering = Lettering::bold(2.6);

/// Two labels for every wire, row by row.
pub(super) fn pages(electrics: &Electrics, paper: Paper) -> Vec<Page> {
    let area = content_area(paper);
    let columns = (((area.w + GAP) / (SIZE.0 + GAP)) as usize).max(1);
    let rows = (((area.h - HEADING + GAP) / (SIZE.1 + GAP)) as usize).max(1);
    let labels: Vec<(&str, &str, &str)> = cut(electrics)
        .flat_map(|w| {
            let letters = colour::letters(w.colour);
            w.texts
                .iter()
                .map(move |t| (w.label.as_str(), t.as_str(), letters))
        })
        .collect();
    labels
        .chunks(columns * rows)
        .map(|some| {
            let mut out = Drawing::default();
            let at = Point::new(area.x, area.y + HEAD.cap_height());
            out.text(Text::new(at, "Labels for both ends of every wire", HEAD));
            let beside = at.moved(HEAD.width("Labels for both ends of every wire") + 2.5, 0.0);
            let remark = "cut out, fold at the dashes round the wire, hold with clear tape";
            out.text(Text::new(beside, remark, SMALL).coloured(Role::Muted));
            for (i, own) in some.iter().enumerate() {
                let x = area.x + (SIZE.0 + GAP) * (i % columns) as f64;
                let y = area.y + HEADING + (SIZE.1 + GAP) * (i / columns) as f64;
                label(Rect::new(x, y, SIZE.0, SIZE.1), *own, &mut out);
            }
            Page {
                scale: "1 : 1".to_owned(),
                ..Page::new("Wire labels", out)
            }
        })
        .collect()
}

/// Number and colour on one half, number and where this end goes on the other.
fn label(rect: Rect, (number, text, letters): (&str, &str, &str), out: &mut Drawing) {
    let thin = Stroke::new(Role::Muted, pen::THIN);
    out.rect(rect, Style::stroked(thin));
    let fold = rect.x + 14.0;
    let dashes = thin.dashed(Dash::Short);
    out.line(
        Point::new(fold, rect.y),
        Point::new(fold, rect.bottom()),
        dashes,
    );
    let y = rect.centre().y;
    let small = Point::new((rect.x + fold) / 2.0, y);
    let short = NUMBER.fitted(&format!("{number} {letters}"), 12.4, 1.8);
    let said = Text::new(small, &format!("{number} {letters}"), short);
    out.text(said.anchored(Anchor::Middle).centred());
    let room = rect.right() - fold - 2.4;
    let fitted = LETTERS.fitted(text, room, 1.8);
    let at = Point::new((fold + rect.right()) / 2.0, y);
    let said = Text::new(at, &fitted.ellipsis(text, room), fitted);
    out.text(said.anchored(Anchor::Middle).centred());
}
