//! Front, section through the depth, and a look from above, to one scale.

use super::cone;
use super::dimension::Dimension;
use super::model::Model;
use super::ordinate::{self, Position, SideOf, distinct};
use super::scale::{mm, round, said};
use crate::geometry::{Point, Rect};
use crate::layout::{SMALL, STRONG};
use crate::role::Role;
use crate::sheet::{Anchor, Dash, Drawing, Stroke, Style, Text, pen};
use crate::text::Lettering;
use crate::view::{Eye, Place, Scene};
use studies::carpentry::{Carpentry, PartKind};
use wood::{Purpose, Wall};

/// Three views on one drawing.
pub(crate) struct Views {
    /// What is drawn.
    pub(crate) drawing: Drawing,
    /// Their scale as a title block says it.
    pub(crate) scale: String,
    /// Whether every position found room.
    pub(crate) measured: bool,
    /// Whether every part seen from above or in the section bears its number.
    pub(crate) numbered: bool,
}

/// Left of a view, for figures.
const LEFT: f64 = 15.0;
/// Right of a view.
const RIGHT: f64 = 15.0;
/// Above a view: name, overall dimension.
const ABOVE: f64 = 15.0;
/// Above the look from above, which has no overall dimension.
const CAPTION: f64 = 9.0;
/// Below a view.
const BELOW: f64 = 14.0;
/// From a view to its overall dimension.
const OFF: f64 = 6.0;

/// Draws the views within an area.
pub(crate) fn views(carpentry: &Carpentry, area: Rect) -> Views {
    let block = &carpentry.body.plan.block;
    let [w, h, d] = [block.width, block.height, block.depth];
    let gaps = (2.0 * (LEFT + RIGHT), CAPTION + ABOVE + 2.0 * BELOW);
    let [left, right, front, back, under, over] = jutting(carpentry);
    let size = (
        1000.0 * (left + w + right + front + d + back),
        1000.0 * (back + d + front + under + h + over),
    );
    let scale = round(size, (area.w - gaps.0, area.h - gaps.1));
    let long = |m: f64| 1000.0 * m / scale;
    let spare = (area.w - gaps.0 - long(size.0 / 1000.0)).max(0.0) / 3.0;
    let x = area.x + LEFT + spare + long(left);
    let mut drawing = Drawing::default();
    let above = Rect::new(x, area.y + CAPTION + long(back), long(w), long(d));
    let top = above.bottom() + long(front) + BELOW + ABOVE + long(over);
    let between = long(right) + RIGHT + LEFT + spare + long(front);
    let front = Rect::new(x, top, long(w), long(h));
    let side = Rect::new(front.right() + between, front.y, long(d), long(h));
    let plane = section_at(carpentry);
    let from_above = draw_above(carpentry, above, &mut drawing);
    let in_front = draw_front(carpentry, front, plane, &mut drawing);
    let in_section = draw_section(carpentry, side, plane, &mut drawing);
    Views {
        drawing,
        scale: said(scale),
        measured: from_above.measured && in_front && in_section.measured,
        numbered: from_above.numbered && in_section.numbered,
    }
}

/// One view by itself.
pub(super) struct View {
    pub(super) drawing: Drawing,
    pub(super) model: Model,
    pub(super) eye: Eye,
    pub(super) place: Place,
}

/// The front by itself.
pub(super) fn front(carpentry: &Carpentry, area: Rect) -> View {
    let block = &carpentry.body.plan.block;
    let [left, right, _, _, under, over] = jutting(carpentry);
    let size = ((left, block.width, right), (over, block.height, under));
    alone(carpentry, Eye::FRONT, size, area, |rect, out| {
        draw_front(carpentry, rect, section_at(carpentry), out);
    })
}

/// The section through the depth by itself.
pub(super) fn section(carpentry: &Carpentry, area: Rect) -> View {
    let block = &carpentry.body.plan.block;
    let [_, _, front, back, under, over] = jutting(carpentry);
    let size = ((front, block.depth, back), (over, block.height, under));
    alone(carpentry, Eye::RIGHT, size, area, |rect, out| {
        draw_section(carpentry, rect, section_at(carpentry), out);
    })
}

/// The look from above by itself.
pub(super) fn above(carpentry: &Carpentry, area: Rect) -> View {
    let block = &carpentry.body.plan.block;
    let [left, right, front, back, _, _] = jutting(carpentry);
    let size = ((left, block.width, right), (back, block.depth, front));
    alone(carpentry, Eye::TOP, size, area, |rect, out| {
        draw_above(carpentry, rect, out);
    })
}

/// Before a side, along it and after it, in m.
type Span = (f64, f64, f64);

/// A view that fills an area, as far as its shape and its figures allow.
fn alone(
    carpentry: &Carpentry,
    eye: Eye,
    (wide, high): (Span, Span),
    area: Rect,
    draw: impl Fn(Rect, &mut Drawing),
) -> View {
    let whole = |span: Span| span.0 + span.1 + span.2;
    let room = (area.w - LEFT - RIGHT, area.h - ABOVE - BELOW);
    let scale = (room.0 / whole(wide)).min(room.1 / whole(high));
    let spare = (room.0 - whole(wide) * scale) / 2.0;
    let rect = Rect::new(
        area.x + LEFT + spare + wide.0 * scale,
        area.y + ABOVE + high.0 * scale,
        wide.1 * scale,
        high.1 * scale,
    );
    let mut drawing = Drawing::default();
    draw(rect, &mut drawing);
    View {
        drawing,
        model: Model::new(carpentry, &[]),
        eye,
        place: Place {
            origin: Point::new(rect.x, rect.bottom()),
            scale,
        },
    }
}

/// What found room in one view.
struct Room {
    measured: bool,
    numbered: bool,
}

/// How far parts jut out of the block: left, right, front, back, under and over it.
fn jutting(carpentry: &Carpentry) -> [f64; 6] {
    let model = Model::new(carpentry, &[]);
    let block = &carpentry.body.plan.block;
    let size = [block.width, block.depth, block.height];
    let points = model
        .scene
        .facets
        .iter()
        .flat_map(|f| f.loops.iter().flatten());
    points.fold([0.0_f64; 6], |mut out, p| {
        for axis in 0..3 {
            out[2 * axis] = out[2 * axis].max(-p[axis]);
            out[2 * axis + 1] = out[2 * axis + 1].max(p[axis] - size[axis]);
        }
        out
    })
}

/// A view's block with what juts out of it.
fn around(rect: Rect, model: &Model, eye: &Eye, place: &Place) -> Rect {
    let Some(bounds) = model.scene.bounds(eye) else {
        return rect;
    };
    let [a, b] = [bounds.low, bounds.high].map(|p| place.at(p));
    let points = [a, b, rect.corners()[0], rect.corners()[2]];
    Rect::around(&points).unwrap_or(rect)
}

/// Where the box is cut: through the middle of the first driver's hole in the front,
/// else through its middle.
fn section_at(carpentry: &Carpentry) -> f64 {
    let plan = &carpentry.body.plan;
    let driver = plan.holes.iter().find(|h| {
        let inside = (0.0..plan.block.width).contains(&h.at[0]);
        h.wall == Wall::Front && h.purpose == Purpose::Driver && inside
    });
    driver.map_or(plan.block.width / 2.0, |h| h.at[0])
}

fn draw_front(carpentry: &Carpentry, rect: Rect, plane: f64, out: &mut Drawing) -> bool {
    let mut model = Model::new(carpentry, &[]);
    for (_, thing) in &model.panels {
        model.scene.things[*thing].dashed = true;
    }
    let block = &carpentry.body.plan.block;
    let scale = rect.h / block.height;
    let place = Place {
        origin: Point::new(rect.x, rect.bottom()),
        scale,
    };
    let scene = &model.scene;
    scene.seen(&Eye::FRONT).draw(scene, &place, out);
    cone::draw(carpentry, &model, &Eye::FRONT, &place, out);
    let outer = around(rect, &model, &Eye::FRONT, &place);
    overall((rect, outer), [block.width, block.height], true, out);
    named("Front", "hidden walls dashed", outer.y - 12.0, rect, out);
    let at = place.at([plane, 0.0]).x;
    let line = Stroke::new(Role::Accent, pen::FINE).dashed(Dash::Centre);
    out.line(
        Point::new(at, outer.y - 3.4),
        Point::new(at, rect.bottom()),
        line,
    );
    let letter = Text::new(Point::new(at + 0.9, outer.y - 1.4), "A", STRONG);
    out.text(letter.coloured(Role::Accent));
    let holes = carpentry.body.plan.holes.iter();
    let holes: Vec<_> = holes
        .filter(|h| h.wall == Wall::Front && !h.purpose.is_filled())
        .collect();
    let us = distinct(holes.iter().map(|h| h.at[0]));
    let face = block.frame(Wall::Front);
    let vs = distinct(holes.iter().map(|h| face.point(h.at, 0.0)[2]));
    positions((rect, outer), SideOf::Below, &us, scale, out)
        && positions((rect, outer), SideOf::Left, &vs, scale, out)
}

fn draw_section(carpentry: &Carpentry, rect: Rect, plane: f64, out: &mut Drawing) -> Room {
    let model = Model::new(carpentry, &[]);
    let block = &carpentry.body.plan.block;
    let scale = rect.h / block.height;
    let place = Place {
        origin: Point::new(rect.x, rect.bottom()),
        scale,
    };
    let cut = model.scene.cut([plane, 0.0, 0.0], [1.0, 0.0, 0.0]);
    cut.seen(&Eye::RIGHT).draw(&cut, &place, out);
    let outer = around(rect, &model, &Eye::RIGHT, &place);
    overall((rect, outer), [block.depth, block.height], false, out);
    named(
        "Section A–A",
        "seen from the right",
        outer.y - 12.0,
        rect,
        out,
    );
    let near = behind(&model, |low, _| low[0] < plane);
    let numbered = numbers(carpentry, &model, &cut, (&near, &Eye::RIGHT), &place, out);
    let walls = walls_y(carpentry);
    let inner = inside(carpentry, &model, &near);
    let ys = distinct(inner.iter().flat_map(|(l, h)| [l[1], h[1]]).chain(walls));
    let zs = distinct(inner.iter().flat_map(|(l, h)| [l[2], h[2]]));
    let measured = positions((rect, outer), SideOf::Below, &ys, scale, out)
        && positions((rect, outer), SideOf::Right, &zs, scale, out);
    Room { measured, numbered }
}

fn draw_above(carpentry: &Carpentry, rect: Rect, out: &mut Drawing) -> Room {
    let model = Model::new(carpentry, &[]);
    let block = &carpentry.body.plan.block;
    let scale = rect.w / block.width;
    let place = Place {
        origin: Point::new(rect.x, rect.bottom()),
        scale,
    };
    let top = carpentry.body.wall(Wall::Top);
    let level = top.frame.point([0.0; 2], -top.thickness)[2] - 1e-3;
    let cut = model.scene.cut([0.0, 0.0, level], [0.0, 0.0, 1.0]);
    cut.seen(&Eye::TOP).draw(&cut, &place, out);
    let outer = around(rect, &model, &Eye::TOP, &place);
    named(
        "From above",
        "top taken off, the front below",
        outer.y - 6.5,
        rect,
        out,
    );
    // Of a handle only the bolts reach below: it is not what is seen.
    let below = behind(&model, |low, high| (low[2] + high[2]) / 2.0 < level);
    let numbered = numbers(carpentry, &model, &cut, (&below, &Eye::TOP), &place, out);
    let inner = inside(carpentry, &model, &below);
    let xs = distinct(inner.iter().flat_map(|(l, h)| [l[0], h[0]]));
    let ys = distinct(inner.iter().flat_map(|(l, h)| [l[1], h[1]]));
    let measured = positions((rect, outer), SideOf::Below, &xs, scale, out)
        && positions((rect, outer), SideOf::Left, &ys, scale, out);
    Room { measured, numbered }
}

/// Parts that reach behind a cut.
fn behind(model: &Model, reaches: impl Fn([f64; 3], [f64; 3]) -> bool) -> Vec<usize> {
    let seen = |i: &usize| {
        model
            .extent(*i)
            .is_some_and(|(low, high)| reaches(low, high))
    };
    (0..model.parts.len()).filter(seen).collect()
}

/// Extents of the parts and boards that stand inside.
fn inside(carpentry: &Carpentry, model: &Model, parts: &[usize]) -> Vec<([f64; 3], [f64; 3])> {
    let loose = parts.iter().filter(|i| {
        let part = &carpentry.parts[**i];
        let fixed = matches!(
            part.kind,
            PartKind::Handle | PartKind::Foot | PartKind::Grille
        );
        part.part.sits_in.is_none() && !fixed
    });
    loose.filter_map(|i| model.extent(*i)).collect()
}

/// Inner faces of front and back at half the height.
fn walls_y(carpentry: &Carpentry) -> Vec<f64> {
    let plan = &carpentry.body.plan;
    if plan.block.front_lean != 0.0 || plan.block.back_lean != 0.0 {
        return Vec::new();
    }
    let front = &plan.walls[Wall::Front.index()];
    let back = &plan.walls[Wall::Back.index()];
    vec![
        front.setback + front.thickness,
        plan.block.depth - back.setback - back.thickness,
    ]
}

/// Positions along a side, where they find room.
fn positions(
    (rect, outline): (Rect, Rect),
    side: SideOf,
    values: &[f64],
    scale: f64,
    out: &mut Drawing,
) -> bool {
    let upright = matches!(side, SideOf::Left | SideOf::Right);
    let along = if upright { rect.h } else { rect.w };
    if !ordinate::fits(values.len(), along) {
        return false;
    }
    let place = |v: f64| {
        if upright {
            rect.bottom() - v * scale
        } else {
            rect.x + v * scale
        }
    };
    let figures: Vec<Position> = values.iter().map(|v| (place(*v), mm(*v))).collect();
    ordinate::draw(outline, side, figures, out);
    true
}

/// Width above and height to the right.
fn overall((rect, outer): (Rect, Rect), [w, h]: [f64; 2], height: bool, out: &mut Drawing) {
    let [a, b, c, _] = rect.corners();
    let over = OFF + rect.y - outer.y;
    let right = OFF + outer.right() - rect.right();
    let mut put = |a, b, off, side, length| {
        let figure = mm(length);
        Dimension {
            a,
            b,
            off,
            side,
            figure: &figure,
        }
        .draw(out);
    };
    put(a, b, (0.0, -over), 1.0, w);
    if height {
        put(c, b, (right, 0.0), -1.0, h);
    }
}

/// The name of a view, above its dimension.
fn named(name: &str, remark: &str, y: f64, rect: Rect, out: &mut Drawing) {
    let at = Point::new(rect.x - LEFT + 2.0, y);
    out.text(Text::new(at, name, STRONG));
    let beside = at.moved(STRONG.width(name) + 2.0, 0.0);
    out.text(Text::new(beside, remark, SMALL).coloured(Role::Muted));
}

const NUMBER: Lettering = Lettering::bold(2.2);
const RADIUS: f64 = 1.9;

/// Numbers of parts in rings where they are seen, one for each number; whether all found
/// room.
fn numbers(
    carpentry: &Carpentry,
    model: &Model,
    cut: &Scene,
    (parts, eye): (&[usize], &Eye),
    place: &Place,
    out: &mut Drawing,
) -> bool {
    let mut taken: Vec<Point> = Vec::new();
    let mut named: Vec<usize> = Vec::new();
    for part in parts {
        let number = carpentry.parts[*part].number;
        if named.contains(&number) {
            continue;
        }
        let points = model.parts[*part]
            .iter()
            .flat_map(|thing| cut.open_points(*thing, eye));
        let free = points
            .map(|p| place.at(p))
            .find(|p| taken.iter().all(|t| t.distance(*p) > 2.0 * RADIUS + 0.8));
        if let Some(at) = free {
            let edge = Stroke::new(Role::Ink, pen::THIN);
            out.circle(at, RADIUS, Style::filled(Role::Paper).edged(edge));
            let text = Text::new(at, &number.to_string(), NUMBER);
            out.text(text.anchored(Anchor::Middle).centred());
            taken.push(at);
            named.push(number);
        }
    }
    let mut all = parts.iter().map(|part| carpentry.parts[*part].number);
    all.all(|number| named.contains(&number))
}
