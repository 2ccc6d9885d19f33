//! Boards that share wood: one may pass through another, and is then cut around it; or it
//! runs into it and has nowhere to go.

use crate::board::without_windows;
use crate::body::Body;
use crate::plan::{Board, BoardKind};
use crate::polytope::{Polytope, TOUCH};
use crate::vector::Vector;

/// Two boards that share wood, before the later is cut around the earlier.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// Indices in the plan's list of boards: the earlier and the later.
    pub boards: [usize; 2],
    /// Volume that both would fill, in m³.
    pub shared: f64,
    /// Whether one passes through the other from face to face, as halved boards do.
    pub through: bool,
    /// How far they run into one another, in m: the shortest way that parts them.
    pub by: f64,
}

impl Body {
    /// All boards that share wood, earlier ones first.
    #[must_use]
    pub fn crossings(&self) -> Vec<Crossing> {
        let boards: Vec<Cut<'_>> = self
            .plan
            .boards
            .iter()
            .map(|board| Cut::new(board, &self.room))
            .collect();
        let room = self.room.bounds();
        let mut found = Vec::new();
        for (later, b) in boards.iter().enumerate() {
            for (earlier, a) in boards[..later].iter().enumerate() {
                let shared = a.shared(b);
                if shared > 0.0 {
                    found.push(Crossing {
                        boards: [earlier, later],
                        shared,
                        through: crosses(a, b, room),
                        by: depth(a.bounds, b.bounds),
                    });
                }
            }
        }
        found
    }
}

/// A board cut off by the walls.
struct Cut<'a> {
    board: &'a Board,
    wood: Vec<Polytope>,
    bounds: [Vector; 2],
}

impl<'a> Cut<'a> {
    fn new(board: &'a Board, room: &Polytope) -> Self {
        let whole = Polytope::block(board.low, board.high).intersection(room);
        Self {
            board,
            wood: whole
                .iter()
                .flat_map(|whole| without_windows(whole, board))
                .collect(),
            bounds: whole.map_or([[0.0; 3]; 2], |whole| whole.bounds()),
        }
    }

    fn shared(&self, other: &Self) -> f64 {
        let pairs = self
            .wood
            .iter()
            .flat_map(|a| other.wood.iter().filter_map(move |b| a.intersection(b)));
        pairs.map(|common| common.volume()).sum()
    }

    fn extent(&self, axis: usize) -> f64 {
        self.bounds[1][axis] - self.bounds[0][axis]
    }

    /// The axis along which it is longest.
    fn longest(&self) -> usize {
        let longer = |a: &usize, b: &usize| self.extent(*a).total_cmp(&self.extent(*b));
        [0, 1, 2].into_iter().max_by(longer).unwrap_or(0)
    }

    /// Whether it comes out of both faces of another, along its own length: a sheet from wall
    /// to wall, or a stick or cleat.
    fn passes(&self, other: &Self, [room_low, room_high]: [Vector; 2]) -> bool {
        let along = other.board.across;
        let [low, high] = self.bounds;
        let [from, to] = other.bounds;
        let out = low[along] < from[along] - TOUCH && high[along] > to[along] + TOUCH;
        let from_wall_to_wall = along != self.board.across
            && self.board.low[along] <= room_low[along] + TOUCH
            && self.board.high[along] >= room_high[along] - TOUCH;
        out && (from_wall_to_wall || along == self.longest())
    }

    /// Whether it takes a whole side of another, so that nothing of that is left beside it.
    fn spans(&self, other: &Self) -> bool {
        let mut sides = (0..3).filter(|axis| *axis != other.board.across);
        sides.any(|axis| {
            self.bounds[0][axis] <= other.bounds[0][axis] + TOUCH
                && self.bounds[1][axis] >= other.bounds[1][axis] - TOUCH
        })
    }
}

/// Whether one of two passes through the other. Nothing passes through the walls of a bay or
/// of a recess: they close off their air.
fn crosses(a: &Cut<'_>, b: &Cut<'_>, room: [Vector; 2]) -> bool {
    let closes =
        |cut: &Cut<'_>| matches!(cut.board.kind, BoardKind::BayWall | BoardKind::RecessWall);
    if closes(a) || closes(b) {
        return false;
    }
    let (ab, ba) = (a.passes(b, room), b.passes(a, room));
    ab && (ba || !a.spans(b)) || ba && !b.spans(a)
}

/// The shortest way along an axis that parts two upright boxes.
fn depth(a: [Vector; 2], b: [Vector; 2]) -> f64 {
    let ways = (0..3).flat_map(|axis| [a[1][axis] - b[0][axis], b[1][axis] - a[0][axis]]);
    ways.fold(f64::INFINITY, f64::min).max(0.0)
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::fault::Fault;
    use crate::plan::{Block, Edge, Joint, Plan, WallPlan, Window};
    use proptest::prelude::*;

    /// A box of 300 x 200 x 400 mm along x, y and z with walls of 20 mm, and its boards.
    pub(crate) fn block(boards: Vec<Board>) -> Plan {
        Plan {
            block: Block {
                width: 0.3,
                height: 0.4,
                depth: 0.2,
                front_lean: 0.0,
                back_lean: 0.0,
            },
            walls: [WallPlan {
                thickness: 0.02,
                setback: 0.0,
            }; 6],
            joints: Edge::ALL.map(|edge| Joint::Butt {
                through: edge.first,
            }),
            edges: Vec::new(),
            holes: Vec::new(),
            boards,
        }
    }

    pub(crate) fn board(kind: BoardKind, across: usize, low: Vector, high: Vector) -> Board {
        Board {
            name: String::from("board"),
            kind,
            low,
            high,
            across,
            windows: Vec::new(),
        }
    }

    /// A sheet from wall to wall, its near face at a place along its axis.
    fn sheet(across: usize, at: f64) -> Board {
        let (mut low, mut high) = ([0.0; 3], [0.3, 0.2, 0.4]);
        (low[across], high[across]) = (at, at + 0.012);
        board(BoardKind::Brace, across, low, high)
    }

    /// A strip of 15 x 15 mm on the floor along x, its front edge at a place along y.
    fn strip(at: f64) -> Board {
        let (low, high) = ([0.0, at, 0.02], [0.3, at + 0.015, 0.035]);
        board(BoardKind::Cleat, 1, low, high)
    }

    fn only(boards: Vec<Board>) -> Option<Crossing> {
        let found = Body::new(&block(boards)).expect("it closes").crossings();
        assert!(found.len() <= 1, "{found:?}");
        found.first().copied()
    }

    #[test]
    fn boards_that_touch_share_nothing() {
        assert_eq!(only(vec![sheet(1, 0.1), sheet(1, 0.112)]), None);
        assert_eq!(only(vec![sheet(1, 0.1), strip(0.112)]), None);
    }

    #[test]
    fn sheets_at_right_angles_and_strips_pass_through() {
        let crossing = only(vec![sheet(0, 0.1), sheet(1, 0.1)]).expect("they cross");
        assert!(crossing.through, "{crossing:?}");
        assert!((crossing.shared - 0.012 * 0.012 * 0.36).abs() < 1e-12);
        // A strip along x through a sheet across x leaves a notch in its corner.
        assert!(only(vec![sheet(0, 0.1), strip(0.1)]).is_some_and(|found| found.through));
        let stick = board(BoardKind::Brace, 0, [0.1, 0.09, 0.0], [0.12, 0.13, 0.4]);
        assert!(only(vec![sheet(2, 0.2), stick]).is_some_and(|found| found.through));
    }

    #[test]
    fn sheets_beside_one_another_and_strips_along_them_run_in() {
        let crossing = only(vec![sheet(1, 0.1), sheet(1, 0.105)]).expect("they share wood");
        assert!(!crossing.through && (crossing.by - 0.007).abs() < 1e-12);
        // All of the sheet's thickness within the strip, or part of it.
        for (at, by) in [(0.0985, 0.0135), (0.107, 0.005)] {
            let crossing = only(vec![sheet(1, 0.1), strip(at)]).expect("they share wood");
            assert!(!crossing.through, "{crossing:?}");
            assert!((crossing.by - by).abs() < 1e-12, "{crossing:?}");
        }
        // A strip that ends within a sheet.
        let short = board(BoardKind::Cleat, 1, [0.106, 0.1, 0.02], [0.2, 0.115, 0.035]);
        assert!(only(vec![sheet(0, 0.1), short]).is_some_and(|found| !found.through));
    }

    #[test]
    fn nothing_passes_through_the_walls_of_a_bay() {
        let wall = Board {
            kind: BoardKind::BayWall,
            ..sheet(1, 0.1)
        };
        assert!(only(vec![sheet(0, 0.1), wall]).is_some_and(|found| !found.through));
    }

    #[test]
    fn a_board_in_the_window_of_another_shares_nothing() {
        let mut frame = sheet(1, 0.1);
        frame.windows = vec![Window {
            low: [0.05, 0.05],
            high: [0.25, 0.35],
            corner: 0.0,
        }];
        let within = board(BoardKind::Brace, 0, [0.1, 0.0, 0.1], [0.12, 0.2, 0.14]);
        assert_eq!(only(vec![frame, within]), None);
    }

    fn any_board() -> impl Strategy<Value = Board> {
        let corner = || [0.0..0.3, 0.0..0.2, 0.0..0.4];
        (0..3_usize, corner(), corner()).prop_map(|(across, a, b)| {
            let low = [0, 1, 2].map(|axis| f64::min(a[axis], b[axis]));
            let high = [0, 1, 2].map(|axis| f64::max(a[axis], b[axis]) + 0.01);
            board(BoardKind::Brace, across, low, high)
        })
    }

    proptest! {
        /// What boards lose to one another is what they share; where nothing is said of
        /// them, each keeps all that lies between the walls.
        #[test]
        fn wood_is_counted_once(boards in proptest::collection::vec(any_board(), 1..4)) {
            let whole: f64 = boards
                .iter()
                .map(|board| {
                    let sides = [[0.02, 0.28], [0.02, 0.18], [0.02, 0.38]];
                    let side = |axis: usize| {
                        let [low, high] = sides[axis];
                        (board.high[axis].min(high) - board.low[axis].max(low)).max(0.0)
                    };
                    side(0) * side(1) * side(2)
                })
                .sum();
            let body = Body::new(&block(boards)).expect("it closes");
            let crossings = body.crossings();
            let kept: f64 = body.boards().iter().map(crate::panel::Panel::volume).sum();
            let shared: f64 = crossings.iter().map(|crossing| crossing.shared).sum();
            // Wood that three boards share is counted by each pair.
            prop_assert!(whole - kept <= shared + 1e-12);
            prop_assert!(whole - kept >= -1e-12);
            if crossings.len() < 2 {
                prop_assert!((whole - kept - shared).abs() < 1e-12);
            }
            let told = body.faults.iter().any(|fault| matches!(fault, Fault::BoardsRunIn { .. }));
            let run_in = crossings.iter().any(|crossing| !crossing.through);
            prop_assert_eq!(told, run_in);
        }
    }
}
