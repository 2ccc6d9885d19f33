//! The promises: value, band, the brief's mark, odds.

use super::block::{Block, Piece};
use super::symbol::role_of;
use super::{BODY, SMALL, symbol};
use crate::geometry::{Point, Rect};
use crate::role::Role;
use crate::sheet::{Drawing, Stroke, Style, Text, pen};
use crate::text::Lettering;
use studies::check::Severity;

/// One promise as it is shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Promise {
    /// Its name ("Low").
    pub name: String,
    /// Its value as text.
    pub value: String,
    /// Unit of the value.
    pub unit: String,
    /// What exactly the value is.
    pub about: String,
    /// The value as a number, for the bar.
    pub number: f64,
    /// P10 and P90, where drawn builds gave them.
    pub band: Option<(f64, f64)>,
    /// What the brief asks for.
    pub target: Option<f64>,
    /// How it stands against the brief; `None` without a wish.
    pub state: Option<Severity>,
    /// The odds as a sentence, or what else there is to say.
    pub odds: String,
}

/// Promises side by side.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PromiseStrip {
    /// The promises.
    pub promises: Vec<Promise>,
}

const VALUE: Lettering = Lettering::bold(6.2);
const UNIT: Lettering = Lettering::regular(3.0);
/// Inside a cell, left and right.
const PAD: f64 = 3.2;
/// Room for the sign before the odds.
const INDENT: f64 = 3.2;

impl Block for PromiseStrip {
    fn pieces(&self, width: f64) -> Vec<Piece> {
        if self.promises.is_empty() {
            return Vec::new();
        }
        let cell = width / self.promises.len() as f64;
        let inner = cell - 2.0 * PAD;
        let lines = |text: fn(&Promise) -> &str, width: f64| {
            let wrapped = self.promises.iter().map(|p| SMALL.wrap(text(p), width));
            wrapped.map(|lines| lines.len()).max().unwrap_or(0)
        };
        let about = lines(|p| &p.about, inner);
        let odds = lines(|p| &p.odds, inner - INDENT);
        let mut drawing = Drawing::default();
        let mut height = 0.0_f64;
        for (i, promise) in self.promises.iter().enumerate() {
            let (part, tall) = promise.draw(inner, about, odds);
            drawing.append(part.moved(cell * i as f64 + PAD, 0.0));
            height = height.max(tall);
        }
        rules(self.promises.len(), cell, height, &mut drawing);
        vec![Piece {
            height,
            drawing,
            keep_with_next: false,
        }]
    }
}

fn rules(count: usize, cell: f64, height: f64, out: &mut Drawing) {
    let ink = Stroke::new(Role::Ink, pen::MEDIUM);
    let hair = Stroke::new(Role::Hairline, pen::THIN);
    let width = cell * count as f64;
    for y in [0.0, height] {
        out.line(Point::new(0.0, y), Point::new(width, y), ink);
    }
    for i in 1..count {
        let x = cell * i as f64;
        out.line(Point::new(x, 0.0), Point::new(x, height), hair);
    }
}

impl Promise {
    /// The cell's content and height; `about` and `odds` are the lines kept
    /// free for those texts.
    fn draw(&self, width: f64, about: usize, odds: usize) -> (Drawing, f64) {
        let mut out = Drawing::default();
        let mut base = 2.8 + BODY.cap_height();
        out.text(Text::new(Point::new(0.0, base), &self.name, BODY).coloured(Role::Muted));
        base += 2.6 + VALUE.cap_height();
        self.value_line(base, width, &mut out);
        base += 1.6;
        let small = |text: &str, base: f64, role: Role, out: &mut Drawing| {
            let mut y = base;
            for line in SMALL.wrap(text, width) {
                y += SMALL.leading();
                out.text(Text::new(Point::new(0.0, y), &line, SMALL).coloured(role));
            }
        };
        small(&self.about, base, Role::Muted, &mut out);
        base += SMALL.leading() * about as f64 + 2.6;
        self.bar(Rect::new(0.0, base, width, 4.6), &mut out);
        base += 5.6;
        let role = self.state.map_or(Role::Muted, role_of);
        let indent = if self.state.is_some() { INDENT } else { 0.0 };
        if let Some(state) = self.state {
            let middle = base + SMALL.leading() - SMALL.cap_height() / 2.0;
            symbol(&mut out, state, Point::new(1.1, middle), 2.0);
        }
        let mut y = base;
        for line in SMALL.wrap(&self.odds, width - indent) {
            y += SMALL.leading();
            out.text(Text::new(Point::new(indent, y), &line, SMALL).coloured(role));
        }
        (out, base + SMALL.leading() * (odds + 1) as f64)
    }

    fn value_line(&self, base: f64, width: f64, out: &mut Drawing) {
        let unit = UNIT.width(&self.unit) + 1.2;
        let letters = VALUE.fitted(&self.value, width - unit, 2.5);
        let value = letters.ellipsis(&self.value, width - unit);
        out.text(Text::new(Point::new(0.0, base), &value, letters));
        let x = letters.width(&value) + 1.2;
        out.text(Text::new(Point::new(x, base), &self.unit, UNIT));
    }

    /// A scale with the band as a block, the value as a tick through it, and
    /// the brief's mark as a triangle above.
    fn bar(&self, area: Rect, out: &mut Drawing) {
        let Some((low, high)) = self.bar_range() else {
            return;
        };
        let at = |v: f64| area.x + area.w * ((v - low) / (high - low)).clamp(0.0, 1.0);
        let y = area.y + 3.0;
        let rule = Stroke::new(Role::Hairline, pen::MEDIUM);
        out.line(Point::new(area.x, y), Point::new(area.right(), y), rule);
        let role = self.state.map_or(Role::Muted, role_of);
        if let Some((p10, p90)) = self.band {
            let (a, b) = (at(p10.min(p90)), at(p10.max(p90)));
            let rect = Rect::new(a, y - 1.0, (b - a).max(0.3), 2.0);
            out.rect(rect, Style::washed(role, 0.38));
        }
        let tick = Stroke::new(Role::Ink, 0.4);
        let x = at(self.number);
        out.line(Point::new(x, y - 1.6), Point::new(x, y + 1.6), tick);
        if let Some(target) = self.target {
            let tip = Point::new(at(target), y - 1.3);
            let triangle = [tip, tip.moved(-0.95, -1.6), tip.moved(0.95, -1.6)];
            out.polygon(&triangle, Style::filled(Role::Ink));
        }
    }

    /// From a bit below everything shown to a bit above it.
    fn bar_range(&self) -> Option<(f64, f64)> {
        let shown = [
            Some(self.number),
            self.band.map(|b| b.0),
            self.band.map(|b| b.1),
            self.target,
        ];
        let shown = shown.into_iter().flatten().filter(|v| v.is_finite());
        let (low, high) = shown.fold((f64::MAX, f64::MIN), |(a, b), v| (a.min(v), b.max(v)));
        if low > high {
            return None;
        }
        let span = (high - low).max(0.02 * high.abs()).max(1e-9);
        Some((low - 0.35 * span, high + 0.35 * span))
    }
}
