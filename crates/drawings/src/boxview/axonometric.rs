//! The box with its lid lifted.

use super::balloon::{self, Column, Numbered};
use super::dimension::Dimension;
use super::project::View;
use super::{BoxPicture, solid};
use crate::geometry::{Point, Rect};
use crate::path::{Path, Polyline};
use crate::role::Role;
use crate::sheet::{Dash, Drawing, Item, Shape, Stroke, Style, pen};
use crate::text::number;

/// Room around the box for its dimensions, in mm.
const LEFT: f64 = 12.5;
const BELOW: f64 = 12.0;
/// Between the box and the balloons.
const GUTTER: f64 = 14.0;
/// Length of the extension lines.
const OFF: f64 = 9.0;

pub(crate) fn draw(picture: &BoxPicture, area: Rect) -> Drawing {
    let parts = numbered(picture);
    let labels: Vec<&str> = parts.iter().map(|p| p.1.as_str()).collect();
    let column = if parts.is_empty() {
        0.0
    } else {
        GUTTER + balloon::width_wanted(&labels, 0.36 * area.w)
    };
    let room = Rect::new(
        area.x + LEFT,
        area.y,
        area.w - LEFT - column,
        area.h - BELOW,
    );
    let view = fitted(picture, room);
    let mut out = Drawing::default();
    shell_inside(picture, &view, &mut out);
    contents(picture, &view, &mut out);
    shell_outside(picture, &view, &mut out);
    lid(picture, &view, &mut out);
    let dimensions = dimensions(picture, &view);
    let mut lines = stretches(&dimensions);
    if let Some(bounds) = dimensions.bounds() {
        lines.retain(|(a, b)| bounds.holds(*a) || bounds.holds(*b));
    }
    out.append(dimensions);
    let box_right = corners(picture, &view)
        .iter()
        .map(|p| p.x)
        .fold(f64::MIN, f64::max);
    let back = view.at(corner(picture, 1.0, -1.0, 1.0));
    let column = Column {
        left: box_right + GUTTER,
        right: area.right(),
        top: area.y + 3.0,
        bottom: back.y,
    };
    let numbered: Vec<Numbered> = parts
        .into_iter()
        .map(|(number, label, shapes)| Numbered {
            number,
            label,
            anchors: anchors(picture, &shapes, &view),
        })
        .collect();
    balloon::draw(&numbered, column, &lines, &mut out);
    out
}

/// Numbers with label and the parts that bear them, in order.
fn numbered(picture: &BoxPicture) -> Vec<(usize, String, Vec<usize>)> {
    let mut out: Vec<(usize, String, Vec<usize>)> = Vec::new();
    for (i, part) in picture.parts.iter().enumerate() {
        match out.iter_mut().find(|(n, _, _)| *n == part.number) {
            Some((_, _, shapes)) => shapes.push(i),
            None => out.push((part.number, part.label.clone(), vec![i])),
        }
    }
    out.sort_by_key(|(n, _, _)| *n);
    out
}

/// A corner of the box; signs choose right/left, top/bottom, back/front.
fn corner(picture: &BoxPicture, sx: f64, sy: f64, sz: f64) -> [f64; 3] {
    let [w, h, d] = picture.outside;
    [sx * w / 2.0, sy * h / 2.0, (1.0 + sz) * d / 2.0]
}

/// How far the lid is lifted, in m: enough to look inside.
fn lift(picture: &BoxPicture) -> f64 {
    let [w, h, d] = picture.outside;
    (0.28 * (w + d)).clamp(0.25 * h, 0.9 * h)
}

/// Corners of box and lifted lid as seen.
fn corners(picture: &BoxPicture, view: &View) -> Vec<Point> {
    let mut out = Vec::new();
    for sx in [-1.0, 1.0] {
        for sz in [-1.0, 1.0] {
            let foot = corner(picture, sx, -1.0, sz);
            let mut top = corner(picture, sx, 1.0, sz);
            out.push(view.at(foot));
            top[1] += lift(picture) + picture.wall;
            out.push(view.at(top));
        }
    }
    out
}

/// The view that fills the room.
fn fitted(picture: &BoxPicture, room: Rect) -> View {
    let unit = View::new(1.0, Point::default());
    let bounds = Rect::around(&corners(picture, &unit)).unwrap_or_default();
    let scale = (room.w / bounds.w.max(1e-9)).min(room.h / bounds.h.max(1e-9));
    let origin = Point::new(
        room.x - bounds.x * scale,
        room.y - bounds.y * scale + (room.h - bounds.h * scale) / 2.0,
    );
    View::new(scale, origin)
}

/// Bottom, back and left wall seen from within.
fn shell_inside(picture: &BoxPicture, view: &View, out: &mut Drawing) {
    let [w, h, d] = picture.outside;
    let t = picture.wall;
    let (x0, x1) = (-w / 2.0 + t, w / 2.0 - t);
    let (y0, y1) = (-h / 2.0 + t, h / 2.0);
    let (z0, z1) = (t, d - t);
    let edge = Stroke::new(Role::Ink, pen::FINE);
    for (face, role) in [
        (
            [[x0, y0, z0], [x1, y0, z0], [x1, y0, z1], [x0, y0, z1]],
            Role::Wood,
        ),
        (
            [[x0, y0, z1], [x1, y0, z1], [x1, y1, z1], [x0, y1, z1]],
            Role::WoodShade,
        ),
        (
            [[x0, y0, z0], [x0, y0, z1], [x0, y1, z1], [x0, y1, z0]],
            Role::WoodDark,
        ),
    ] {
        let seen = face.map(|p| view.at(p));
        out.polygon(&seen, Style::filled(role).edged(edge));
    }
}

/// Parts, far ones first.
fn far_first(picture: &BoxPicture, view: &View) -> Vec<usize> {
    let mut order: Vec<usize> = (0..picture.parts.len()).collect();
    let distance = |i: &usize| solid::distance(&picture.parts[*i].shape, view);
    order.sort_by(|a, b| distance(b).total_cmp(&distance(a)));
    order
}

/// What is seen of the parts behind the front.
fn contents(picture: &BoxPicture, view: &View, out: &mut Drawing) {
    for i in far_first(picture, view) {
        solid::inside(&picture.parts[i].shape, picture.wall, view, out);
    }
}

/// Where leaders of equal parts may end: places no other part covers, or any
/// where all are covered.
fn anchors(picture: &BoxPicture, shapes: &[usize], view: &View) -> Vec<Point> {
    let order = far_first(picture, view);
    let offered = |i: &usize| solid::anchors(&picture.parts[*i].shape, view);
    let seen: Vec<Point> = shapes
        .iter()
        .flat_map(|i| {
            let over = over(picture, &order, *i, view);
            let mut points = offered(i);
            points.retain(|p| !over.iter().any(|line| line.holds(*p)));
            points
        })
        .collect();
    if seen.is_empty() {
        shapes.iter().flat_map(offered).collect()
    } else {
        seen
    }
}

/// Outlines of what is drawn over a part.
fn over(picture: &BoxPicture, order: &[usize], part: usize, view: &View) -> Vec<Polyline> {
    let mut above = Drawing::default();
    let nearer = order.iter().skip_while(|i| **i != part).skip(1);
    for i in nearer {
        solid::inside(&picture.parts[*i].shape, picture.wall, view, &mut above);
    }
    for other in picture.parts.iter().enumerate().filter(|(i, _)| *i != part) {
        solid::face(&other.1.shape, view, &mut above);
    }
    above
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Shape(shape, _) => Some(shape.to_path().flatten()),
            _ => None,
        })
        .flatten()
        .collect()
}

/// Front and right wall, half clear; the rim; what sits on the front.
fn shell_outside(picture: &BoxPicture, view: &View, out: &mut Drawing) {
    let at = |sx, sy, sz| view.at(corner(picture, sx, sy, sz));
    let edge = Stroke::new(Role::Ink, pen::BOLD);
    let right = [
        at(1.0, -1.0, -1.0),
        at(1.0, -1.0, 1.0),
        at(1.0, 1.0, 1.0),
        at(1.0, 1.0, -1.0),
    ];
    let front = [
        at(-1.0, -1.0, -1.0),
        at(1.0, -1.0, -1.0),
        at(1.0, 1.0, -1.0),
        at(-1.0, 1.0, -1.0),
    ];
    out.polygon(&right, Style::washed(Role::WoodDark, 0.36).edged(edge));
    out.polygon(&front, Style::washed(Role::Wood, 0.34).edged(edge));
    rim(picture, view, out);
    for part in &picture.parts {
        solid::face(&part.shape, view, out);
    }
}

/// The top edges of the four walls.
fn rim(picture: &BoxPicture, view: &View, out: &mut Drawing) {
    let [w, h, d] = picture.outside;
    let t = picture.wall;
    let ring = |inset: f64| {
        [(-1.0, 0.0), (1.0, 0.0), (1.0, 1.0), (-1.0, 1.0)].map(|(sx, sz)| {
            let x = sx * (w / 2.0 - inset);
            let z = inset + sz * (d - 2.0 * inset);
            view.at([x, h / 2.0, z])
        })
    };
    let (outer, inner) = (ring(0.0), ring(t));
    let edge = Stroke::new(Role::Ink, pen::THIN);
    for i in 0..4 {
        let j = (i + 1) % 4;
        let quad = [outer[i], outer[j], inner[j], inner[i]];
        out.polygon(&quad, Style::filled(Role::WoodShade));
    }
    out.polygon(&inner, Style::stroked(edge));
    out.polygon(&outer, Style::stroked(Stroke::new(Role::Ink, pen::BOLD)));
}

fn lid(picture: &BoxPicture, view: &View, out: &mut Drawing) {
    let lift = lift(picture);
    let raised = |sx: f64, sz: f64, above: f64| {
        let mut p = corner(picture, sx, 1.0, sz);
        p[1] += above;
        view.at(p)
    };
    let guide = Stroke::new(Role::Ink, pen::THIN).dashed(Dash::Short);
    for (sx, sz) in [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0)] {
        out.line(raised(sx, sz, 0.0), raised(sx, sz, lift), guide);
    }
    let edge = Stroke::new(Role::Ink, pen::MEDIUM);
    let (low, high) = (lift, lift + picture.wall);
    let front = [(-1.0, low), (1.0, low), (1.0, high), (-1.0, high)];
    let right = [(-1.0, low), (1.0, low), (1.0, high), (-1.0, high)];
    out.polygon(
        &front.map(|(s, y)| raised(s, -1.0, y)),
        Style::filled(Role::WoodShade).edged(edge),
    );
    out.polygon(
        &right.map(|(s, y)| raised(1.0, s, y)),
        Style::filled(Role::WoodDark).edged(edge),
    );
    let top = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    out.polygon(
        &top.map(|(sx, sz)| raised(sx, sz, high)),
        Style::filled(Role::Wood).edged(edge),
    );
}

/// Outside width, height and depth.
fn dimensions(picture: &BoxPicture, view: &View) -> Drawing {
    let at = |sx, sy, sz| view.at(corner(picture, sx, sy, sz));
    let figure = |m: f64| number(1000.0 * m, 0);
    let [w, h, d] = picture.outside.map(figure);
    // Extension lines lie in the plane of the floor, along the other axis.
    let zero = view.at([0.0; 3]);
    let along = |p: [f64; 3]| {
        let q = view.at(p);
        let length = zero.distance(q);
        (OFF * (q.x - zero.x) / length, OFF * (q.y - zero.y) / length)
    };
    let mut out = Drawing::default();
    for dimension in [
        Dimension {
            a: at(-1.0, -1.0, -1.0),
            b: at(-1.0, 1.0, -1.0),
            off: (-0.8 * OFF, 0.0),
            side: 1.0,
            figure: &h,
        },
        Dimension {
            a: at(-1.0, -1.0, -1.0),
            b: at(1.0, -1.0, -1.0),
            off: along([0.0, 0.0, -1.0]),
            side: -1.0,
            figure: &w,
        },
        Dimension {
            a: at(1.0, -1.0, -1.0),
            b: at(1.0, -1.0, 1.0),
            off: along([1.0, 0.0, 0.0]),
            side: -1.0,
            figure: &d,
        },
    ] {
        dimension.draw(&mut out);
    }
    out
}

/// Every straight stretch and every text's outline of a drawing.
fn stretches(drawing: &Drawing) -> Vec<(Point, Point)> {
    let outlines = |item: &Item| -> Vec<Path> {
        match item {
            Item::Shape(Shape::Path(path), _) => vec![path.clone()],
            Item::Text(text) => vec![Path::polygon(&text.corners())],
            Item::Shape(Shape::Rect(rect), _) => vec![Path::polygon(&rect.corners())],
            _ => Vec::new(),
        }
    };
    drawing
        .items
        .iter()
        .flat_map(outlines)
        .flat_map(|p| p.flatten())
        .flat_map(|l| l.stretches().collect::<Vec<_>>())
        .collect()
}
