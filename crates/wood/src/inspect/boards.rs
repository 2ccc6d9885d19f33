//! Boards that do not lie in the room, and windows that do not lie in their boards.

use crate::body::Body;
use crate::fault::Fault;
use crate::flat::Line;
use crate::hole::Cut;
use crate::panel::Panel;
use crate::plan::{Board, Wall};
use crate::polytope::TOUCH;
use crate::sides::Side;

pub(super) fn faults(body: &Body, sides: &[Side; 6]) -> Vec<Fault> {
    let boards = body.plan.boards.iter().zip(body.boards()).enumerate();
    boards
        .flat_map(|(index, (board, panel))| {
            let mut faults = beyond(index, board, sides);
            if panel.pieces.is_empty() {
                faults.push(Fault::NoBoard { board: index });
            } else {
                faults.extend(windows(index, panel));
            }
            faults
        })
        .collect()
}

/// Beyond the outer faces of walls.
fn beyond(index: usize, board: &Board, sides: &[Side; 6]) -> Vec<Fault> {
    let over = |wall: Wall| {
        let outer = &sides[wall.index()].outer;
        let far = [0, 1, 2].map(|axis| {
            if outer.normal[axis] > 0.0 {
                board.high[axis]
            } else {
                board.low[axis]
            }
        });
        let by = outer.distance(far);
        (by > TOUCH).then_some(Fault::BoardOff {
            board: index,
            beyond: wall,
            by,
        })
    };
    Wall::ALL.into_iter().filter_map(over).collect()
}

/// Over the edges of their board, or into one another.
fn windows(board: usize, panel: &Panel) -> Vec<Fault> {
    let cuts = panel.cuts();
    let mut faults = Vec::new();
    for (window, cut) in cuts.iter().enumerate() {
        let by = most_over(panel, cut);
        if by > -TOUCH {
            faults.push(Fault::Window { board, window, by });
        }
        faults.extend(cuts[..window].iter().enumerate().filter_map(|(k, other)| {
            let by = cut.overlap(other);
            (by > TOUCH).then_some(Fault::WindowsOverlap {
                board,
                windows: [k, window],
                by,
            })
        }));
    }
    faults
}

/// How far a window reaches over the edge it comes nearest to.
fn most_over(panel: &Panel, cut: &Cut) -> f64 {
    let ends = panel.edges.iter().flat_map(|edge| [edge.outer, edge.inner]);
    ends.filter_map(Line::left_of)
        .map(|line| line.over(cut.at, &cut.outline))
        .fold(f64::NEG_INFINITY, f64::max)
}
