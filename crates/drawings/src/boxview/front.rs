//! The front, true to scale, with its holes.

use super::balloon::outline;
use super::dimension::{Dimension, LETTERS};
use super::{BoxPicture, PictureShape};
use crate::geometry::{Point, Rect};
use crate::math;
use crate::role::Role;
use crate::sheet::{Anchor, Dash, Drawing, Stroke, Style, Text, pen};
use crate::spread::spread;
use crate::text::number;

/// The front as a drawing, with the scale it came out in.
#[derive(Clone, Debug, PartialEq)]
pub struct FrontView {
    /// What is drawn.
    pub drawing: Drawing,
    /// Millimetres of the box to one on paper.
    pub scale: f64,
    /// Sizes of holes that found no room beside the hole.
    pub notes: Vec<String>,
}

impl FrontView {
    /// The scale as a title block says it ("1 : 4").
    #[must_use]
    pub fn scale_text(&self) -> String {
        let decimals = usize::from(self.scale.fract() > 0.0);
        format!("1 : {}", number(self.scale, decimals))
    }
}

/// Scales offered: millimetres of the box to one on paper.
const SCALES: [f64; 13] = [
    1.0, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 10.0, 12.0, 15.0, 20.0,
];
/// From the front to its overall dimensions.
const OFF: f64 = 6.0;
/// From the front to the end of an extension line.
const JOG: f64 = 5.0;
/// Between figures side by side.
const PITCH: f64 = 3.4;
const FINE: Stroke = Stroke::new(Role::Ink, pen::FINE);

/// A round opening.
#[derive(Clone, Copy, PartialEq)]
struct Hole {
    x: f64,
    y: f64,
    cutout: f64,
    /// What covers it.
    frame: f64,
    kind: &'static str,
}

/// Left edge, lower edge, scale: from the box to the sheet.
struct Place {
    front: Rect,
    scale: f64,
}

impl Place {
    fn at(&self, x_mm: f64, y_mm: f64) -> Point {
        self.front
            .centre()
            .moved(x_mm / self.scale, -y_mm / self.scale)
    }
}

pub(crate) fn draw(picture: &BoxPicture, area: Rect) -> FrontView {
    let holes = holes(picture);
    let xs = distinct(holes.iter().map(|h| h.x));
    let ys = distinct(holes.iter().map(|h| h.y));
    let [w, h, _] = picture.outside.map(|m| 1000.0 * m);
    let figure = 1.0 + LETTERS.width("0000");
    let (before, after) = (JOG + figure, OFF + 2.0 + LETTERS.size_mm);
    let room = (area.w - before - after, area.h - before - after);
    let scale = SCALES
        .into_iter()
        .find(|s| w / s <= room.0 && h / s <= room.1)
        .unwrap_or_else(|| math::ceil((w / room.0).max(h / room.1)));
    let front = Rect::new(area.x + before, area.y + after, w / scale, h / scale);
    let place = Place { front, scale };
    let mut out = Drawing::default();
    let edge = Stroke::new(Role::Ink, pen::BOLD);
    out.rect(front, Style::filled(Role::Wood).edged(edge));
    wall_lines(picture, &place, &mut out);
    for hole in &holes {
        draw_hole(hole, &place, &mut out);
    }
    let notes = name_holes(&holes, &place, &mut out);
    from_the_left(&xs, &place, &mut out);
    from_below(&ys, &place, &mut out);
    overall(w, h, &place, &mut out);
    FrontView {
        drawing: out,
        scale,
        notes,
    }
}

fn holes(picture: &BoxPicture) -> Vec<Hole> {
    let hole = |centre: [f64; 2], cutout: f64, frame: f64, kind| Hole {
        x: 1000.0 * centre[0],
        y: 1000.0 * centre[1],
        cutout: 1000.0 * cutout,
        frame: 1000.0 * frame,
        kind,
    };
    picture
        .parts
        .iter()
        .filter_map(|p| match p.shape {
            PictureShape::Block { .. } => None,
            PictureShape::Driver {
                centre,
                frame,
                cutout,
                ..
            } => Some(hole(centre, cutout, frame, "driver")),
            PictureShape::Radiator {
                centre,
                frame,
                cutout,
                ..
            } => Some(hole(centre, cutout, frame, "radiator")),
            PictureShape::Vent { centre, cutout, .. } => Some(hole(centre, cutout, cutout, "vent")),
        })
        .collect()
}

/// Values that differ by a tenth of a millimetre or more, rising.
fn distinct(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut all: Vec<f64> = values.collect();
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| (*a - *b).abs() < 0.1);
    all
}

/// The inner faces of the walls behind the front, hidden.
fn wall_lines(picture: &BoxPicture, place: &Place, out: &mut Drawing) {
    let inner = place.front.inset(1000.0 * picture.wall / place.scale);
    let hidden = Stroke::new(Role::Muted, pen::FINE).dashed(Dash::Short);
    out.rect(inner, Style::stroked(hidden));
}

fn draw_hole(hole: &Hole, place: &Place, out: &mut Drawing) {
    let at = place.at(hole.x, hole.y);
    let r = hole.cutout / 2.0 / place.scale;
    if hole.frame > hole.cutout {
        let frame = Stroke::new(Role::Muted, pen::THIN).dashed(Dash::Dashed);
        out.circle(at, hole.frame / 2.0 / place.scale, Style::stroked(frame));
    }
    let edge = Stroke::new(Role::Ink, pen::MEDIUM);
    out.circle(at, r, Style::filled(Role::Paper).edged(edge));
    let arm = arm(r);
    for (dx, dy) in [(arm, 0.0), (0.0, arm)] {
        out.line(at.moved(-dx, -dy), at.moved(dx, dy), FINE);
    }
}

/// Names each size of hole once: within the hole where there is room, beside
/// it else; gives what found no room at all.
fn name_holes(holes: &[Hole], place: &Place, out: &mut Drawing) -> Vec<String> {
    let mut named: Vec<Hole> = Vec::new();
    let mut taken: Vec<Rect> = Vec::new();
    let mut homeless = Vec::new();
    for hole in holes {
        let same = |h: &&Hole| h.cutout == hole.cutout && h.frame == hole.frame;
        if named.iter().any(|h| same(&h)) {
            continue;
        }
        named.push(*hole);
        let count = holes.iter().filter(same).count();
        let times = if count > 1 {
            format!("{count} × ")
        } else {
            String::new()
        };
        let size = format!("{times}⌀ {}", number(hole.cutout, 0));
        let what = if hole.frame > hole.cutout {
            format!("frame {}", number(hole.frame, 0))
        } else {
            hole.kind.to_owned()
        };
        if within(hole, [&size, &what], place, out) {
            continue;
        }
        let text = format!("{size}, {what}");
        if !beside(&text, hole, holes, place, &mut taken, out) {
            homeless.push(format!("hole for {}: {text}", hole.kind));
        }
    }
    homeless
}

/// One line above the centre of the hole and one below it, if they fit.
fn within(hole: &Hole, lines: [&str; 2], place: &Place, out: &mut Drawing) -> bool {
    let at = place.at(hole.x, hole.y);
    let r = hole.cutout / 2.0 / place.scale;
    let away = arm(r) + 1.2;
    let bases = [at.y - away, at.y + away + LETTERS.cap_height()];
    let texts = [0, 1].map(|i| {
        let base = Point::new(at.x, bases[i]);
        Text::new(base, lines[i], LETTERS).anchored(Anchor::Middle)
    });
    let inside = |t: &Text| t.corners().iter().all(|c| c.distance(at) < r - 0.4);
    let fits = texts.iter().all(inside);
    if fits {
        texts.into_iter().for_each(|t| out.text(t));
    }
    fits
}

/// Half the width of the cross at the centre of a hole of radius `r`.
fn arm(r: f64) -> f64 {
    (0.35 * r).min(2.5)
}

/// The text joined by a leader to the edge of the hole, at the nearest place
/// on the front that is free, if there is one.
fn beside(
    text: &str,
    hole: &Hole,
    holes: &[Hole],
    place: &Place,
    taken: &mut Vec<Rect>,
    out: &mut Drawing,
) -> bool {
    let (w, h) = (LETTERS.width(text), LETTERS.size_mm);
    let at = place.at(hole.x, hole.y);
    let r = hole.cutout / 2.0 / place.scale;
    let free = |rect: &Rect| {
        let room = rect.inset(-0.6);
        let clear_of_holes = holes.iter().all(|o| {
            let c = place.at(o.x, o.y);
            let near = Point::new(
                c.x.clamp(room.x, room.right()),
                c.y.clamp(room.y, room.bottom()),
            );
            near.distance(c) > o.frame.max(o.cutout) / 2.0 / place.scale
        });
        let edges = outline(place.front);
        clear_of_holes
            && place.front.contains(&room)
            && edges.iter().all(|(a, b)| room.clip(*a, *b).is_none())
            && taken.iter().all(|t| !t.overlaps(&room))
    };
    for away in [3.0, 5.0, 8.0, 12.0, 17.0, 23.0, 30.0] {
        for sixteenth in 0..16 {
            let turn = core::f64::consts::TAU * (f64::from(sixteenth) - 2.0) / 16.0;
            let (dx, dy) = (math::cos(turn), math::sin(turn));
            let tip = at.moved((r + away) * dx, (r + away) * dy);
            let rect = Rect::met_by(tip, (dx, dy), w, h);
            if free(&rect) {
                let from = at.moved(r * dx, r * dy);
                out.line(from, tip.moved(-0.7 * dx, -0.7 * dy), FINE);
                let base = Point::new(rect.x, rect.centre().y + LETTERS.cap_height() / 2.0);
                let letters = Text::new(base, text, LETTERS);
                out.rect(rect.inset(-0.3), Style::filled(Role::Wood));
                out.text(letters);
                taken.push(rect);
                return true;
            }
        }
    }
    false
}

/// Hole positions from the left edge, each written at the end of its own
/// line.
fn from_the_left(xs: &[f64], place: &Place, out: &mut Drawing) {
    let front = place.front;
    let feet: Vec<f64> = xs.iter().map(|x| place.at(*x, 0.0).x).collect();
    let ends = spread(&feet, PITCH, front.x - PITCH, front.right() + PITCH);
    let y = front.bottom();
    for ((foot, end), x) in feet.iter().zip(ends).zip(xs) {
        let line = [(*foot, y + 1.0), (*foot, y + 2.2), (end, y + JOG)];
        out.polyline(&line.map(|(x, y)| Point::new(x, y)), FINE);
        let base = Point::new(end + LETTERS.cap_height() / 2.0, y + JOG + 0.8);
        let figure = number(x + front.w * place.scale / 2.0, 0);
        let text = Text::new(base, &figure, LETTERS).anchored(Anchor::End);
        out.text(text.turned(-90.0));
    }
}

/// Hole positions from the lower edge.
fn from_below(ys: &[f64], place: &Place, out: &mut Drawing) {
    let front = place.front;
    let mut rows: Vec<(f64, f64)> = ys.iter().map(|y| (place.at(0.0, *y).y, *y)).collect();
    rows.sort_by(|a, b| a.0.total_cmp(&b.0));
    let feet: Vec<f64> = rows.iter().map(|r| r.0).collect();
    let ends = spread(&feet, PITCH, front.y - PITCH, front.bottom() + PITCH);
    for ((foot, y), end) in rows.iter().zip(ends) {
        let line = [
            (front.x - 1.0, *foot),
            (front.x - 2.2, *foot),
            (front.x - JOG, end),
        ];
        out.polyline(&line.map(|(x, y)| Point::new(x, y)), FINE);
        let figure = number(y + front.h * place.scale / 2.0, 0);
        let at = Point::new(front.x - JOG - 0.8, end);
        out.text(
            Text::new(at, &figure, LETTERS)
                .anchored(Anchor::End)
                .centred(),
        );
    }
}

/// Whole width above and whole height to the right.
fn overall(w: f64, h: f64, place: &Place, out: &mut Drawing) {
    let [top_left, top_right, bottom_right, _] = place.front.corners();
    for (a, b, off, side, figure) in [
        (top_left, top_right, (0.0, -OFF), 1.0, number(w, 0)),
        (bottom_right, top_right, (OFF, 0.0), -1.0, number(h, 0)),
    ] {
        Dimension {
            a,
            b,
            off,
            side,
            figure: &figure,
        }
        .draw(out);
    }
}
