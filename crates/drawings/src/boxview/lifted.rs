//! The box with its lid lifted, front and right wall as of glass.

use super::balloon::{self, Column, Numbered};
use super::cone;
use super::dimension::Dimension;
use super::model::Model;
use super::scale::mm;
use crate::geometry::{Point, Rect};
use crate::path::Path;
use crate::role::Role;
use crate::sheet::{Dash, Drawing, Item, Shape, Stroke, pen};
use crate::view::{Edge, Eye, Look, Place};
use studies::carpentry::Carpentry;
use wood::vector::Vector;
use wood::{BoardKind, PanelId, Wall};

/// Room around the box for its dimensions, in mm.
const LEFT: f64 = 12.5;
const BELOW: f64 = 12.0;
/// Between the box and the balloons.
const GUTTER: f64 = 12.0;
/// Length of the extension lines.
const OFF: f64 = 9.0;
/// Where one stands, degrees to the right of the front and above it.
const STANDING: (f64, f64) = (31.0, 27.0);

/// The box seen from the right, front and above, lid lifted, front and right wall as
/// of glass, as are those of a bay, with outside dimensions and numbered parts; fills `area` as far as its
/// shape allows.
#[must_use]
pub fn lifted(carpentry: &Carpentry, area: Rect) -> Drawing {
    lid_off(carpentry, area).1.drawing
}

/// The same, and from where it is seen.
pub(super) fn lid_off(carpentry: &Carpentry, area: Rect) -> (Model, Standing) {
    let mut model = Model::new(carpentry, &glass(carpentry));
    lift_lid(carpentry, &mut model);
    let stands = standing(carpentry, &model, numbered(carpentry), area);
    (model, stands)
}

/// The box as it stands when it is finished, seen from the same point.
pub(super) fn closed(carpentry: &Carpentry, area: Rect) -> (Model, Standing) {
    let model = Model::new(carpentry, &[]);
    let eye = Eye::raised(STANDING.0, STANDING.1);
    let mut numbers = numbered(carpentry);
    numbers.retain(|(_, _, parts)| {
        let seen = |part: &usize| !model.open_points(*part, &eye).is_empty();
        parts.iter().any(seen)
    });
    let stands = standing(carpentry, &model, numbers, area);
    (model, stands)
}

/// A model drawn from the right, the front and above.
pub(super) struct Standing {
    pub(super) drawing: Drawing,
    pub(super) eye: Eye,
    pub(super) place: Place,
}

/// Draws a model with its dimensions and numbers.
fn standing(
    carpentry: &Carpentry,
    model: &Model,
    numbers: Vec<(usize, String, Vec<usize>)>,
    area: Rect,
) -> Standing {
    let eye = Eye::raised(STANDING.0, STANDING.1);
    let labels: Vec<&str> = numbers.iter().map(|n| n.1.as_str()).collect();
    let column = if numbers.is_empty() {
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
    let (place, right) = fitted(model, &eye, room);
    let mut out = Drawing::default();
    model.scene.seen(&eye).draw(&model.scene, &place, &mut out);
    cone::draw(carpentry, model, &eye, &place, &mut out);
    let dimensions = dimensions(carpentry, &eye, &place);
    let mut lines = stretches(&dimensions);
    let mut right = right;
    if let Some(bounds) = dimensions.bounds() {
        right = right.max(bounds.right() + 3.0 - GUTTER);
        lines.retain(|(a, b)| bounds.holds(*a) || bounds.holds(*b));
    }
    let numbered = placed(model, numbers, &eye, &place);
    let column = Column {
        left: right + GUTTER,
        right: area.right(),
        top: area.y + 3.0,
        bottom: area.bottom() - BELOW,
    };
    // Dimensions come last: their figures stand on patches that hide any leader.
    balloon::draw(&numbered, column, &lines, &mut out);
    out.append(dimensions);
    Standing {
        drawing: out,
        eye,
        place,
    }
}

/// What would hide the inside: front, right wall, the walls of a bay.
fn glass(carpentry: &Carpentry) -> Vec<PanelId> {
    [PanelId::Wall(Wall::Front), PanelId::Wall(Wall::Right)]
        .into_iter()
        .chain(glass_of_bay(carpentry))
        .collect()
}

/// The walls of a bay, which would hide what stands in it.
pub(super) fn glass_of_bay(carpentry: &Carpentry) -> Vec<PanelId> {
    let boards = carpentry.body.plan.boards.iter().enumerate();
    boards
        .filter(|(_, board)| board.kind == BoardKind::BayWall)
        .map(|(i, _)| PanelId::Board(i))
        .collect()
}

/// Parts with their numbers and where leaders to them may end.
pub(super) fn placed(
    model: &Model,
    numbers: Vec<(usize, String, Vec<usize>)>,
    eye: &Eye,
    place: &Place,
) -> Vec<Numbered> {
    numbers
        .into_iter()
        .filter_map(|(number, label, parts)| {
            let anchors = anchors(model, &parts, eye, place);
            (!anchors.is_empty()).then_some(Numbered {
                number,
                label,
                anchors,
            })
        })
        .collect()
}

/// Numbers with label and the parts that bear them, in order.
pub(crate) fn numbered(carpentry: &Carpentry) -> Vec<(usize, String, Vec<usize>)> {
    let mut out: Vec<(usize, String, Vec<usize>)> = Vec::new();
    for (i, part) in carpentry.parts.iter().enumerate() {
        match out.iter_mut().find(|(n, _, _)| *n == part.number) {
            Some((_, _, parts)) => parts.push(i),
            None => out.push((part.number, part.label.clone(), vec![i])),
        }
    }
    out.sort_by_key(|(n, _, _)| *n);
    out
}

/// Moves the lid and what sits in it up, far enough to look inside, and joins it to
/// the box by dashed lines.
fn lift_lid(carpentry: &Carpentry, model: &mut Model) {
    let block = &carpentry.body.plan.block;
    let lift = (0.28 * (block.width + block.depth)).clamp(0.25 * block.height, 0.9 * block.height);
    let Some(lid) = model.panel(PanelId::Wall(Wall::Top)) else {
        return;
    };
    let mut moved = vec![lid];
    for (part, things) in carpentry.parts.iter().zip(&model.parts) {
        let (low, _) = extent_z(model, things);
        if part.part.sits_in == Some(Wall::Top) || low >= block.height - 1e-6 {
            moved.extend(things);
        }
    }
    let guides = guides(carpentry, lift);
    model
        .scene
        .shift([0.0, 0.0, lift], |thing| moved.contains(&thing));
    let thing = model.scene.thing(Look::Glass, pen::THIN);
    model.scene.things[thing].line = Dash::Short;
    for ends in guides {
        let bend = None;
        model.scene.edges.push(Edge { thing, ends, bend });
    }
}

/// Lowest and highest of things.
fn extent_z(model: &Model, things: &[usize]) -> (f64, f64) {
    let own = model
        .scene
        .facets
        .iter()
        .filter(|f| things.contains(&f.thing));
    let heights = own.flat_map(|f| f.loops.iter().flatten()).map(|p| p[2]);
    heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), z| {
        (l.min(z), h.max(z))
    })
}

/// Upright lines from the corners of the box to those of the lid.
fn guides(carpentry: &Carpentry, lift: f64) -> Vec<[Vector; 2]> {
    let lid = carpentry.body.wall(Wall::Top);
    let corners = lid.edges.iter().map(|e| lid.frame.point(e.outer[0], 0.0));
    let thick = lid.thickness;
    corners
        .map(|p| {
            let low = [p[0], p[1], p[2] - thick];
            [low, [low[0], low[1], low[2] + lift]]
        })
        .collect()
}

/// The place that fills the room, and the right end of the picture.
pub(super) fn fitted(model: &Model, eye: &Eye, room: Rect) -> (Place, f64) {
    let Some(bounds) = model.scene.bounds(eye) else {
        let origin = room.centre();
        return (Place { origin, scale: 1.0 }, room.right());
    };
    let (w, h) = (
        (bounds.high[0] - bounds.low[0]).max(1e-9),
        (bounds.high[1] - bounds.low[1]).max(1e-9),
    );
    let scale = (room.w / w).min(room.h / h);
    let spare = (room.h - h * scale) / 2.0;
    let origin = Point::new(
        room.x - bounds.low[0] * scale,
        room.y + spare + bounds.high[1] * scale,
    );
    (Place { origin, scale }, room.x + w * scale)
}

/// Where leaders of equal parts may end: points that nothing covers, or, where all
/// are covered, their middles.
fn anchors(model: &Model, parts: &[usize], eye: &Eye, place: &Place) -> Vec<Point> {
    let open: Vec<Point> = parts
        .iter()
        .flat_map(|p| model.open_points(*p, eye))
        .map(|p| place.at(p))
        .collect();
    if !open.is_empty() {
        return open;
    }
    let middles = parts
        .iter()
        .flat_map(|p| &model.parts[*p])
        .filter_map(|thing| model.scene.middle(*thing));
    middles
        .map(|p| {
            let [x, y, _] = eye.see(p);
            place.at([x, y])
        })
        .collect()
}

/// Outside width, height and depth.
fn dimensions(carpentry: &Carpentry, eye: &Eye, place: &Place) -> Drawing {
    let block = &carpentry.body.plan.block;
    let (w, d) = (block.width, block.depth);
    let at = |p: Vector| {
        let [x, y, _] = eye.see(p);
        place.at([x, y])
    };
    // Upright beside the foot: a leaning front is longer than the box is high.
    let top = at([0.0, 0.0, block.height]);
    let zero = at([0.0; 3]);
    let along = |p: Vector| {
        let q = at(p);
        let length = zero.distance(q).max(1e-9);
        (OFF * (q.x - zero.x) / length, OFF * (q.y - zero.y) / length)
    };
    let mut out = Drawing::default();
    let corner = at(block.frame(Wall::Top).origin);
    if corner.distance(top) > 0.5 {
        out.line(top, corner, Stroke::new(Role::Ink, pen::FINE));
    }
    for (a, b, off, side, length) in [
        (zero, top, (-0.8 * OFF, 0.0), 1.0, block.height),
        (zero, at([w, 0.0, 0.0]), along([0.0, -1.0, 0.0]), -1.0, w),
        (
            at([w, 0.0, 0.0]),
            at([w, d, 0.0]),
            along([1.0, 0.0, 0.0]),
            -1.0,
            d,
        ),
    ] {
        let figure = mm(length);
        Dimension {
            a,
            b,
            off,
            side,
            figure: &figure,
        }
        .draw(&mut out);
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
