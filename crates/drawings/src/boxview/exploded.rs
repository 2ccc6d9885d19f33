//! The box taken apart: walls moved out along their normals, and what sits in them
//! farther still, on thin guide lines.

use super::balloon::{self, Column};
use super::cone;
use super::lifted::{fitted, glass_of_bay, numbered, placed};
use super::model::Model;
use crate::geometry::Rect;
use crate::sheet::{Dash, Drawing, pen};
use crate::view::{Edge, Eye, Look};
use studies::carpentry::{Carpentry, PartKind};
use wood::vector::{Vector, add, dot, scale, sub};
use wood::{PanelId, Wall};

/// Between the box and the balloons, mm.
const GUTTER: f64 = 12.0;
/// Where one stands, degrees to the right of the front and above it.
const STANDING: (f64, f64) = (31.0, 27.0);
/// Clear of what something sits in, as a share of the box's least side.
const CLEAR: f64 = 0.2;

/// The box seen from the right, front and above, lid, front, back and right wall moved
/// out, its parts numbered; fills `area` as far as its shape allows.
pub(crate) fn exploded(carpentry: &Carpentry, area: Rect) -> Drawing {
    let eye = Eye::raised(STANDING.0, STANDING.1);
    let numbers = numbered(carpentry);
    let mut glass = glass_of_bay(carpentry);
    let mut model = taken_apart(carpentry, &glass);
    let hidden = |model: &Model, parts: &[usize]| {
        (parts.iter()).all(|part| model.open_points(*part, &eye).is_empty())
    };
    if numbers.iter().any(|(_, _, parts)| hidden(&model, parts)) {
        // A wide front still stands before what lies low.
        glass.push(PanelId::Wall(Wall::Front));
        model = taken_apart(carpentry, &glass);
    }
    let labels: Vec<&str> = numbers.iter().map(|n| n.1.as_str()).collect();
    let column = match numbers.is_empty() {
        true => 0.0,
        false => GUTTER + balloon::width_wanted(&labels, 0.36 * area.w),
    };
    let room = Rect {
        w: area.w - column,
        ..area
    };
    let (place, right) = fitted(&model, &eye, room);
    let mut out = Drawing::default();
    model.scene.seen(&eye).draw(&model.scene, &place, &mut out);
    cone::draw(carpentry, &model, &eye, &place, &mut out);
    let column = Column {
        left: right + GUTTER,
        right: area.right(),
        top: area.y + 3.0,
        bottom: area.bottom() - 3.0,
    };
    balloon::draw(
        &placed(&model, numbers, &eye, &place),
        column,
        &[],
        &mut out,
    );
    out
}

/// Every wall with what sits in it in its place outside the box.
fn taken_apart(carpentry: &Carpentry, glass: &[PanelId]) -> Model {
    let mut model = Model::new(carpentry, glass);
    for wall in Wall::ALL {
        take_off(carpentry, wall, &mut model);
    }
    model
}

/// How far a wall is moved out, so that the eye sees past it into the box.
fn distance(carpentry: &Carpentry, wall: Wall) -> f64 {
    let block = &carpentry.body.plan.block;
    match wall {
        Wall::Top => 0.75 * block.height.min(1.5 * block.width),
        Wall::Front => 0.8 * block.height.min(block.width),
        Wall::Back => 0.5 * block.height.min(block.width),
        Wall::Right => 0.65 * block.depth,
        Wall::Left | Wall::Bottom => 0.0,
    }
}

/// Moves a wall out, and what sits in it farther, each joined to its place by guides.
fn take_off(carpentry: &Carpentry, wall: Wall, model: &mut Model) {
    let frame = carpentry.body.plan.block.frame(wall);
    let far = distance(carpentry, wall);
    let clear = clear(carpentry);
    if far > 0.0
        && let Some(thing) = model.panel(PanelId::Wall(wall))
    {
        let lines = corners(carpentry, wall).map(|p| [p, add(p, scale(frame.out, far))]);
        let lines: Vec<[Vector; 2]> = lines.collect();
        model.scene.shift(scale(frame.out, far), |t| t == thing);
        guide(model, &lines, Dash::Short);
    }
    let own: Vec<usize> = (0..carpentry.parts.len())
        .filter(|i| seat(carpentry, model, *i) == Some(wall))
        .collect();
    let reach = |model: &Model, part: usize| {
        let level = dot(frame.origin, frame.out);
        let (low, _) = spread(model, part, frame.out)?;
        Some((level - low).max(0.0) + far + clear)
    };
    let is_grille = |part: &usize| carpentry.parts[*part].kind == PartKind::Grille;
    let farthest = (own.iter().filter(|p| !is_grille(p)))
        .filter_map(|p| Some(reach(model, *p)? + spread(model, *p, frame.out)?.1))
        .fold(f64::NEG_INFINITY, f64::max);
    for part in own {
        let Some(mut by) = reach(model, part) else {
            continue;
        };
        if is_grille(&part)
            && farthest.is_finite()
            && let Some((low, _)) = spread(model, part, frame.out)
        {
            by = by.max(farthest + clear - low);
        }
        pull(model, part, scale(frame.out, by));
    }
}

/// Clear space between what is taken apart, in m.
fn clear(carpentry: &Carpentry) -> f64 {
    let block = &carpentry.body.plan.block;
    CLEAR * block.width.min(block.height).min(block.depth)
}

/// The wall from which a part is pulled out; `None` where it stays in its place: inside,
/// or on a control panel behind its wall.
fn seat(carpentry: &Carpentry, model: &Model, part: usize) -> Option<Wall> {
    let placed = &carpentry.parts[part];
    let block = &carpentry.body.plan.block;
    match placed.kind {
        PartKind::Control => None,
        PartKind::Foot => Some(Wall::Bottom),
        _ if placed.part.sits_in.is_some() => placed.part.sits_in,
        _ => Wall::ALL.into_iter().find(|wall| {
            let frame = block.frame(*wall);
            let level = dot(frame.origin, frame.out);
            spread(model, part, frame.out).is_some_and(|(low, _)| low > level - 1e-6)
        }),
    }
}

/// Least and greatest of a part along a direction.
fn spread(model: &Model, part: usize, along: Vector) -> Option<(f64, f64)> {
    let own = &model.parts[part];
    let facets = model.scene.facets.iter();
    let points = facets
        .filter(|f| own.contains(&f.thing))
        .flat_map(|f| f.loops.iter().flatten());
    let mut heights = points.map(|p| dot(*p, along)).peekable();
    heights.peek()?;
    Some(
        heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| {
            (l.min(v), h.max(v))
        }),
    )
}

/// Moves a part, a guide through its middle.
fn pull(model: &mut Model, part: usize, by: Vector) {
    let own = model.parts[part].clone();
    let middle = own.first().and_then(|thing| model.scene.middle(*thing));
    model.scene.shift(by, |thing| own.contains(&thing));
    if let Some(to) = middle.map(|p| add(p, by)) {
        guide(model, &[[sub(to, by), to]], Dash::Centre);
    }
}

/// Corners of a wall on its inner face.
fn corners(carpentry: &Carpentry, wall: Wall) -> impl Iterator<Item = Vector> {
    let panel = carpentry.body.wall(wall);
    let inner = move |e: &wood::PanelEdge| panel.frame.point(e.inner[0], -panel.thickness);
    panel.edges.iter().map(inner)
}

/// Thin lines that are hidden by what stands before them.
fn guide(model: &mut Model, lines: &[[Vector; 2]], dash: Dash) {
    let thing = model.scene.thing(Look::Glass, pen::FINE);
    model.scene.things[thing].line = dash;
    let edges = lines.iter().map(|ends| Edge {
        thing,
        ends: *ends,
        bend: None,
    });
    model.scene.edges.extend(edges);
}
