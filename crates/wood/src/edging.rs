//! What rounded and chamfered outer edges take off the walls, in closed form.
//!
//! Across an edge, depths below its two faces span the section; the joint parts it
//! between the two walls, and at the ends of the edge the third wall takes its part.

use crate::corner::{Reach, reach};
use crate::form::{self, outline};
use crate::math;
use crate::plan::{Edge, EdgeForm, Plan, Wall, WallPlan};
use crate::vector::dot;

/// A region in depths below the block's faces of the edge's first and second wall.
type Region = Vec<[f64; 2]>;

/// Takes what the plan's edge forms take off the wood of the walls.
pub(crate) fn take_off(plan: &Plan, walls: &mut [f64; 6]) {
    for (edge, form) in &plan.edges {
        edge_off(plan, *edge, *form, walls);
    }
    if plan.edges.len() > 1 {
        corners_back(plan, walls);
    }
}

fn edge_off(plan: &Plan, edge: Edge, what: EdgeForm, walls: &mut [f64; 6]) {
    let faces = [edge.first, edge.second].map(|wall| plan.block.plane(wall));
    let cos = dot(faces[0].normal, faces[1].normal);
    let scale = 1.0 / (1.0 - cos * cos).sqrt();
    let whole = outline(what, math::acos(cos));
    let length = length(plan, edge);
    for (first, owner, other) in [(0, edge.first, edge.second), (1, edge.second, edge.first)] {
        for part in parts(plan, &whole, [first, 1 - first], owner, other) {
            walls[owner.index()] -= scale * area(&part) * length;
            for end in ends(edge) {
                let Some((share, taken)) = taken(plan, &part, first, owner, end) else {
                    continue;
                };
                let area = scale * area(&share);
                walls[owner.index()] += area * taken;
                walls[end.index()] -= area * (taken - plan.walls[end.index()].setback).max(0.0);
            }
        }
    }
}

/// Length of an edge of the block in m.
fn length(plan: &Plan, edge: Edge) -> f64 {
    use Wall::{Back, Bottom, Front, Left, Right};
    let block = &plan.block;
    match (edge.first, edge.second) {
        (Front, Left | Right) => block.height / math::cos(block.front_lean),
        (Back, Left | Right) => block.height / math::cos(block.back_lean),
        (Front | Back, _) => block.width,
        (_, Bottom) => block.depth,
        (_, _) => block.depth_at(block.height),
    }
}

/// The two walls at the ends of an edge.
fn ends(edge: Edge) -> impl Iterator<Item = Wall> {
    let aside = move |wall: &Wall| {
        [edge.first, edge.second]
            .iter()
            .all(|side| *wall != *side && *wall != side.opposite())
    };
    Wall::ALL.into_iter().filter(aside)
}

/// The parts of a region that belong to a wall: of the corner what the joint gives it, and
/// all that lies below the inner face of the other. `[own, across]` are their places in the
/// region's coordinates.
fn parts(
    plan: &Plan,
    region: &Region,
    [own, across]: [usize; 2],
    wall: Wall,
    other: Wall,
) -> Vec<Region> {
    let (what, against) = (plan.walls[wall.index()], plan.walls[other.index()]);
    let visible = keep(region, own, -1.0, what.setback);
    let beside = keep(&visible, across, -1.0, deep(against));
    let corner = keep(
        &keep(&visible, across, 1.0, deep(against)),
        own,
        1.0,
        deep(what),
    );
    let won = match reach(plan, wall, other) {
        Reach::Through => corner,
        Reach::To(height) => keep(&corner, across, -1.0, deep(against) - height),
        Reach::Step(depth) => keep(&corner, own, 1.0, deep(what) - depth),
        Reach::Mitre => {
            let mut line = [0.0, 0.0];
            (line[own], line[across]) = (1.0 / what.thickness, -1.0 / against.thickness);
            let limit = deep(what) / what.thickness - deep(against) / against.thickness;
            cut(&corner, line, limit)
        }
    };
    [won, beside]
        .into_iter()
        .filter(|part| part.len() > 2)
        .collect()
}

/// How far a wall at the end of an edge goes into a wall, and the share of a part of that one
/// that it so takes; `own` is the depth below the face of the wall in the part's coordinates.
fn taken(plan: &Plan, part: &Region, own: usize, wall: Wall, end: Wall) -> Option<(Region, f64)> {
    let (what, across) = (plan.walls[wall.index()], plan.walls[end.index()]);
    match reach(plan, wall, end) {
        Reach::Through => None,
        Reach::To(height) => Some((part.clone(), deep(across) - height)),
        // Under the outer layer, the end's wall stands in the step.
        Reach::Step(depth) => {
            let under = keep(part, own, -1.0, deep(what) - depth);
            (under.len() > 2).then(|| (under, deep(across)))
        }
        Reach::Mitre => {
            let height = deep(what) - mean(part, own);
            let reached = across.thickness * height / what.thickness;
            Some((part.clone(), deep(across) - reached))
        }
    }
}

/// How deep the inner face of a wall lies below the block's face, in m.
fn deep(wall: WallPlan) -> f64 {
    wall.setback + wall.thickness
}

/// What lies below (sign 1) or above (sign −1) a limit on one axis.
fn keep(region: &Region, axis: usize, sign: f64, limit: f64) -> Region {
    let mut line = [0.0, 0.0];
    line[axis] = sign;
    cut(region, line, sign * limit)
}

/// Gives back what edges that meet at a corner take twice, a third to each wall: of forms of
/// one kind, as if they had the size of the smallest.
fn corners_back(plan: &Plan, walls: &mut [f64; 6]) {
    for corner in crate::corner::CORNERS {
        let at = [(0, 1), (1, 2), (0, 2)].map(|(a, b)| {
            let edge = Edge::between(corner[a], corner[b])?;
            let found = plan.edges.iter().find(|(known, _)| *known == edge)?;
            Some(found.1)
        });
        let round = at.iter().flatten().filter_map(|form| match form {
            EdgeForm::Round(size) => Some(*size),
            EdgeForm::Chamfer(_) => None,
        });
        let chamfer = at.iter().flatten().filter_map(|form| match form {
            EdgeForm::Chamfer(size) => Some(*size),
            EdgeForm::Round(_) => None,
        });
        let sizes = [round.collect::<Vec<_>>(), chamfer.collect()];
        for (sizes, twice) in sizes.iter().zip([form::ROUND_TWICE, form::CHAMFER_TWICE]) {
            let size = sizes.iter().copied().fold(f64::INFINITY, f64::min);
            if sizes.len() > 1 {
                let third = twice[sizes.len() - 2] * size * size * size / 3.0;
                for wall in corner {
                    walls[wall.index()] += third;
                }
            }
        }
    }
}

/// What lies at line · p ≤ limit.
fn cut(region: &Region, line: [f64; 2], limit: f64) -> Region {
    let over = |p: [f64; 2]| line[0] * p[0] + line[1] * p[1] - limit;
    let mut kept = Region::with_capacity(region.len() + 1);
    for (k, a) in region.iter().enumerate() {
        let b = region[(k + 1) % region.len()];
        let (from, to) = (over(*a), over(b));
        if from <= 0.0 {
            kept.push(*a);
        }
        if (from < 0.0 && to > 0.0) || (from > 0.0 && to < 0.0) {
            let share = from / (from - to);
            kept.push([0, 1].map(|axis| a[axis] + share * (b[axis] - a[axis])));
        }
    }
    kept
}

fn area(region: &Region) -> f64 {
    triangles(region).map(|(_, area)| area).sum::<f64>().abs()
}

/// Mean depth of a region below one face.
fn mean(region: &Region, axis: usize) -> f64 {
    let (moment, area) = triangles(region).fold((0.0, 0.0), |(moment, sum), (middle, area)| {
        (moment + middle[axis] * area, sum + area)
    });
    if area == 0.0 { 0.0 } else { moment / area }
}

fn triangles(region: &Region) -> impl Iterator<Item = ([f64; 2], f64)> + '_ {
    region.windows(2).skip(1).map(|pair| {
        let (a, b, c) = (region[0], pair[0], pair[1]);
        let area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
        let middle = [0, 1].map(|axis| (a[axis] + b[axis] + c[axis]) / 3.0);
        (middle, 0.5 * area)
    })
}
