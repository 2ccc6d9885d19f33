//! Boards that do not lie in the room, and windows that do not lie in their boards.

use crate::body::Body;
use crate::fault::Fault;
use crate::flat::Line;
use crate::hole::Cut;
use crate::panel::Panel;
use crate::plan::{Board, BoardKind, Plan, Wall};
use crate::polytope::{Plane, Polytope, TOUCH};
use crate::sides::Side;

pub(super) fn faults(body: &Body, sides: &[Side; 6]) -> Vec<Fault> {
    let boards = body.plan.boards.iter().zip(body.boards()).enumerate();
    let mut faults: Vec<Fault> = boards
        .flat_map(|(index, (board, panel))| {
            let mut faults = beyond(&body.plan, index, board, sides);
            if panel.pieces.is_empty() {
                faults.retain(|fault| !matches!(fault, Fault::BoardInWall { .. }));
                faults.push(Fault::NoBoard { board: index });
            } else {
                faults.extend(windows(index, panel));
            }
            faults
        })
        .collect();
    let run_in = body.crossings().into_iter();
    faults.extend(
        run_in
            .filter(|crossing| !crossing.through && crossing.by > CLOSE)
            .map(|crossing| Fault::BoardsRunIn {
                boards: crossing.boards,
                by: crossing.by,
            }),
    );
    faults
}

/// Boards placed where a wall cuts them off, or beyond its outer face.
fn beyond(plan: &Plan, index: usize, board: &Board, sides: &[Side; 6]) -> Vec<Fault> {
    let over = |wall: Wall| {
        if !is_placed(plan, board, axis_across(wall)) {
            return None;
        }
        let part = between_others(board, sides, wall)?;
        let most = |plane: &Plane| {
            let over = part.vertices.iter().map(|at| plane.distance(*at));
            over.fold(f64::NEG_INFINITY, f64::max)
        };
        let side = &sides[wall.index()];
        let off = most(&side.outer);
        if off > CLOSE {
            return Some(Fault::BoardOff {
                board: index,
                beyond: wall,
                by: off,
            });
        }
        let by = most(&side.inner);
        let bevel = bevel(board, side);
        (by > bevel + CLOSE).then_some(Fault::BoardInWall {
            board: index,
            wall,
            by,
        })
    };
    Wall::ALL.into_iter().filter_map(over).collect()
}

/// Boards nearer than this are said to touch, in m.
const CLOSE: f64 = 1e-6;

const fn axis_across(wall: Wall) -> usize {
    match wall {
        Wall::Left | Wall::Right => 0,
        Wall::Front | Wall::Back => 1,
        Wall::Top | Wall::Bottom => 2,
    }
}

/// Whether a board has its own place along an axis. One as long as the whole block is meant
/// to end at the walls, and none is as thick.
fn is_placed(plan: &Plan, board: &Board, axis: usize) -> bool {
    let block = &plan.block;
    let length = [block.width, block.depth, block.height][axis];
    axis == board.across || board.low[axis] > CLOSE || board.high[axis] < length - CLOSE
}

/// What of a board lies between all walls but one; where nothing does, all of it.
fn between_others(board: &Board, sides: &[Side; 6], but: Wall) -> Option<Polytope> {
    let whole = Polytope::block(board.low, board.high);
    let others = Wall::ALL.into_iter().filter(|wall| *wall != but);
    let planes: Vec<Plane> = others.map(|wall| sides[wall.index()].inner).collect();
    let between = whole.clip_all(&planes);
    between.or_else(|| (!whole.faces.is_empty()).then_some(whole))
}

/// What may be planed off a board so that it sits on a wall that leans: what the wall goes
/// back over its height, up to half the board, for cleats and for walls that close off air.
fn bevel(board: &Board, side: &Side) -> f64 {
    let lean = side.inner.normal[2].abs();
    let level = lean > 1.0 - TOUCH;
    match board.kind {
        BoardKind::Cleat | BoardKind::BayWall | BoardKind::RecessWall if !level => {
            let back = lean * (board.high[2] - board.low[2]);
            back.min(0.5 * (board.high[1] - board.low[1]))
        }
        _ => 0.0,
    }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::crossing::tests::{block, board};

    fn found(plan: &Plan) -> Vec<Fault> {
        Body::new(plan).expect("it closes").faults
    }

    /// A brace upright and across the box, its front face so far from the block's front.
    fn brace(at: f64) -> Board {
        board(BoardKind::Brace, 1, [0.0, at, 0.0], [0.3, at + 0.012, 0.4])
    }

    #[test]
    fn a_brace_lies_free_of_walls_that_lean_or_stand_back() {
        let mut plan = block(vec![brace(0.06)]);
        plan.walls[Wall::Front.index()].setback = 0.01;
        plan.boards.push(board(
            BoardKind::Brace,
            0,
            [0.1, 0.0, 0.0],
            [0.112, 0.2, 0.4],
        ));
        assert_eq!(found(&plan), []);
        // At the top the front's inner face lies 20 / cos 5° + 380 tan 5° = 53.3 mm back.
        let mut plan = block(vec![brace(0.054)]);
        plan.block.front_lean = 5.0_f64.to_radians();
        assert_eq!(found(&plan), []);
        plan.boards = vec![brace(0.05)];
        let faults = found(&plan);
        let [
            Fault::BoardInWall {
                board: 0,
                wall: Wall::Front,
                by,
            },
        ] = faults[..]
        else {
            panic!("{faults:?}");
        };
        let lean = plan.block.front_lean;
        let over = 0.02 / crate::math::cos(lean) + 0.38 * crate::math::tan(lean) - 0.05;
        assert!((by - over * crate::math::cos(lean)).abs() < 1e-9, "{by}");
    }

    #[test]
    fn a_board_cut_thin_by_a_wall_is_said() {
        let faults = found(&block(vec![brace(0.175)]));
        let [
            Fault::BoardInWall {
                board: 0,
                wall: Wall::Back,
                by,
            },
        ] = faults[..]
        else {
            panic!("{faults:?}");
        };
        assert!((by - 0.007).abs() < 1e-9, "{by}");
    }

    #[test]
    fn a_cleat_is_planed_to_a_wall_that_leans() {
        let low = [0.02, 0.15999, 0.365];
        let mut plan = block(vec![board(BoardKind::Cleat, 1, low, [0.28, 0.17999, 0.38])]);
        plan.block.back_lean = 0.02;
        plan.block.depth = 0.2 + 0.365 * crate::math::tan(0.02);
        assert_eq!(found(&plan), []);
    }
}
