//! A wall: its pieces, its edges and its holes.

use crate::corner::{Reach, end, levels, reach};
use crate::form;
use crate::math;
use crate::panel::{Frame, Panel, PanelEdge, PanelHole, PanelId};
use crate::plan::{Edge, EdgeForm, Plan, Wall};
use crate::polytope::{Plane, Polytope, TOUCH};
use crate::sides::Side;
use crate::vector::{Vector, add, dot, scale};

/// The panel of a wall, cut from the formed block.
pub(crate) fn panel(plan: &Plan, sides: &[Side; 6], block: &Polytope, wall: Wall) -> Panel {
    let pieces = pieces(plan, sides, block, wall);
    let side = plan.block.frame(wall);
    let rims = [true, false].map(|outer| rim(plan, sides, wall, outer));
    let [low, high] = extent(&side, rims.into_iter().flatten());
    let setback = plan.walls[wall.index()].setback;
    let frame = Frame {
        origin: side.point(low, -setback),
        ..side
    };
    let holes = plan.holes.iter().filter(|hole| hole.wall == wall);
    Panel {
        id: PanelId::Wall(wall),
        name: wall.name().to_owned(),
        frame,
        thickness: plan.walls[wall.index()].thickness,
        edges: edges(plan, sides, wall, &frame),
        pieces,
        holes: holes
            .map(|hole| PanelHole {
                at: [hole.at[0] - low[0], hole.at[1] - low[1]],
                outline: hole.outline,
                pocket: hole.pocket,
                purpose: Some(hole.purpose),
                label: hole.label.clone(),
            })
            .collect(),
        blank: [high[0] - low[0], high[1] - low[1]],
    }
}

/// Convex layers of a wall from the inner to the outer face.
fn pieces(plan: &Plan, sides: &[Side; 6], block: &Polytope, wall: Wall) -> Vec<Polytope> {
    let heights = levels(plan, wall);
    heights
        .windows(2)
        .filter_map(|pair| layer(plan, sides, block, wall, [pair[0], pair[1]]))
        .collect()
}

/// What a wall owns of the block between two heights above its inner face.
pub(crate) fn layer(
    plan: &Plan,
    sides: &[Side; 6],
    block: &Polytope,
    wall: Wall,
    [low, high]: [f64; 2],
) -> Option<Polytope> {
    let inner = &sides[wall.index()].inner;
    let ends = wall
        .neighbours()
        .map(|other| end(sides, wall, other, reach(plan, wall, other), high));
    let faces = [inner.moved(low).flipped(), inner.moved(high)];
    block.clip_all(faces.iter().chain(&ends))
}

/// The corners of a wall on its outer or its inner face, before outer edges are formed:
/// counter-clockwise as seen from outside, from the left end of the lower edge.
fn rim(plan: &Plan, sides: &[Side; 6], wall: Wall, outer: bool) -> [Vector; 4] {
    let side = &sides[wall.index()];
    let (face, top) = if outer {
        (side.outer, side.thickness)
    } else {
        (side.inner, 0.0)
    };
    let ends = wall
        .neighbours()
        .map(|other| end(sides, wall, other, reach(plan, wall, other), top));
    [0, 1, 2, 3].map(|k| {
        Plane::meet(&face, &ends[(k + 3) % 4], &ends[k])
            .expect("walls lean less than a right angle")
    })
}

/// Lowest and highest coordinates of some points in a frame.
pub(crate) fn extent(frame: &Frame, points: impl IntoIterator<Item = Vector>) -> [[f64; 2]; 2] {
    points.into_iter().map(|point| frame.flat(point)).fold(
        [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]],
        |[low, high], at| {
            [
                [low[0].min(at[0]), low[1].min(at[1])],
                [high[0].max(at[0]), high[1].max(at[1])],
            ]
        },
    )
}

/// The four edges, their ends in the given frame.
fn edges(plan: &Plan, sides: &[Side; 6], wall: Wall, frame: &Frame) -> Vec<PanelEdge> {
    let [outer, inner] = [true, false].map(|is_outer| rim(plan, sides, wall, is_outer));
    let side = &sides[wall.index()];
    let edge = |k: usize| {
        let other = wall.neighbours()[k];
        let reach = reach(plan, wall, other);
        let plane = end(sides, wall, other, reach, side.thickness);
        let ends = |rim: &[Vector; 4]| [frame.flat(rim[k]), frame.flat(rim[(k + 1) % 4])];
        let middle = scale(add(outer[k], outer[(k + 1) % 4]), 0.5);
        PanelEdge {
            outer: ends(&outer),
            inner: ends(&inner),
            meets: Some(other),
            tilt: -math::asin(dot(plane.normal, frame.out).clamp(-1.0, 1.0)),
            step: step(sides, wall, other, reach),
            form: form_at(plan, sides, wall, other, middle),
        }
    };
    (0..4).map(edge).collect()
}

/// Width along the inner face, and depth, of a step.
fn step(sides: &[Side; 6], wall: Wall, other: Wall, reach: Reach) -> Option<[f64; 2]> {
    let Reach::Step(depth) = reach else {
        return None;
    };
    let (own, across) = (&sides[wall.index()], &sides[other.index()]);
    let cos = dot(own.inner.normal, across.inner.normal);
    let width = (across.block.offset - across.inner.offset) / (1.0 - cos * cos).sqrt();
    Some([width, depth])
}

/// The form of an outer edge, where it takes wood off this wall.
fn form_at(
    plan: &Plan,
    sides: &[Side; 6],
    wall: Wall,
    other: Wall,
    middle: Vector,
) -> Option<EdgeForm> {
    let edge = Edge::between(wall, other)?;
    let (_, what) = plan.edges.iter().find(|(at, _)| *at == edge)?;
    let [a, b] = [edge.first, edge.second].map(|side| sides[side.index()].block);
    let cut = form::planes(*what, &a, &b)
        .iter()
        .any(|plane| plane.distance(middle) > TOUCH);
    cut.then_some(*what)
}
