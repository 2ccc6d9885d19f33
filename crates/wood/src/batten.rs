//! Volumes of boards in closed form.
//!
//! Boards are upright blocks, and so is what two of them share, so that counting shared
//! wood once needs blocks only. Windows of boards that share wood are left to the solid
//! model, unless one board passes clear through the window of the other.

use crate::board::along;
use crate::plan::{Board, Outline, Plan, Window};
use crate::vector::Vector;
use crate::volumes::Inside;

type Span = [Vector; 2];

/// Wood of each board, windows taken off; `None` where a window needs the solid model.
pub(crate) fn volumes(plan: &Plan) -> Option<Vec<f64>> {
    let inside = Inside::of(plan);
    let boards = plan.boards.iter().enumerate();
    boards
        .map(|(index, board)| volume(&inside, &plan.boards[..index], board))
        .collect()
}

fn volume(inside: &Inside, earlier: &[Board], board: &Board) -> Option<f64> {
    let whole = [board.low, board.high];
    let mut notches = Vec::new();
    for other in earlier {
        let Some(shared) = common(whole, [other.low, other.high]) else {
            continue;
        };
        if !clear(board, shared) {
            return None;
        }
        match passage(other, shared) {
            Passage::Through => {}
            Passage::Beside => notches.push(shared),
            Passage::Partly => return None,
        }
    }
    let mut rest = free(inside, whole, &notches);
    for window in &board.windows {
        rest -= opening(inside, board, window)?;
    }
    Some(rest)
}

/// How shared wood lies to the windows of a board.
enum Passage {
    /// Within one.
    Through,
    /// Clear of all.
    Beside,
    /// Neither.
    Partly,
}

fn passage(board: &Board, shared: Span) -> Passage {
    if clear(board, shared) {
        return Passage::Beside;
    }
    let [u, v] = along(board.across);
    let [low, high] = shared;
    let within = |window: &Window| {
        let corner = window.corner;
        let inside = |axis: usize, k: usize, margin: f64| {
            low[axis] >= window.low[k] + margin && high[axis] <= window.high[k] - margin
        };
        (inside(u, 0, corner) && inside(v, 1, 0.0)) || (inside(u, 0, 0.0) && inside(v, 1, corner))
    };
    if board.windows.iter().any(within) {
        Passage::Through
    } else {
        Passage::Partly
    }
}

/// Whether shared wood meets no window of a board.
fn clear(board: &Board, [low, high]: Span) -> bool {
    let axes = along(board.across);
    board.windows.iter().all(|window| {
        (0..2).any(|k| high[axes[k]] <= window.low[k] || low[axes[k]] >= window.high[k])
    })
}

/// Wood of a window; `None` where its board or a wall cuts it.
fn opening(inside: &Inside, board: &Board, window: &Window) -> Option<f64> {
    let [u, v] = along(board.across);
    let (mut low, mut high) = (board.low, board.high);
    (low[u], low[v]) = (window.low[0], window.low[1]);
    (high[u], high[v]) = (window.high[0], window.high[1]);
    let outline = Outline::Rectangle {
        width: high[u] - low[u],
        height: high[v] - low[v],
        corner: window.corner,
    };
    let thickness = high[board.across] - low[board.across];
    let whole = (high[u] - low[u]) * (high[v] - low[v]) * thickness;
    let within = (0..3).all(|axis| low[axis] >= board.low[axis] && high[axis] <= board.high[axis]);
    let kept = volume_in(inside, [low, high]);
    (within && (kept - whole).abs() <= 1e-12 * whole).then(|| outline.area() * thickness)
}

/// What blocks leave of a block within the walls, wood they share counted once.
fn free(inside: &Inside, whole: Span, taken: &[Span]) -> f64 {
    let notch = |(index, other): (usize, &Span)| {
        common(whole, *other).map_or(0.0, |shared| free(inside, shared, &taken[..index]))
    };
    volume_in(inside, whole) - taken.iter().enumerate().map(notch).sum::<f64>()
}

fn common(a: Span, b: Span) -> Option<Span> {
    let low = [0, 1, 2].map(|axis| a[0][axis].max(b[0][axis]));
    let high = [0, 1, 2].map(|axis| a[1][axis].min(b[1][axis]));
    (0..3)
        .all(|axis| high[axis] > low[axis])
        .then_some([low, high])
}

/// Volume of an upright block within the walls.
fn volume_in(inside: &Inside, [low, high]: Span) -> f64 {
    let width = high[0].min(inside.x[1]) - low[0].max(inside.x[0]);
    let z = [low[2].max(inside.z[0]), high[2].min(inside.z[1])];
    if width <= 0.0 || z[1] <= z[0] {
        return 0.0;
    }
    let line = |k: usize| [inside.foot[k], inside.slope[k]];
    let lines = [line(0), line(1), [low[1], 0.0], [high[1], 0.0]];
    let mut heights = vec![z[0], z[1]];
    for (k, a) in lines.iter().enumerate() {
        for b in &lines[k + 1..] {
            let at = (b[0] - a[0]) / (a[1] - b[1]);
            heights.extend((at > z[0] && at < z[1]).then_some(at));
        }
    }
    heights.sort_by(f64::total_cmp);
    let depth = |z: f64| {
        let at = |line: [f64; 2]| line[0] + line[1] * z;
        (at(lines[1]).min(at(lines[3])) - at(lines[0]).max(at(lines[2]))).max(0.0)
    };
    let slice = |pair: &[f64]| 0.5 * (pair[1] - pair[0]) * (depth(pair[0]) + depth(pair[1]));
    width * heights.windows(2).map(slice).sum::<f64>()
}
