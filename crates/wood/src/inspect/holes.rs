//! Holes that do not lie free in their walls.

use crate::body::Body;
use crate::fault::Fault;
use crate::flat::{Flat, Line, run_into, shift};
use crate::form;
use crate::hole::Cut;
use crate::panel::{Panel, PanelEdge, PanelId};
use crate::plan::{Hole, Wall};
use crate::polytope::TOUCH;
use crate::sides::Side;
use crate::vector::dot;

/// How near a face lies to a wall that it touches, in m.
const CONTACT: f64 = 1e-6;

pub(super) fn faults(body: &Body, sides: &[Side; 6]) -> Vec<Fault> {
    Wall::ALL
        .into_iter()
        .flat_map(|wall| in_wall(body, sides, wall))
        .collect()
}

/// A hole of the plan in its panel.
struct Seated<'a> {
    index: usize,
    hole: &'a Hole,
    cut: Cut,
    /// Where it begins below the outer face, in m.
    start: f64,
}

fn in_wall(body: &Body, sides: &[Side; 6], wall: Wall) -> Vec<Fault> {
    let panel = body.wall(wall);
    let indexed = body.plan.holes.iter().enumerate();
    let seated: Vec<Seated> = indexed
        .filter(|(_, hole)| hole.wall == wall)
        .zip(panel.cuts().into_iter().zip(panel.hole_depths()))
        .map(|((index, hole), (cut, [start, _]))| Seated {
            index,
            hole,
            cut,
            start,
        })
        .collect();
    let mut faults = Vec::new();
    for (k, hole) in seated.iter().enumerate() {
        faults.extend(too_deep(hole, panel.thickness));
        faults.extend(off(body, sides, wall, hole));
        faults.extend(boards(body, wall, hole));
        faults.extend(seated[..k].iter().filter_map(|other| overlap(other, hole)));
    }
    faults
}

fn too_deep(seated: &Seated, thickness: f64) -> Option<Fault> {
    let by = seated.hole.pocket? - thickness;
    (by > -TOUCH).then_some(Fault::Pocket {
        hole: seated.index,
        by,
    })
}

/// Over its panel's edges, or over the ends of walls behind it.
fn off(body: &Body, sides: &[Side; 6], wall: Wall, seated: &Seated) -> Option<Fault> {
    let panel = body.wall(wall);
    let own = own_lines(sides, panel, seated);
    let behind = if opens_inside(panel, seated) {
        room_lines(sides, wall, panel)
    } else {
        Vec::new()
    };
    let (at, outline) = (seated.cut.at, &seated.cut.outline);
    let worst = |lines: &[(Wall, Line)]| {
        let over = lines
            .iter()
            .map(|(wall, line)| (*wall, line.over(at, outline)));
        over.filter(|(_, by)| *by > TOUCH)
            .max_by(|a, b| a.1.total_cmp(&b.1))
    };
    let all: Vec<Line> = own.iter().chain(&behind).map(|(_, line)| *line).collect();
    let hole = seated.index;
    if let Some((towards, by)) = worst(&own) {
        let shift = shift(at, outline, &all);
        return Some(Fault::HoleOff {
            hole,
            towards,
            by,
            shift,
        });
    }
    worst(&behind).map(|(other, depth)| Fault::HoleBlocked {
        hole,
        by: PanelId::Wall(other),
        depth,
        shift: shift(at, outline, &all),
    })
}

/// Whether a hole must be open to the room: not where only a screw or bolt passes.
fn opens_inside(panel: &Panel, seated: &Seated) -> bool {
    !seated.hole.purpose.is_filled() && seated.cut.depth >= panel.thickness - TOUCH
}

/// The lines beyond which a hole leaves its panel: on the face it starts from, and at its end.
fn own_lines(sides: &[Side; 6], panel: &Panel, seated: &Seated) -> Vec<(Wall, Line)> {
    let mut lines = Vec::new();
    for edge in &panel.edges {
        let Some(wall) = edge.meets else { continue };
        let faces = [
            edge.at_depth(panel.thickness, seated.start),
            edge.at_depth(panel.thickness, seated.cut.depth),
        ];
        for (k, ends) in faces.into_iter().enumerate() {
            let Some(mut line) = Line::left_of(ends) else {
                continue;
            };
            if k == 0 && seated.start == 0.0 {
                line.offset -= formed(sides, panel, edge, wall);
            }
            lines.push((wall, line));
        }
    }
    lines
}

/// How far a formed edge reaches into the outer face.
fn formed(sides: &[Side; 6], panel: &Panel, edge: &PanelEdge, wall: Wall) -> f64 {
    let across = sides[wall.index()].block.normal;
    edge.form
        .map_or(0.0, |what| form::reach(what, dot(panel.frame.out, across)))
}

/// The outline of the room on the inner face of a wall.
fn room_lines(sides: &[Side; 6], wall: Wall, panel: &Panel) -> Vec<(Wall, Line)> {
    let frame = &panel.frame;
    let foot = frame.point([0.0; 2], -panel.thickness);
    let line = |other: Wall| {
        let inner = &sides[other.index()].inner;
        let flat = [dot(inner.normal, frame.across), dot(inner.normal, frame.up)];
        let long = crate::flat::dot(flat, flat).sqrt();
        let line = Line {
            normal: flat.map(|c| c / long),
            offset: -inner.distance(foot) / long,
        };
        (other, line)
    };
    wall.neighbours().map(line).to_vec()
}

/// Boards that lie against the wall behind a hole.
fn boards(body: &Body, wall: Wall, seated: &Seated) -> Vec<Fault> {
    let panel = body.wall(wall);
    if !opens_inside(panel, seated) {
        return Vec::new();
    }
    let against = |board: &Panel| {
        let footprints = board.pieces.iter().flat_map(|piece| {
            piece.faces.iter().filter_map(move |face| {
                let near = |corner: &usize| {
                    (panel.frame.height(piece.vertices[*corner]) + panel.thickness).abs() < CONTACT
                };
                let flat = |corner: &usize| panel.frame.flat(piece.vertices[*corner]);
                face.corners
                    .iter()
                    .all(near)
                    .then(|| face.corners.iter().map(flat).collect::<Vec<Flat>>())
            })
        });
        footprints
            .filter_map(|polygon| run_into(seated.cut.at, &seated.cut.outline, &polygon))
            .max_by(|a, b| a.0.total_cmp(&b.0))
    };
    let found = body.boards().iter().filter_map(|board| {
        let (depth, way) = against(board)?;
        Some(Fault::HoleBlocked {
            hole: seated.index,
            by: board.id,
            depth,
            shift: Some(way.map(|c| c * depth)),
        })
    });
    found.collect()
}

fn overlap(first: &Seated, second: &Seated) -> Option<Fault> {
    let (a, b) = (&first.cut, &second.cut);
    let by = a.overlap(b);
    if by <= TOUCH || a.sunk_in(b) || b.sunk_in(a) {
        return None;
    }
    Some(Fault::HolesOverlap {
        holes: [first.index, second.index],
        by,
        away: a.way_off(b),
    })
}
