//! One panel to scale as seen from outside, its holes measured from two datum
//! edges.

use super::dimension::{Dimension, LETTERS};
use super::ordinate::{self, Position, SideOf, distinct};
use super::scale::{mm, round, said};
use crate::geometry::{Point, Rect};
use crate::math;
use crate::path::Path;
use crate::role::Role;
use crate::sheet::{Anchor, Dash, Drawing, Group, Shape, Stroke, Style, Text, pen};
use wood::{EdgeForm, Outline, Panel, PanelHole, Purpose};

/// A panel as a drawing, with the scale it came out in.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PanelView {
    /// What is drawn.
    pub(crate) drawing: Drawing,
    /// Where the blank lies on the sheet.
    pub(crate) blank: Rect,
    /// Millimetres of the panel to one on paper.
    pub(crate) scale: f64,
    /// Whether positions across and up found room; else they stand in the table only.
    pub(crate) measured: bool,
    /// Numbers of holes that found no room beside them.
    pub(crate) unnamed: Vec<usize>,
}

impl PanelView {
    /// The scale as a title block says it.
    pub(crate) fn scale_text(&self) -> String {
        said(self.scale)
    }
}

/// From the outline to its overall dimensions.
const OFF: f64 = 6.0;
const FINE: Stroke = Stroke::new(Role::Ink, pen::FINE);

/// From the panel to the sheet.
struct Place {
    blank: Rect,
    scale: f64,
}

impl Place {
    fn at(&self, [u, v]: [f64; 2]) -> Point {
        let mm = 1000.0 / self.scale;
        Point::new(self.blank.x + u * mm, self.blank.bottom() - v * mm)
    }

    fn long(&self, m: f64) -> f64 {
        1000.0 * m / self.scale
    }
}

/// Draws a panel within an area; holes are numbered from 1 as `numbers` says (equal
/// holes may share one).
pub(crate) fn panel(panel: &Panel, numbers: &[usize], area: Rect) -> PanelView {
    let [w, h] = panel.blank;
    let figure = LETTERS.width("000.0") + ordinate::JOG + 0.8;
    let after = OFF + 2.0 + LETTERS.size_mm;
    let room = (area.w - figure - after, area.h - figure - after);
    let scale = round((1000.0 * w, 1000.0 * h), room);
    let size = (1000.0 * w / scale, 1000.0 * h / scale);
    // The overall height stands to the right, the overall width above.
    let x = area.x + figure + (room.0 - size.0).max(0.0) / 2.0;
    let blank = Rect::new(x, area.y + after, size.0, size.1);
    let place = Place { blank, scale };
    let mut out = Drawing::default();
    outline(panel, &place, &mut out);
    // What is let in lies around what goes through.
    let (pockets, through): (Vec<&PanelHole>, Vec<&PanelHole>) =
        panel.holes.iter().partition(|h| h.pocket.is_some());
    for hole in pockets.into_iter().chain(through) {
        if place.blank.contains(&extent(hole, &place)) {
            draw_hole(hole, &place, &mut out);
        } else {
            // A hole that runs over the panel's edge, which a check stops.
            let mut seen = Drawing::default();
            draw_hole(hole, &place, &mut seen);
            out.group(Group::Clip(place.blank), seen);
        }
    }
    let unnamed = name_holes(panel, numbers, &place, &mut out);
    let measured = positions(panel, &place, &mut out);
    overall(panel, &place, &mut out);
    datum(&place, &mut out);
    PanelView {
        drawing: out,
        blank,
        scale,
        measured,
        unnamed,
    }
}

/// The outer face with its edges, and the inner face where it differs, hidden.
fn outline(panel: &Panel, place: &Place, out: &mut Drawing) {
    let outer: Vec<Point> = panel.edges.iter().map(|e| place.at(e.outer[0])).collect();
    let inner: Vec<Point> = panel.edges.iter().map(|e| place.at(e.inner[0])).collect();
    let edge = Stroke::new(Role::Ink, pen::BOLD);
    out.polygon(&outer, Style::filled(Role::Wood).edged(edge));
    let differ = outer.iter().zip(&inner).any(|(a, b)| a.distance(*b) > 0.05);
    let hidden = Stroke::new(Role::Muted, pen::FINE).dashed(Dash::Short);
    if differ {
        out.polygon(&inner, Style::stroked(hidden));
    }
    let count = panel.edges.len();
    for (i, e) in panel.edges.iter().enumerate() {
        if let Some([width, _]) = e.step {
            inside(&inner, i, place.long(width), hidden, out);
        }
        let worn = match e.form {
            Some(EdgeForm::Round(r)) => Some(r),
            Some(EdgeForm::Chamfer(c)) => Some(c),
            None => None,
        };
        if let Some(worn) = worn.filter(|_| count > 2) {
            let line = Stroke::new(Role::Muted, pen::FINE);
            inside(&outer, i, place.long(worn), line, out);
        }
    }
}

/// A line within an outline along its side number `i`, so far from it.
fn inside(outline: &[Point], i: usize, far: f64, stroke: Stroke, out: &mut Drawing) {
    let n = outline.len();
    let (a, b) = (outline[i], outline[(i + 1) % n]);
    let long = a.distance(b);
    if long < 1e-6 {
        return;
    }
    // The outline runs counter-clockwise as seen: the inside is to the left.
    let (dx, dy) = ((b.x - a.x) / long, (b.y - a.y) / long);
    let off = |p: Point| p.moved(far * dy, -far * dx);
    out.line(off(a), off(b), stroke);
}

/// The outline of a hole about a point.
fn shape(outline: &Outline, at: Point, place: &Place) -> Shape {
    match *outline {
        Outline::Circle { diameter } => Shape::Circle {
            centre: at,
            radius: place.long(diameter) / 2.0,
        },
        Outline::Rectangle {
            width,
            height,
            corner,
        } => {
            let (w, h) = (place.long(width), place.long(height));
            let rect = Rect::new(at.x - w / 2.0, at.y - h / 2.0, w, h);
            Shape::Path(rounded(rect, place.long(corner)))
        }
    }
}

/// A rectangle with rounded corners.
pub(crate) fn rounded(rect: Rect, radius: f64) -> Path {
    let r = radius.clamp(0.0, rect.w.min(rect.h) / 2.0);
    if r <= 0.0 {
        return Path::polygon(&rect.corners());
    }
    let quarter = core::f64::consts::FRAC_PI_2;
    let (x0, x1, y0, y1) = (rect.x, rect.right(), rect.y, rect.bottom());
    Path::default()
        .move_to(Point::new(x0 + r, y0))
        .line_to(Point::new(x1 - r, y0))
        .arc(Point::new(x1 - r, y0 + r), quarter)
        .line_to(Point::new(x1, y1 - r))
        .arc(Point::new(x1 - r, y1 - r), quarter)
        .line_to(Point::new(x0 + r, y1))
        .arc(Point::new(x0 + r, y1 - r), quarter)
        .line_to(Point::new(x0, y0 + r))
        .arc(Point::new(x0 + r, y0 + r), quarter)
        .close()
}

/// The rectangle around a hole on the sheet.
fn extent(hole: &PanelHole, place: &Place) -> Rect {
    let c = place.at(hole.at);
    let [w, h] = half(hole).map(|m| place.long(m));
    Rect::new(c.x - w, c.y - h, 2.0 * w, 2.0 * h)
}

fn draw_hole(hole: &PanelHole, place: &Place, out: &mut Drawing) {
    let at = place.at(hole.at);
    let edge = Stroke::new(Role::Ink, pen::MEDIUM);
    let style = if hole.pocket.is_some() {
        Style::filled(Role::WoodShade).edged(Stroke::new(Role::Ink, pen::THIN))
    } else {
        Style::filled(Role::Paper).edged(edge)
    };
    out.shape(shape(&hole.outline, at, place), style);
    let arm = arm(hole, place);
    for (dx, dy) in [(arm, 0.0), (0.0, arm)] {
        out.line(at.moved(-dx, -dy), at.moved(dx, dy), FINE);
    }
}

/// Half the width of the cross at the middle of a hole.
fn arm(hole: &PanelHole, place: &Place) -> f64 {
    let half = half(hole);
    let r = place.long(half[0].min(half[1]));
    if r < 1.5 {
        r + 0.8
    } else {
        (0.35 * r).min(2.5)
    }
}

/// Half its width and height in m.
pub(crate) fn half(hole: &PanelHole) -> [f64; 2] {
    match hole.outline {
        Outline::Circle { diameter } => [diameter / 2.0; 2],
        Outline::Rectangle { width, height, .. } => [width / 2.0, height / 2.0],
    }
}

/// Writes each number once beside or in a hole that bears it; gives the numbers that
/// found no room.
fn name_holes(panel: &Panel, numbers: &[usize], place: &Place, out: &mut Drawing) -> Vec<usize> {
    let mut taken = Taken::default();
    let mut unnamed = Vec::new();
    let mut named: Vec<usize> = Vec::new();
    for (hole, number) in panel.holes.iter().zip(numbers) {
        if named.contains(number) {
            continue;
        }
        named.push(*number);
        let bearing = panel
            .holes
            .iter()
            .zip(numbers)
            .filter(|(_, n)| *n == number);
        let holes: Vec<&PanelHole> = bearing.map(|(h, _)| h).collect();
        let text = number.to_string();
        let found = within(hole, &text, panel, place, &mut taken, out)
            || holes
                .iter()
                .any(|h| beside(&text, h, panel, place, &mut taken, out));
        if !found {
            unnamed.push(*number);
        }
    }
    unnamed
}

/// Rings drawn so far, and the leaders that lead to them.
#[derive(Default)]
struct Taken {
    rings: Vec<Rect>,
    leaders: Vec<(Point, Point)>,
}

impl Taken {
    /// Whether a ring may stand there.
    fn leaves(&self, ring: &Rect) -> bool {
        self.rings.iter().all(|t| !t.overlaps(ring))
            && self
                .leaders
                .iter()
                .all(|(a, b)| ring.clip(*a, *b).is_none())
    }

    /// Whether a leader meets no ring.
    fn leads(&self, from: Point, to: Point) -> bool {
        self.rings
            .iter()
            .all(|t| t.inset(-0.3).clip(from, to).is_none())
    }
}

const NUMBER: crate::text::Lettering = crate::text::Lettering::bold(2.4);
const RADIUS: f64 = 2.1;

/// A number in a ring.
fn ringed(at: Point, text: &str, out: &mut Drawing) {
    let edge = Stroke::new(Role::Ink, pen::THIN);
    out.circle(at, RADIUS, Style::filled(Role::Paper).edged(edge));
    out.text(
        Text::new(at, text, NUMBER)
            .anchored(Anchor::Middle)
            .centred(),
    );
}

/// The number above the middle of the hole, if there is room and no other hole there.
fn within(
    hole: &PanelHole,
    text: &str,
    panel: &Panel,
    place: &Place,
    taken: &mut Taken,
    out: &mut Drawing,
) -> bool {
    let half = half(hole).map(|m| place.long(m));
    let up = arm(hole, place) + 0.8 + RADIUS;
    if half[0] < RADIUS + 1.0 || half[1] < up + RADIUS + 0.6 {
        return false;
    }
    let at = place.at(hole.at).moved(0.0, -up);
    let rect = Rect::new(at.x - RADIUS, at.y - RADIUS, 2.0 * RADIUS, 2.0 * RADIUS);
    let meets_hole = panel.holes.iter().any(|other| {
        let c = place.at(other.at);
        let h = self::half(other).map(|m| place.long(m));
        let inner = h[0] < half[0] || h[1] < half[1];
        let clear = math::abs(c.x - at.x) > h[0] + RADIUS || math::abs(c.y - at.y) > h[1] + RADIUS;
        inner && !clear
    });
    if meets_hole || !taken.leaves(&rect) || !place.blank.contains(&rect) {
        return false;
    }
    ringed(at, text, out);
    taken.rings.push(rect);
    true
}

/// The number joined by a leader to the edge of the hole, at the nearest place on the
/// panel that is free, if there is one.
fn beside(
    text: &str,
    hole: &PanelHole,
    panel: &Panel,
    place: &Place,
    taken: &mut Taken,
    out: &mut Drawing,
) -> bool {
    let at = place.at(hole.at);
    let half_own = half(hole).map(|m| place.long(m));
    let free = |rect: &Rect| {
        let room = rect.inset(-0.6);
        place.blank.inset(1.0).contains(&room)
            && panel
                .holes
                .iter()
                .all(|other| !extent(other, place).overlaps(&room))
            && taken.leaves(&room)
    };
    for away in [2.5, 4.0, 6.0, 9.0, 13.0, 18.0] {
        for sixteenth in 0..16 {
            let turn = core::f64::consts::TAU * (f64::from(sixteenth) - 1.0) / 16.0;
            let (dx, dy) = (math::cos(turn), math::sin(turn));
            let edge = (half_own[0] / math::abs(dx).max(1e-9))
                .min(half_own[1] / math::abs(dy).max(1e-9))
                .min(half_own[0].max(half_own[1]));
            let middle = at.moved((edge + away + RADIUS) * dx, (edge + away + RADIUS) * dy);
            let rect = Rect::new(
                middle.x - RADIUS,
                middle.y - RADIUS,
                2.0 * RADIUS,
                2.0 * RADIUS,
            );
            let from = at.moved(edge * dx, edge * dy);
            // A hole may reach over the edge of the panel, where figures stand.
            if place.blank.holds(from) && free(&rect) && taken.leads(from, middle) {
                out.line(from, middle, FINE);
                ringed(middle, text, out);
                taken.rings.push(rect);
                taken.leaders.push((from, middle));
                return true;
            }
        }
    }
    false
}

/// Middles of the holes from the left and the lower edge; whether they found room.
fn positions(panel: &Panel, place: &Place, out: &mut Drawing) -> bool {
    let [w, h] = panel.blank;
    let within = |v: &f64, size: f64| (0.0..=size).contains(v);
    let us = panel.holes.iter().map(|h| h.at[0]);
    let us = distinct(us.filter(|u| within(u, w)));
    let vs = panel.holes.iter().map(|h| h.at[1]);
    let vs = distinct(vs.filter(|v| within(v, h)));
    let across: Vec<Position> = us.iter().map(|u| (place.at([*u, 0.0]).x, mm(*u))).collect();
    let up: Vec<Position> = vs.iter().map(|v| (place.at([0.0, *v]).y, mm(*v))).collect();
    let measured =
        ordinate::fits(across.len(), place.blank.w) && ordinate::fits(up.len(), place.blank.h);
    if measured {
        ordinate::draw(place.blank, SideOf::Below, across, out);
        ordinate::draw(place.blank, SideOf::Left, up, out);
    }
    measured
}

/// Whole width above and whole height to the right.
fn overall(panel: &Panel, place: &Place, out: &mut Drawing) {
    let [top_left, top_right, bottom_right, _] = place.blank.corners();
    let [w, h] = panel.blank;
    for (a, b, off, side, figure) in [
        (top_left, top_right, (0.0, -OFF), 1.0, mm(w)),
        (bottom_right, top_right, (OFF, 0.0), -1.0, mm(h)),
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

/// The corner everything is measured from.
fn datum(place: &Place, out: &mut Drawing) {
    let corner = Point::new(place.blank.x, place.blank.bottom());
    let style = Style::filled(Role::Accent);
    out.polygon(
        &[corner, corner.moved(2.2, 0.0), corner.moved(0.0, -2.2)],
        style,
    );
}

/// The name of a panel in the middle of its drawing, where no hole is in the way.
pub(crate) fn put_name(panel: &Panel, name: &str, view: &mut PanelView) {
    let letters = crate::layout::STRONG;
    let (w, h) = (letters.width(name), letters.size_mm);
    let blank = view.blank;
    let mm = 1000.0 / view.scale;
    let holes: Vec<Rect> = panel
        .holes
        .iter()
        .map(|hole| {
            let half = half(hole).map(|m| m * mm);
            let (x, y) = (blank.x + hole.at[0] * mm, blank.bottom() - hole.at[1] * mm);
            Rect::new(x - half[0], y - half[1], 2.0 * half[0], 2.0 * half[1])
        })
        .collect();
    for share in [0.5, 0.12, 0.88, 0.25, 0.75] {
        let y = blank.y + share * blank.h;
        let rect = Rect::new(blank.centre().x - w / 2.0, y - h / 2.0, w, h).inset(-1.2);
        if blank.inset(1.0).contains(&rect) && holes.iter().all(|r| !r.overlaps(&rect)) {
            let text = Text::new(Point::new(blank.centre().x, y), name, letters)
                .anchored(Anchor::Middle)
                .centred();
            if view.drawing.text_where_clear(text) {
                return;
            }
        }
    }
}

/// What a purpose is called.
pub(crate) fn purpose(purpose: Option<Purpose>) -> &'static str {
    match purpose {
        Some(Purpose::Driver) => "driver",
        Some(Purpose::Radiator) => "passive radiator",
        Some(Purpose::Vent) => "vent",
        Some(Purpose::Control) => "control panel",
        Some(Purpose::Bay) => "air for the bay",
        Some(Purpose::Fastening | Purpose::Closing) => "screw or bolt",
        None => "window",
    }
}
