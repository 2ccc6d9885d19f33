//! Whether a hand and a straight screwdriver reach a part through an opening.

use super::super::model::PlacedPart;
use wood::vector::{Vector, add, dot, length, scale, sub};
use wood::{Body, Frame, Opening, Outline, Panel, PanelId, Shape};

/// Breadth and thickness of a hand, and reach of a forearm, in m: common practice, no source.
const HAND: [f64; 2] = [0.09, 0.05];
const ARM: f64 = 0.45;

/// Radius of a screwdriver with its tip free of rims, in m: common practice, no source.
const DRIVER: f64 = 0.005;

/// An opening as a flat outline.
struct Window {
    frame: Frame,
    at: [f64; 2],
    half: [f64; 2],
    round: bool,
}

impl Window {
    fn of(body: &Body, opening: &Opening) -> Option<Self> {
        let panel = body.panel(opening.panel)?;
        let Some(hole) = opening.hole else {
            let half = panel.blank.map(|side| side / 2.0);
            return Some(Self {
                frame: panel.frame,
                at: half,
                half,
                round: false,
            });
        };
        let hole = panel.holes.get(hole)?;
        Some(Self {
            frame: panel.frame,
            at: hole.at,
            half: hole.outline.half(),
            round: matches!(hole.outline, Outline::Circle { .. }),
        })
    }

    /// Whether a point of its plane lies within it by a margin.
    fn holds(&self, point: [f64; 2], margin: f64) -> bool {
        let off = [0, 1].map(|axis| (point[axis] - self.at[axis]).abs() + margin);
        if self.round {
            off[0] * off[0] + off[1] * off[1] <= self.half[0] * self.half[0]
        } else {
            off[0] <= self.half[0] && off[1] <= self.half[1]
        }
    }
}

/// Whether a hand passes an opening and the part lies within a forearm's reach of it.
pub(super) fn by_hand(body: &Body, part: &PlacedPart, through: Option<&Opening>) -> bool {
    let Some(window) = through.and_then(|opening| Window::of(body, opening)) else {
        return false;
    };
    let [a, b] = window.half.map(|half| 2.0 * half);
    let passes = a.max(b) >= HAND[0] && a.min(b) >= HAND[1];
    let (low, high) = part.part.shape.bounds(&part.part.pose);
    // The reach is to the nearest point of the block around it.
    let middle = window.frame.point(window.at, 0.0);
    let nearest = [0, 1, 2].map(|axis| middle[axis].clamp(low[axis], high[axis]));
    passes && length(sub(nearest, middle)) <= ARM
}

/// Whether every screw of a part can be turned through an opening, straight on.
pub(super) fn by_screwdriver(
    body: &Body,
    parts: &[PlacedPart],
    index: usize,
    through: Option<&Opening>,
) -> bool {
    let own = &parts[index].part;
    if own.shape.screws.is_empty() {
        return true;
    }
    let Some((opening, window)) = through.and_then(|o| Some((o, Window::of(body, o)?))) else {
        return false;
    };
    own.shape.screws.iter().all(|screw| {
        let head = own.pose.point(screw.head);
        let back = scale(own.pose.direction(screw.along), -1.0);
        let rising = dot(back, window.frame.out);
        if rising < 1e-6 {
            return false;
        }
        let way = -window.frame.height(head) / rising;
        let tip = add(head, scale(back, way));
        let in_the_way = |other: usize| {
            other != index
                && !opening.taken_out.contains(&other)
                && crosses(&parts[other], head, tip)
        };
        way > 0.0
            && window.holds(window.frame.flat(tip), DRIVER)
            && !(0..parts.len()).any(in_the_way)
            && !boards_cross(body, opening.panel, head, tip)
    })
}

/// Whether a part lies on a straight way, its solids taken as upright blocks.
fn crosses(part: &PlacedPart, from: Vector, to: Vector) -> bool {
    part.part.shape.solids.iter().any(|solid| {
        let (low, high) = Shape::of(vec![solid.clone()]).bounds(&part.part.pose);
        meets(low, high, from, to)
    })
}

fn boards_cross(body: &Body, off: PanelId, from: Vector, to: Vector) -> bool {
    body.boards()
        .iter()
        .filter(|board| board.id != off && !by_window(board, from, to))
        .flat_map(|board| &board.pieces)
        .any(|piece| {
            let [low, high] = piece.bounds();
            meets(low, high, from, to)
        })
}

/// Whether a straight way passes a board through one of its windows.
fn by_window(board: &Panel, from: Vector, to: Vector) -> bool {
    let heights = [from, to].map(|end| board.frame.height(end) + board.thickness / 2.0);
    let rising = heights[1] - heights[0];
    if rising.abs() < 1e-12 {
        return false;
    }
    let there = add(from, scale(sub(to, from), -heights[0] / rising));
    let at = board.frame.flat(there);
    board.holes.iter().any(|hole| {
        let half = hole.outline.half();
        (0..2).all(|axis| (at[axis] - hole.at[axis]).abs() + DRIVER <= half[axis])
    })
}

/// Whether a screwdriver between two points meets an upright block.
fn meets(low: Vector, high: Vector, from: Vector, to: Vector) -> bool {
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    for axis in 0..3 {
        let (low, high) = (low[axis] - DRIVER, high[axis] + DRIVER);
        let along = to[axis] - from[axis];
        if along.abs() < 1e-12 {
            if from[axis] <= low || from[axis] >= high {
                return false;
            }
            continue;
        }
        let (a, b) = ((low - from[axis]) / along, (high - from[axis]) / along);
        enter = enter.max(a.min(b));
        leave = leave.min(a.max(b));
    }
    // What only touches at the head is what the screw holds.
    leave - enter > 1e-6
}
