//! Gluing it up: order, area, glue, diagonals.

mod contact;
mod screws;

use super::model::{GlueStep, GlueUp};
use super::plan::{Hull, wall};
use crate::words;
use design::{Closing, Design, Glue, Value};
use wood::{Board, Body, Edge, Joint, Panel, Wall};

/// Area in m² below which two panels meet at most along a line: what rounding errors leave.
const LEAST: f64 = 1e-8;

/// Area and number of the joints of something that is glued in.
#[derive(Clone, Copy, Debug, Default)]
struct Joints {
    area: f64,
    count: usize,
}

impl Joints {
    /// One joint between two panels; none where they do not touch.
    fn of(a: &Panel, b: &Panel) -> Self {
        let area = contact::contact(a, b);
        Self {
            area,
            count: usize::from(area > LEAST),
        }
    }

    fn plus(self, other: Self) -> Self {
        Self {
            area: self.area + other.area,
            count: self.count + other.count,
        }
    }
}

/// The order of gluing, and what it takes.
pub(super) fn glue_up(design: &Design, body: &Body, hull: &Hull) -> GlueUp {
    let said = &design.enclosure.carpentry;
    let last = wall(said.last.value);
    let first = last.opposite();
    let glued = said.last_with.value == Closing::Glue;
    let ring: Vec<Wall> = Wall::ALL
        .into_iter()
        .filter(|wall| *wall != last && *wall != first)
        .collect();
    let usual = Glue::USUAL;
    let or = |value: Option<Value>, usual: f64| value.map_or(usual, |value| value.si);
    let per_joint = or(design.glue.per_joint, usual.per_joint);
    let mut steps = Vec::new();
    let mut all = Joints::default();
    let mut step = |words: String, joints: Joints| {
        if joints.count > 0 {
            all = all.plus(joints);
            steps.push(GlueStep {
                words,
                joints: joints.count,
                time: joints.count as f64 * per_joint,
            });
        }
    };
    let around = between(body, |edge| {
        ring.contains(&edge.first) && ring.contains(&edge.second)
    });
    step(ring_words(&ring, &body.plan.joints), around);
    let with = |wall: Wall| between(body, |edge| edge.first == wall || edge.second == wall);
    step(closing_words(first, body), with(first));
    let boards = (0..body.plan.boards.len()).map(|board| (board, of_board(body, board, last)));
    for (board, joints) in boards {
        step(board_words(&body.plan.boards[board]), joints);
    }
    if glued {
        step(
            closing_words(last, body),
            with(last).plus(with_boards(body, last)),
        );
    }
    if !glued {
        steps.push(GlueStep {
            words: screws::words_of_wall(body, hull, last),
            joints: 0,
            time: 0.0,
        });
    }
    let inner = opening(hull, &body.plan.joints, last);
    GlueUp {
        steps,
        area: all.area,
        glue: all.area * or(design.glue.spread, usual.spread),
        diagonal: (inner[0] * inner[0] + inner[1] * inner[1]).sqrt(),
        diagonal_within: 2.0 * length_error(design),
        open_time: or(design.glue.open_time, usual.open_time),
    }
}

/// Error of lengths of the saw, either way, in m.
pub(super) fn length_error(design: &Design) -> f64 {
    let usual = design.saw.kind.value.usual().length_error;
    design.saw.length_error.map_or(usual, |value| value.si)
}

/// Width and height of the ring's opening towards the last wall, at its rim, where a step for
/// that wall makes it larger, in m.
fn opening(hull: &Hull, joints: &[Joint; 12], last: Wall) -> [f64; 2] {
    let step = |of: Wall| {
        let edge = Edge::ALL
            .into_iter()
            .find(|edge| [[of, last], [last, of]].contains(&[edge.first, edge.second]));
        match edge.map(|edge| joints[edge.index()]) {
            Some(Joint::Rebate { within, depth }) if within == of => depth,
            _ => 0.0,
        }
    };
    let [width, height, depth] = hull.inside_size();
    let width = width + step(Wall::Left) + step(Wall::Right);
    let height = height + step(Wall::Bottom) + step(Wall::Top);
    let depth = depth + step(Wall::Front) + step(Wall::Back);
    match last {
        Wall::Front | Wall::Back => [width, height],
        Wall::Left | Wall::Right => [depth, height],
        Wall::Top | Wall::Bottom => [width, depth],
    }
}

fn named(walls: &[Wall]) -> String {
    let names: Vec<&str> = walls.iter().map(|wall| words::wall(*wall)).collect();
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        _ => names.join(""),
    }
}

fn ring_words(ring: &[Wall], joints: &[Joint; 12]) -> String {
    let mitred = Edge::ALL.into_iter().any(|edge| {
        let in_ring = ring.contains(&edge.first) && ring.contains(&edge.second);
        in_ring && joints[edge.index()] == Joint::Mitre
    });
    let how = if mitred {
        "lay the panels edge to edge on tape, outer faces down, spread the mitres, fold the ring and pull a strap around it"
    } else {
        "spread the ends, close the ring and clamp across all joints"
    };
    format!(
        "{}: {how}; measure both diagonals before the glue sets",
        capital(&named(ring))
    )
}

fn closing_words(wall: Wall, body: &Body) -> String {
    let mitred = Edge::ALL.into_iter().any(|edge| {
        (edge.first == wall || edge.second == wall)
            && body.plan.joints[edge.index()] == Joint::Mitre
    });
    let how = if mitred {
        "spread its mitres and strap it on in both directions"
    } else {
        "spread, set in place and clamp all around"
    };
    format!(
        "{}: {how}; run a finger along the inside so that squeezed-out glue seals the corner",
        capital(words::wall(wall))
    )
}

fn board_words(board: &Board) -> String {
    format!(
        "{}: spread its edges, set in place and clamp or pin",
        capital(&board.name)
    )
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Joints along some edges of the box.
fn between(body: &Body, takes: impl Fn(&Edge) -> bool) -> Joints {
    let edges = Edge::ALL.into_iter().filter(takes);
    edges
        .map(|edge| Joints::of(body.wall(edge.first), body.wall(edge.second)))
        .fold(Joints::default(), Joints::plus)
}

/// Joints of a board with the walls that stand before the last one, and with the boards
/// before it.
fn of_board(body: &Body, board: usize, last: Wall) -> Joints {
    let panel = &body.boards()[board];
    let walls = Wall::ALL.into_iter().filter(|wall| *wall != last);
    let others = walls
        .map(|wall| body.wall(wall))
        .chain(&body.boards()[..board]);
    others
        .map(|other| Joints::of(panel, other))
        .fold(Joints::default(), Joints::plus)
}

/// Joints of a wall with the boards.
fn with_boards(body: &Body, wall: Wall) -> Joints {
    let boards = body.boards().iter();
    boards
        .map(|board| Joints::of(body.wall(wall), board))
        .fold(Joints::default(), Joints::plus)
}

#[cfg(test)]
mod tests;
