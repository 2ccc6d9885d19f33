//! Dimension lines.

use crate::geometry::Point;
use crate::math;
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Stroke, Style, Text, pen};
use crate::text::Lettering;

/// Letters of dimensions.
pub(crate) const LETTERS: Lettering = Lettering::regular(2.6);
const ARROW: f64 = 2.0;

/// A dimension between two points, its line moved off by a vector; `side` is
/// +1 when the figure stands to the left of the way from `a` to `b` (above a
/// line drawn from left to right) and −1 for the other side.
pub(crate) struct Dimension<'a> {
    pub(crate) a: Point,
    pub(crate) b: Point,
    pub(crate) off: (f64, f64),
    pub(crate) side: f64,
    pub(crate) figure: &'a str,
}

impl Dimension<'_> {
    pub(crate) fn draw(&self, out: &mut Drawing) {
        let fine = Stroke::new(Role::Ink, pen::FINE);
        let reach = math::hypot(self.off.0, self.off.1).max(1e-9);
        let away = |p: Point, mm: f64| p.moved(self.off.0 / reach * mm, self.off.1 / reach * mm);
        for p in [self.a, self.b] {
            out.line(away(p, 1.0), away(p, reach + 1.2), fine);
        }
        let (a, b) = (away(self.a, reach), away(self.b, reach));
        let length = a.distance(b);
        let (ux, uy) = ((b.x - a.x) / length, (b.y - a.y) / length);
        let width = LETTERS.width(self.figure);
        let roomy = length > width + 2.0 * ARROW + 1.5;
        if roomy {
            out.line(a, b, fine);
            arrow(a, (ux, uy), out);
            arrow(b, (-ux, -uy), out);
            self.lettered(a.towards(b, 0.5), (ux, uy), out);
        } else {
            // Arrows from outside, the figure beyond the far end.
            let beyond = 2.0 * ARROW + width + 2.0;
            let from = a.moved(-2.0 * ARROW * ux, -2.0 * ARROW * uy);
            let to = b.moved(beyond * ux, beyond * uy);
            out.line(from, to, fine);
            arrow(a, (-ux, -uy), out);
            arrow(b, (ux, uy), out);
            let middle = ARROW + (beyond - ARROW) / 2.0 + 0.5;
            self.lettered(b.moved(middle * ux, middle * uy), (ux, uy), out);
        }
    }

    /// The figure along the line, on its side, read from below or the right.
    fn lettered(&self, at: Point, (ux, uy): (f64, f64), out: &mut Drawing) {
        // Left of the way, y running downwards.
        let (nx, ny) = (uy * self.side, -ux * self.side);
        let flip = ux < -1e-9 || (ux.abs() <= 1e-9 && uy > 0.0);
        let (dx, dy) = if flip { (-ux, -uy) } else { (ux, uy) };
        let turn = math::atan2(dy, dx).to_degrees();
        // Up in the letters' own frame.
        let (vx, vy) = (dy, -dx);
        let above = nx * vx + ny * vy > 0.0;
        let gap = if above {
            0.9
        } else {
            0.9 + LETTERS.cap_height()
        };
        let base = at.moved(nx * gap, ny * gap);
        let text = Text::new(base, self.figure, LETTERS)
            .anchored(Anchor::Middle)
            .turned(turn);
        // Whatever sticks out of the box must not run through the figure.
        out.polygon(&text.corners(), Style::filled(Role::Paper));
        out.text(text);
    }
}

/// A slim filled arrow with its tip at `tip`, its shaft going along `(ux, uy)`.
fn arrow(tip: Point, (ux, uy): (f64, f64), out: &mut Drawing) {
    let back = tip.moved(ARROW * ux, ARROW * uy);
    let half = 0.16 * ARROW;
    out.polygon(
        &[
            tip,
            back.moved(-uy * half, ux * half),
            back.moved(uy * half, -ux * half),
        ],
        Style::filled(Role::Ink),
    );
}
