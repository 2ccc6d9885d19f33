//! Screws of a wall that comes off again.

use super::super::plan::fastenings::PILOT;
use super::contact::contact;
use super::{LEAST, capital, named};
use crate::words;
use wood::{Board, BoardKind, Body, Edge, Joint, PanelId, Wall};

/// Thread of the screws of a wall, and the clearance hole they pass, in m: common practice,
/// no source.
const THREAD: (f64, f64) = (0.0035, 0.004);

/// Furthest between two screws, and from a corner to the first, in m: common practice, no
/// source.
const APART: f64 = 0.12;
const CORNER: f64 = 0.025;

/// How deep a screw bites, and wood that stays before its tip, in m: common practice, no
/// source.
const BITE: f64 = 0.02;
const TIP: f64 = 0.003;

/// What screws along one side of a wall bite into.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Row {
    /// The wall at that side.
    beside: Wall,
    /// Whether they go into a cleat; else into the edge of the wall beside.
    cleat: bool,
    /// How many.
    pub(super) count: usize,
    /// How deep the pilot hole is, in m.
    depth: f64,
}

/// Rows of screws of a wall, one along each side that has something to bite into.
pub(super) fn rows(body: &Body, last: Wall) -> Vec<Row> {
    last.neighbours()
        .into_iter()
        .filter_map(|beside| row(body, last, beside))
        .collect()
}

fn row(body: &Body, last: Wall, beside: Wall) -> Option<Row> {
    let [low, high] = body.room.bounds();
    let (across, thick) = (axis(last), axis(beside));
    let long = 3 - across - thick;
    let count = count(high[long] - low[long]);
    let touches = |board: usize, wall: Wall| {
        let panel = body.panel(PanelId::Board(board));
        panel.is_some_and(|panel| contact(body.wall(wall), panel) > LEAST)
    };
    let boards = body.plan.boards.iter().enumerate();
    let cleat = boards
        .filter(|(_, board)| board.kind == BoardKind::Cleat)
        .find(|(index, _)| touches(*index, last) && touches(*index, beside));
    if let Some((_, cleat)) = cleat {
        let deep = extent(cleat, across);
        return Some(Row {
            beside,
            cleat: true,
            count,
            depth: BITE.min(deep - TIP),
        });
    }
    let edge = Edge::between(last, beside)?;
    let ends_here = match body.plan.joints[edge.index()] {
        Joint::Butt { through } => through == last,
        Joint::Rebate { .. } | Joint::Mitre => false,
    };
    ends_here.then_some(Row {
        beside,
        cleat: false,
        count,
        depth: BITE,
    })
}

const fn axis(wall: Wall) -> usize {
    match wall {
        Wall::Left | Wall::Right => 0,
        Wall::Front | Wall::Back => 1,
        Wall::Top | Wall::Bottom => 2,
    }
}

fn extent(board: &Board, axis: usize) -> f64 {
    board.high[axis] - board.low[axis]
}

/// How many screws a side of so many m wants: two at least.
fn count(side: f64) -> usize {
    // A hair more than so many steps is so many.
    let between = ((side - 2.0 * CORNER) / APART - 1e-6).ceil().max(1.0);
    between as usize + 1
}

fn mm(length: f64) -> String {
    let text = format!("{:.1}", 1e3 * length);
    text.trim_end_matches(".0").to_owned()
}

/// What to drill and screw for a wall that comes off again.
pub(super) fn words_of_wall(body: &Body, last: Wall) -> String {
    let rows = rows(body, last);
    let (thread, clearance) = THREAD;
    let name = capital(words::wall(last));
    if rows.is_empty() {
        return format!(
            "{name}: it is to come off again, but no cleat lies behind it and it covers no edge: \
add cleats to screw it to"
        );
    }
    let total: usize = rows.iter().map(|row| row.count).sum();
    let mut said = vec![format!(
        "{name}: screw it on with {total} screws of {} mm, no more than {} mm apart and {} mm from \
the corners, clear of other holes; drill {} mm through it",
        mm(thread),
        mm(APART),
        mm(CORNER),
        mm(clearance)
    )];
    for (cleat, into) in [(true, "the cleats at"), (false, "the edges of")] {
        let own: Vec<&Row> = rows.iter().filter(|row| row.cleat == cleat).collect();
        let Some(depth) = own.iter().map(|row| row.depth).reduce(f64::min) else {
            continue;
        };
        let beside: Vec<Wall> = own.iter().map(|row| row.beside).collect();
        said.push(format!(
            "{} mm and {} mm deep into {into} {}",
            mm(PILOT * thread),
            mm(depth),
            named(&beside)
        ));
    }
    format!("{} (usual in the trade)", said.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn screws_stand_no_further_apart_than_is_usual() {
        for (side, wanted) in [(0.05, 2), (0.17, 2), (0.18, 3), (0.336, 4)] {
            assert_eq!(count(side), wanted, "{side}");
        }
    }
}
