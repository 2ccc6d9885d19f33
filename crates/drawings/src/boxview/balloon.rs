//! Numbered balloons in a column, joined to the parts by leaders that cross
//! neither one another nor the dimensions.

use crate::geometry::Point;
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Stroke, Style, Text, pen};
use crate::text::Lettering;

const NUMBER: Lettering = Lettering::bold(2.4);
const LABEL: Lettering = Lettering::regular(2.7);
const RADIUS: f64 = 2.5;

/// A part to be numbered.
pub(crate) struct Numbered {
    pub(crate) number: usize,
    pub(crate) label: String,
    /// Points its leader may end on: equal parts offer one each.
    pub(crate) anchors: Vec<Point>,
}

/// Space for balloons and labels.
#[derive(Clone, Copy)]
pub(crate) struct Column {
    /// Left edge of the balloons.
    pub(crate) left: f64,
    /// Right edge of the labels.
    pub(crate) right: f64,
    pub(crate) top: f64,
    pub(crate) bottom: f64,
}

/// A leader under trial.
#[derive(Clone, Copy)]
struct Leader {
    from: Point,
    to: Point,
}

/// Draws balloons, labels and leaders, clear of `lines`.
pub(crate) fn draw(
    parts: &[Numbered],
    column: Column,
    lines: &[(Point, Point)],
    out: &mut Drawing,
) {
    if parts.is_empty() {
        return;
    }
    let slots = slots(parts.len(), column);
    let order = best_order(parts, &slots, lines);
    let fine = Stroke::new(Role::Ink, pen::FINE);
    for (slot, &(part, anchor)) in slots.iter().zip(&order) {
        let leader = leader(*slot, parts[part].anchors[anchor]);
        out.line(leader.from, leader.to, fine);
        out.circle(leader.to, 0.45, Style::filled(Role::Ink));
    }
    let pitch = slots.windows(2).map(|pair| pair[0].distance(pair[1]));
    // Two lines of a label want more than the closest pitch.
    let lines = if pitch.fold(f64::INFINITY, f64::min) < 2.0 * LABEL.leading() {
        1
    } else {
        2
    };
    for (slot, &(part, _)) in slots.iter().zip(&order) {
        balloon(&parts[part], *slot, column.right, lines, out);
    }
}

/// Centres of the balloons, evenly down the column.
fn slots(count: usize, column: Column) -> Vec<Point> {
    let pitch = ((column.bottom - column.top) / count as f64).clamp(2.0 * RADIUS + 1.5, 17.0);
    let used = pitch * (count - 1) as f64;
    let first = (column.top + column.bottom - used) / 2.0;
    (0..count)
        .map(|i| Point::new(column.left + RADIUS, first + pitch * i as f64))
        .collect()
}

fn leader(slot: Point, anchor: Point) -> Leader {
    let length = slot.distance(anchor).max(1e-9);
    Leader {
        from: slot.towards(anchor, RADIUS / length),
        to: anchor,
    }
}

/// Which part, by which of its anchors, goes to which slot: the order of
/// least crossings, then of shortest leaders, reached by swapping pairs.
fn best_order(
    parts: &[Numbered],
    slots: &[Point],
    lines: &[(Point, Point)],
) -> Vec<(usize, usize)> {
    let mut order: Vec<(usize, usize)> = (0..parts.len()).map(|i| (i, 0)).collect();
    order.sort_by(|a, b| {
        let y = |i: &(usize, usize)| parts[i.0].anchors[0].y;
        y(a).total_cmp(&y(b))
    });
    let mut best = cost(parts, slots, lines, &order);
    let mut improved = true;
    while improved {
        improved = false;
        for i in 0..order.len() {
            for anchor in 0..parts[order[i].0].anchors.len() {
                let mut trial = order.clone();
                trial[i].1 = anchor;
                improved |= keep_better(parts, slots, lines, trial, &mut order, &mut best);
            }
            for j in i + 1..order.len() {
                let mut trial = order.clone();
                trial.swap(i, j);
                improved |= keep_better(parts, slots, lines, trial, &mut order, &mut best);
            }
        }
    }
    order
}

fn keep_better(
    parts: &[Numbered],
    slots: &[Point],
    lines: &[(Point, Point)],
    trial: Vec<(usize, usize)>,
    order: &mut Vec<(usize, usize)>,
    best: &mut f64,
) -> bool {
    let cost = cost(parts, slots, lines, &trial);
    if cost < *best - 1e-9 {
        (*order, *best) = (trial, cost);
        return true;
    }
    false
}

fn cost(
    parts: &[Numbered],
    slots: &[Point],
    lines: &[(Point, Point)],
    order: &[(usize, usize)],
) -> f64 {
    const CROSSING: f64 = 1000.0;
    let leaders: Vec<Leader> = slots
        .iter()
        .zip(order)
        .map(|(slot, &(part, anchor))| leader(*slot, parts[part].anchors[anchor]))
        .collect();
    let mut sum = 0.0;
    for (i, a) in leaders.iter().enumerate() {
        sum += a.from.distance(a.to);
        for b in &leaders[..i] {
            if cross(a.from, a.to, b.from, b.to) {
                sum += CROSSING;
            }
        }
        for (p, q) in lines {
            if cross(a.from, a.to, *p, *q) {
                sum += CROSSING;
            }
        }
    }
    sum
}

/// Whether two stretches cross.
fn cross(a: Point, b: Point, c: Point, d: Point) -> bool {
    let side = |p: Point, q: Point, r: Point| (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

fn balloon(part: &Numbered, centre: Point, right: f64, most: usize, out: &mut Drawing) {
    let edge = Stroke::new(Role::Ink, pen::MEDIUM);
    out.circle(centre, RADIUS, Style::filled(Role::Paper).edged(edge));
    out.text(
        Text::new(centre, &part.number.to_string(), NUMBER)
            .anchored(Anchor::Middle)
            .centred(),
    );
    let x = centre.x + RADIUS + 1.8;
    let mut lines = LABEL.wrap(&part.label, right - x);
    if lines.len() > most {
        let rest = lines.split_off(most - 1).join(" ");
        lines.push(LABEL.ellipsis(&rest, right - x));
    }
    let shift = 0.6 * LABEL.leading() * (lines.len() - 1) as f64;
    for (i, line) in lines.iter().enumerate() {
        let y = centre.y - shift + 1.2 * LABEL.leading() * i as f64;
        let at = Point::new(x, y.max(centre.y - shift));
        out.text(Text::new(at, line, LABEL).centred());
    }
}

/// The room that balloons of these labels want across, at most `most`.
pub(crate) fn width_wanted(labels: &[&str], most: f64) -> f64 {
    let widest = labels.iter().map(|l| LABEL.width(l)).fold(0.0, f64::max);
    (2.0 * RADIUS + 1.8 + widest + 0.5).min(most)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn leaders_are_uncrossed() {
        // Three anchors whose heights mislead: only one order is free.
        let part = |number, x, y| Numbered {
            number,
            label: String::new(),
            anchors: vec![Point::new(x, y)],
        };
        let parts = [part(1, 0.0, 50.0), part(2, 40.0, 52.0), part(3, 20.0, 48.0)];
        let column = Column {
            left: 60.0,
            right: 90.0,
            top: 0.0,
            bottom: 60.0,
        };
        let slots = slots(3, column);
        let order = best_order(&parts, &slots, &[]);
        let cost = cost(&parts, &slots, &[], &order);
        assert!(cost < 1000.0, "{order:?}");
    }
}
