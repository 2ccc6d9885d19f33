//! One sheet of stock with its pieces and numbered cuts.

use super::cuts::piece_name;
use super::words::{counted, size};
use crate::boxview::mm;
use crate::geometry::{Point, Rect};
use crate::layout::{BODY, Block, Piece, SMALL, STRONG};
use crate::math;
use crate::role::Role;
use crate::sheet::{Anchor, Dash, Drawing, Stroke, Style, Text, pen};
use crate::text::Lettering;
use studies::carpentry::SheetPlan;
use wood::sawing::{Cut, CutSheet, Laid};

/// Drawn no higher than this, mm, so that two sheets find room on a page.
const HIGHEST: f64 = 92.0;
/// Room for numbers around the sheet, mm.
const AROUND: f64 = 7.0;
/// The list of cuts beside the drawing, mm.
const LIST: f64 = 74.0;
const NUMBER: Lettering = Lettering::bold(2.2);
const RADIUS: f64 = 2.1;

/// A sheet of stock, drawn to fit.
pub(super) struct SheetFigure {
    plan: SheetPlan,
    which: usize,
}

impl SheetFigure {
    pub(super) fn new(plan: &SheetPlan, which: usize) -> Self {
        Self {
            plan: plan.clone(),
            which,
        }
    }
}

impl Block for SheetFigure {
    fn pieces(&self, width: f64) -> Vec<Piece> {
        let sheet = &self.plan.layout.sheets[self.which];
        let stock = &self.plan.stock[sheet.stock];
        let room = (width - LIST - 2.0 * AROUND - 4.0, HIGHEST);
        let scale = (room.0 / stock.length).min(room.1 / stock.width);
        let rect = Rect::new(AROUND, AROUND, stock.length * scale, stock.width * scale);
        let mut view = View {
            rect,
            scale,
            taken: Vec::new(),
            out: Drawing::default(),
            unnumbered: Vec::new(),
        };
        view.stock(self.plan.kerf_and_trim[1]);
        let mut unlettered = Vec::new();
        for laid in &sheet.pieces {
            let name = piece_name(&self.plan, laid.blank);
            if !view.piece(&self.plan, laid, &name) {
                unlettered.push(name);
            }
        }
        for cut in &sheet.cuts {
            view.cut(cut);
        }
        for cut in &sheet.cuts {
            view.number(cut);
        }
        for offcut in &sheet.offcuts {
            view.offcut(*offcut);
        }
        let left = rect.right() + AROUND + 6.0;
        let bottom = list(
            sheet,
            &unlettered,
            &view.unnumbered,
            left,
            width,
            &mut view.out,
        );
        vec![Piece {
            height: (rect.bottom() + AROUND).max(bottom),
            drawing: view.out,
            keep_with_next: false,
        }]
    }

    fn space_above(&self) -> f64 {
        0.0
    }
}

/// A sheet being drawn.
struct View {
    rect: Rect,
    scale: f64,
    /// Where something is written.
    taken: Vec<Rect>,
    out: Drawing,
    /// Cuts whose number found no room.
    unnumbered: Vec<usize>,
}

impl View {
    fn at(&self, [x, y]: [f64; 2]) -> Point {
        Point::new(self.rect.x + x * self.scale, self.rect.y + y * self.scale)
    }

    fn stock(&mut self, trim: f64) {
        let edge = Stroke::new(Role::Ink, pen::BOLD);
        self.out
            .rect(self.rect, Style::filled(Role::Tint).edged(edge));
        let corner = Point::new(self.rect.x, self.rect.y);
        let mark = [corner, corner.moved(2.4, 0.0), corner.moved(0.0, 2.4)];
        if trim > 0.0 {
            let inner = self.rect.inset(trim * self.scale);
            let line = Stroke::new(Role::Muted, pen::HAIR);
            self.out.rect(inner, Style::stroked(line));
        }
        self.out.polygon(&mark, Style::filled(Role::Accent));
    }

    /// A piece with its name; whether the name found room.
    fn piece(&mut self, plan: &SheetPlan, laid: &Laid, name: &str) -> bool {
        let at = self.at([laid.x, laid.y]);
        let rect = Rect::new(
            at.x,
            at.y,
            laid.length * self.scale,
            laid.width * self.scale,
        );
        let edge = Stroke::new(Role::Ink, pen::MEDIUM);
        self.out.rect(rect, Style::filled(Role::Wood).edged(edge));
        let letter = plan.letters.get(laid.blank).map_or("", String::as_str);
        let measures = size([laid.length, laid.width]);
        let named = self.lettered(rect, &[(name, STRONG), (&measures, SMALL)])
            || self.lettered(rect, &[(letter, STRONG), (&measures, SMALL)])
            || self.lettered(rect, &[(name, STRONG)])
            || self.lettered(rect, &[(letter, STRONG)])
            || self.lettered(rect, &[(letter, SMALL)])
            || self.upright(rect, name)
            || self.upright(rect, letter);
        self.grain(rect, laid, plan);
        named
    }

    /// Lines in the middle of a piece, if they fit.
    fn lettered(&mut self, rect: Rect, lines: &[(&str, Lettering)]) -> bool {
        const GAP: f64 = 1.3;
        let width = lines.iter().map(|(t, l)| l.width(t)).fold(0.0, f64::max);
        let heights: f64 = lines.iter().map(|(_, l)| l.cap_height()).sum();
        let height = heights + GAP * (lines.len() - 1) as f64;
        let text = Rect::new(
            rect.centre().x - width / 2.0,
            rect.centre().y - height / 2.0,
            width,
            height,
        );
        if !rect.inset(1.6).contains(&text) {
            return false;
        }
        let mut base = text.y;
        for (content, letters) in lines {
            base += letters.cap_height();
            let at = Point::new(rect.centre().x, base);
            self.out
                .text(Text::new(at, content, *letters).anchored(Anchor::Middle));
            base += GAP;
        }
        self.taken.push(text.inset(-1.0));
        true
    }

    /// One line read from the right, if it fits.
    fn upright(&mut self, rect: Rect, content: &str) -> bool {
        let (w, h) = (SMALL.width(content), SMALL.size_mm);
        let centre = rect.centre();
        let text = Rect::new(centre.x - h / 2.0, centre.y - w / 2.0, h, w);
        if content.is_empty() || !rect.inset(0.4).contains(&text) {
            return false;
        }
        let words = Text::new(centre, content, SMALL).anchored(Anchor::Middle);
        self.out.text(words.turned(-90.0).centred());
        self.taken.push(text.inset(-0.6));
        true
    }

    /// An arrow along the face grain, which runs along the stock.
    fn grain(&mut self, rect: Rect, laid: &Laid, plan: &SheetPlan) {
        let free = plan.blanks.get(laid.blank).is_some_and(|b| b.turns);
        let y = rect.bottom() - 2.2;
        let long = (0.3 * rect.w).min(9.0);
        let from = Point::new(rect.centre().x - long / 2.0, y);
        let to = from.moved(long, 0.0);
        let own = Rect::new(from.x, y - 0.8, long, 1.6);
        if rect.h < 9.0 || long < 4.0 || self.taken.iter().any(|t| t.overlaps(&own)) {
            return;
        }
        let role = if free { Role::Muted } else { Role::Ink };
        let fine = Stroke::new(role, pen::FINE);
        self.out.line(from, to, fine);
        let head = [to, to.moved(-1.8, -0.5), to.moved(-1.8, 0.5)];
        self.out.polygon(&head, Style::filled(role));
        self.taken.push(own);
    }

    fn cut(&mut self, cut: &Cut) {
        let (a, b) = (self.at(cut.from), self.at(cut.to));
        let line = Stroke::new(Role::Stop, pen::MEDIUM).dashed(Dash::Dashed);
        self.out.line(a, b, line);
    }

    fn number(&mut self, cut: &Cut) {
        let (a, b) = (self.at(cut.from), self.at(cut.to));
        let Some(at) = self.number_place(a, b) else {
            self.unnumbered.push(cut.number);
            return;
        };
        let edge = Stroke::new(Role::Stop, pen::THIN);
        self.out
            .circle(at, RADIUS, Style::filled(Role::Paper).edged(edge));
        let text = Text::new(at, &cut.number.to_string(), NUMBER);
        let text = text.coloured(Role::Stop).anchored(Anchor::Middle);
        self.out.text(text.centred());
        self.taken.push(ring(at));
    }

    /// Beyond the ends of the cut where it reaches the edge of the sheet, else on it.
    fn number_place(&self, a: Point, b: Point) -> Option<Point> {
        let long = a.distance(b).max(1e-9);
        let (ux, uy) = ((b.x - a.x) / long, (b.y - a.y) / long);
        let reaches = |p: Point| {
            let near = |u: f64, v: f64| math::abs(u - v) < 4.0;
            if math::abs(ux) > 0.5 {
                near(p.x, self.rect.x) || near(p.x, self.rect.right())
            } else {
                near(p.y, self.rect.y) || near(p.y, self.rect.bottom())
            }
        };
        let mut places = Vec::new();
        for (end, sign) in [(b, 1.0), (a, -1.0)] {
            if reaches(end) {
                let out = if math::abs(ux) > 0.5 {
                    let x = if sign * ux > 0.0 {
                        self.rect.right() + RADIUS + 1.0
                    } else {
                        self.rect.x - RADIUS - 1.0
                    };
                    Point::new(x, end.y)
                } else {
                    let y = if sign * uy > 0.0 {
                        self.rect.bottom() + RADIUS + 1.0
                    } else {
                        self.rect.y - RADIUS - 1.0
                    };
                    Point::new(end.x, y)
                };
                places.push(out);
            }
        }
        places.extend(
            [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9]
                .iter()
                .map(|t| a.towards(b, *t)),
        );
        let free = |p: &Point| self.taken.iter().all(|t| !t.overlaps(&ring(*p)));
        places.into_iter().find(free)
    }

    fn offcut(&mut self, [x, y, length, width]: [f64; 4]) {
        let at = self.at([x, y]);
        let rect = Rect::new(at.x, at.y, length * self.scale, width * self.scale);
        let said = format!("offcut {}, keep", size([length, width]));
        let short = size([length, width]);
        for text in [said.as_str(), short.as_str()] {
            let w = SMALL.width(text);
            let own = Rect::new(
                rect.centre().x - w / 2.0,
                rect.centre().y - SMALL.size_mm / 2.0,
                w,
                SMALL.size_mm,
            );
            let free = self.taken.iter().all(|t| !t.overlaps(&own));
            if rect.inset(1.0).contains(&own) && free {
                let words = Text::new(rect.centre(), text, SMALL);
                let words = words.coloured(Role::Muted).anchored(Anchor::Middle);
                self.out.text(words.centred());
                self.taken.push(own);
                return;
            }
        }
    }
}

fn ring(at: Point) -> Rect {
    Rect::new(at.x - RADIUS, at.y - RADIUS, 2.0 * RADIUS, 2.0 * RADIUS).inset(-0.3)
}

/// The cuts as a table beside the drawing; gives where it ends.
fn list(
    sheet: &CutSheet,
    unlettered: &[String],
    unnumbered: &[usize],
    left: f64,
    width: f64,
    out: &mut Drawing,
) -> f64 {
    let mut y = table(sheet, left, width, out);
    let mut say = |text: &str| {
        for line in SMALL.wrap(text, width - left) {
            y += SMALL.leading();
            out.text(Text::new(Point::new(left, y), &line, SMALL).coloured(Role::Muted));
        }
    };
    if !unnumbered.is_empty() {
        let numbers: Vec<String> = unnumbered.iter().map(usize::to_string).collect();
        let cuts = if numbers.len() == 1 { "Cut" } else { "Cuts" };
        let numbers = numbers.join(", ");
        say(&format!(
            "{cuts} {numbers}: too short to number in the drawing."
        ));
    }
    if !unlettered.is_empty() {
        say(&format!("Too small to letter: {}.", counted(unlettered)));
    }
    y + SMALL.descent()
}

/// Between the columns of the table of cuts, mm.
const APART: f64 = 2.2;
/// Cuts in one column of the table.
const A_COLUMN: usize = 26;

/// Number, way, fence and piece in hand of each cut, in two columns where they are many.
fn table(sheet: &CutSheet, left: f64, width: f64, out: &mut Drawing) -> f64 {
    let cuts: Vec<[String; 4]> = sheet.cuts.iter().map(cut_words).collect();
    if cuts.is_empty() {
        return AROUND;
    }
    let head = ["", "way", "fence", "piece in hand, mm"].map(str::to_owned);
    let letters = if cuts.len() <= 20 { BODY } else { SMALL };
    let wide = |column: usize| {
        let cells = cuts.iter().map(|row| letters.width(&row[column]));
        cells.fold(0.0, f64::max)
    };
    let wides = [0, 1, 2, 3].map(wide);
    let wides = [
        wides[0],
        wides[1],
        wides[2].max(SMALL.width(&head[2])),
        wides[3],
    ];
    let whole = wides.iter().sum::<f64>() + 3.0 * APART;
    let half = (width - left - APART) / 2.0;
    let columns = if cuts.len() > A_COLUMN && whole <= half {
        2
    } else {
        1
    };
    let mut bottom = AROUND;
    for (i, some) in cuts.chunks(cuts.len().div_ceil(columns)).enumerate() {
        let x = left + i as f64 * (half + APART);
        let mut y = AROUND + SMALL.leading();
        // The last heading may be wider than its column: only the first table says it whole.
        let last = if columns == 1 { &head[3] } else { "of, mm" };
        let headings = [head[0].as_str(), &head[1], &head[2], last];
        row(headings, wides, Point::new(x, y), (SMALL, Role::Muted), out);
        for cut in some {
            y += letters.leading();
            let cells = cut.each_ref().map(String::as_str);
            row(cells, wides, Point::new(x, y), (letters, Role::Ink), out);
        }
        bottom = bottom.max(y);
    }
    bottom
}

/// One row: figures to the right of their columns, words to the left.
fn row(
    cells: [&str; 4],
    wides: [f64; 4],
    at: Point,
    (letters, role): (Lettering, Role),
    out: &mut Drawing,
) {
    let mut x = at.x;
    for (i, (cell, wide)) in cells.into_iter().zip(wides).enumerate() {
        let (x0, anchor) = match i {
            0 | 2 => (x + wide, Anchor::End),
            _ => (x, Anchor::Start),
        };
        if !cell.is_empty() {
            let text = Text::new(Point::new(x0, at.y), cell, letters);
            out.text(text.coloured(role).anchored(anchor));
        }
        x += wide + APART;
    }
}

/// Number, way, fence and piece in hand.
fn cut_words(cut: &Cut) -> [String; 4] {
    let along = math::abs(cut.to[0] - cut.from[0]) > math::abs(cut.to[1] - cut.from[1]);
    let way = if along { "along" } else { "across" };
    let [_, _, length, width] = cut.piece;
    [
        cut.number.to_string(),
        way.to_owned(),
        mm(cut.fence),
        size([length, width]),
    ]
}
