//! Labels in columns beside a drawing, joined to what they name by leaders that do not
//! cross one another.

use crate::geometry::{Point, Rect};
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Stroke, Style, Text, pen};
use crate::text::Lettering;

const LETTERS: Lettering = Lettering::regular(2.1);
/// Least and greatest distance of two rows, mm.
const ROW: [f64; 2] = [2.9, 4.2];
/// Between a leader, its swatch and its label.
const GAP: f64 = 0.8;
/// A swatch of the colour of what is named.
const SWATCH: [f64; 2] = [3.0, 1.4];

/// Something to be named.
pub(crate) struct Callout {
    /// What its leader ends on.
    pub(crate) at: Point,
    pub(crate) text: String,
    /// Colour of what is named; the letters themselves are ink.
    pub(crate) role: Role,
}

/// Width of a column for such labels.
pub(crate) fn width_wanted<'a>(texts: impl Iterator<Item = &'a str>) -> f64 {
    let widths = texts.map(|text| LETTERS.width(text));
    widths.fold(0.0, f64::max) + SWATCH[0] + 2.0 * GAP
}

/// Height that so many labels want, half of them on each side.
pub(crate) fn height_wanted(count: usize) -> f64 {
    ROW[0] * count.div_ceil(2) as f64
}

/// Two columns: the edges that face the drawing, their width and their height.
#[derive(Clone, Copy)]
pub(crate) struct Columns {
    pub(crate) left: f64,
    pub(crate) right: f64,
    pub(crate) wide: f64,
    pub(crate) top: f64,
    pub(crate) bottom: f64,
}

/// Draws labels and leaders: every point goes to the column that is nearer, as far as
/// there are rows for it.
pub(crate) fn draw(callouts: &[Callout], columns: Columns, out: &mut Drawing) {
    let mut order: Vec<usize> = (0..callouts.len()).collect();
    order.sort_by(|a, b| {
        let (p, q) = (callouts[*a].at, callouts[*b].at);
        p.x.total_cmp(&q.x).then(p.y.total_cmp(&q.y))
    });
    let rows = ((columns.bottom - columns.top) / ROW[0]) as usize;
    let middle = (columns.left + columns.right) / 2.0;
    let near = callouts.iter().filter(|c| c.at.x < middle).count();
    let half = order.len() / 2;
    let least = order.len().saturating_sub(rows).min(half);
    let (left, right) = order.split_at(near.clamp(least, rows.max(half)).min(order.len()));
    for (own, x, anchor) in [
        (left, columns.left, Anchor::End),
        (right, columns.right, Anchor::Start),
    ] {
        let points: Vec<Point> = own.iter().map(|i| callouts[*i].at).collect();
        let slots = slots(&points, x, columns);
        for (slot, point) in slots.iter().zip(uncrossed(&points, &slots)) {
            let callout = &callouts[own[point]];
            let fine = Stroke::new(Role::Muted, pen::FINE);
            out.line(*slot, callout.at, fine);
            let way = if anchor == Anchor::End { -1.0 } else { 1.0 };
            let [wide, high] = SWATCH;
            let near = slot.x + way * GAP;
            let swatch = Rect::new(near.min(near + way * wide), slot.y - high / 2.0, wide, high);
            let edge = Stroke::new(Role::Ink, pen::FINE);
            out.rect(swatch, Style::filled(callout.role).edged(edge));
            let taken = 2.0 * GAP + wide;
            let said = LETTERS.ellipsis(&callout.text, columns.wide - taken);
            let text = Text::new(slot.moved(way * taken, 0.0), &said, LETTERS);
            out.text(text.anchored(anchor).centred());
        }
    }
}

/// Rows of a column, about the middle height of what they name.
fn slots(points: &[Point], x: f64, columns: Columns) -> Vec<Point> {
    let count = points.len();
    if count == 0 {
        return Vec::new();
    }
    let high = columns.bottom - columns.top;
    let pitch = (high / count as f64).clamp(ROW[0], ROW[1]);
    let used = pitch * (count - 1) as f64;
    let middle = points.iter().map(|p| p.y).sum::<f64>() / count as f64;
    let half = 0.5 * pitch;
    let last = (columns.bottom - half - used).max(columns.top + half);
    let first = (middle - used / 2.0).clamp(columns.top + half, last);
    (0..count)
        .map(|i| Point::new(x, first + pitch * i as f64))
        .collect()
}

/// Which point goes to each slot: two leaders that cross are longer together than
/// those with their ends exchanged, so that exchanges which shorten end without a crossing.
fn uncrossed(points: &[Point], slots: &[Point]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..points.len()).collect();
    order.sort_by(|a, b| points[*a].y.total_cmp(&points[*b].y));
    let long = |slot: usize, point: usize| slots[slot].distance(points[point]);
    let mut shorter = true;
    while shorter {
        shorter = false;
        for i in 0..order.len() {
            for j in i + 1..order.len() {
                let (a, b) = (order[i], order[j]);
                if long(i, b) + long(j, a) < long(i, a) + long(j, b) - 1e-9 {
                    order.swap(i, j);
                    shorter = true;
                }
            }
        }
    }
    order
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn side(p: Point, q: Point, r: Point) -> f64 {
        (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x)
    }

    fn cross(a: Point, b: Point, c: Point, d: Point) -> bool {
        side(a, b, c) * side(a, b, d) < -1e-9 && side(c, d, a) * side(c, d, b) < -1e-9
    }

    proptest! {
        #[test]
        fn no_leaders_cross(spots in prop::collection::vec((0.0f64..50.0, 0.0f64..60.0), 1..16)) {
            let callouts: Vec<Callout> = spots
                .iter()
                .map(|(x, y)| Callout {
                    at: Point::new(*x, *y),
                    text: String::new(),
                    role: Role::Ink,
                })
                .collect();
            let columns = Columns { left: -8.0, right: 58.0, wide: 40.0, top: 0.0, bottom: 60.0 };
            let mut out = Drawing::default();
            draw(&callouts, columns, &mut out);
            let lines: Vec<(Point, Point)> = out
                .items
                .iter()
                .filter_map(|item| match item {
                    crate::sheet::Item::Shape(shape, _) => {
                        let path = shape.to_path().flatten();
                        let line = path.first().filter(|l| l.points.len() == 2);
                        line.map(|l| (l.points[0], l.points[1]))
                    }
                    _ => None,
                })
                .collect();
            prop_assert_eq!(lines.len(), callouts.len());
            for (i, (a, b)) in lines.iter().enumerate() {
                for (c, d) in &lines[..i] {
                    prop_assert!(!cross(*a, *b, *c, *d));
                }
            }
        }
    }
}
