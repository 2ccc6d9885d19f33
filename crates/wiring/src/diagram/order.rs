//! The order of the items in their columns and of the ports on their sides.

use super::frame::Frame;
use super::place::{Look, finely, roughly, settle, stack};
use super::state::State;
use super::untangle::untangled;

/// Rounds of sorting from each start.
const ROUNDS: usize = 5;
/// Orders tried by exchange at most.
const TRIALS: usize = 2400;
/// Looks to both sides that give an order its heights.
const SETTLED: usize = 3;
/// Starts that are improved by exchange.
const KEPT: usize = 2;

/// The best order found, with its heights.
pub(super) fn best(frame: &Frame) -> State {
    let mut found: Vec<(i64, State)> = starts(frame)
        .into_iter()
        .map(|columns| sorted(frame, columns))
        .collect();
    found.sort_by_key(|(cost, _)| *cost);
    let clear: Vec<(i64, State)> = found
        .iter()
        .take(KEPT)
        .map(|f| clear(frame, &f.1))
        .collect();
    found.extend(clear);
    found.sort_by_key(|(cost, _)| *cost);
    found.truncate(KEPT);
    let budget = TRIALS / KEPT;
    let improved = found.into_iter().map(|(cost, state)| {
        let mut state = exchanged(frame, state, cost, budget);
        finely(frame, &mut state);
        (state.cost(frame), state)
    });
    let best = improved.min_by_key(|(cost, _)| *cost);
    best.map_or_else(|| State::new(frame, Vec::new()), |(_, state)| state)
}

/// The order with fewer crossings, at heights of its own.
fn clear(frame: &Frame, state: &State) -> (i64, State) {
    let mut state = untangled(frame, state);
    stack(frame, &mut state);
    for _ in 0..SETTLED {
        roughly(frame, &mut state);
    }
    (state.cost(frame), state)
}

/// Orders to begin with: as listed, the other way round, and passages first.
fn starts(frame: &Frame) -> Vec<Vec<Vec<usize>>> {
    let listed = frame.columns.clone();
    let turned = listed.iter().map(|c| c.iter().rev().copied().collect());
    let passages_first = listed.iter().map(|column| {
        let passage = |i: &&usize| frame.items[**i].block.is_none();
        let first = column.iter().filter(passage);
        let last = column.iter().filter(|i| !passage(i));
        first.chain(last).copied().collect()
    });
    vec![listed.clone(), turned.collect(), passages_first.collect()]
}

/// Sorts columns by the mean height of what they are joined to, to and fro; gives the
/// best of all rounds.
fn sorted(frame: &Frame, columns: Vec<Vec<usize>>) -> (i64, State) {
    let mut state = State::new(frame, columns);
    stack(frame, &mut state);
    let mut best: Option<(i64, State)> = None;
    for _ in 0..ROUNDS {
        for look in [Look::Left, Look::Right, Look::Both] {
            let count = state.columns.len();
            for i in 0..count {
                let column = if look == Look::Right {
                    count - 1 - i
                } else {
                    i
                };
                sort_column(frame, &mut state, column, look);
                settle(frame, &mut state, column, look);
            }
            let mut trial = state.clone();
            roughly(frame, &mut trial);
            let cost = trial.cost(frame);
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                best = Some((cost, trial));
            }
        }
    }
    best.unwrap_or_else(|| (state.cost(frame), state))
}

fn sort_column(frame: &Frame, state: &mut State, column: usize, look: Look) {
    for item in state.columns[column].clone() {
        sort_ports(frame, state, item);
    }
    let mut keyed: Vec<(i64, usize, usize)> = (state.columns[column].iter().enumerate())
        .map(|(place, item)| (mean(frame, state, *item, look), place, *item))
        .collect();
    keyed.sort_unstable();
    state.columns[column] = keyed.into_iter().map(|(_, _, item)| item).collect();
}

/// Sixteen times the mean level an item wishes for; where it stands if it wishes nothing.
fn mean(frame: &Frame, state: &State, item: usize, look: Look) -> i64 {
    let (mut sum, mut weight) = (0, 0);
    for (side, links) in frame.links[item].iter().enumerate() {
        if (look == Look::Left && side == 1) || (look == Look::Right && side == 0) {
            continue;
        }
        for link in links {
            sum += link.weight * (state.at(link.other) - state.below[item][link.own]);
            weight += link.weight;
        }
    }
    if weight == 0 {
        16 * state.level[item]
    } else {
        16 * sum / weight
    }
}

/// Sorts the ports of an item, where they may move, by what they are joined to.
fn sort_ports(frame: &Frame, state: &mut State, item: usize) {
    if !frame.items[item].free {
        return;
    }
    for side in [0, 1] {
        let mut keyed: Vec<(i64, usize)> = (state.ports[item][side].iter())
            .map(|port| {
                let own = frame.links[item][side].iter().filter(|l| l.own == *port);
                let heights: Vec<i64> = own.map(|l| state.at(l.other)).collect();
                let mean = match heights.len() as i64 {
                    0 => 16 * (state.level[item] + state.below[item][*port]),
                    n => 16 * heights.iter().sum::<i64>() / n,
                };
                (mean, *port)
            })
            .collect();
        keyed.sort_unstable();
        state.ports[item][side] = keyed.into_iter().map(|(_, port)| port).collect();
    }
    state.spread_ports(frame, item);
}

/// A change of order.
#[derive(Clone, Copy)]
enum Move {
    /// The item in a place of a column goes to another place.
    Item(usize, usize, usize),
    /// Two ports of a side change places.
    Ports(usize, usize, usize, usize),
}

/// Tries moves one by one and keeps those that help, until none does.
fn exchanged(frame: &Frame, state: State, cost: i64, budget: usize) -> State {
    let (mut state, mut least) = (state, cost);
    let mut trials = 0;
    let moves = moves(frame);
    loop {
        let before = least;
        for step in &moves {
            if trials == budget {
                return state;
            }
            trials += 1;
            let mut trial = state.clone();
            make(frame, &mut trial, *step);
            roughly(frame, &mut trial);
            let cost = trial.cost(frame);
            if cost < least {
                (state, least) = (trial, cost);
            }
        }
        if least == before {
            return state;
        }
    }
}

/// Every move, near ones first.
fn moves(frame: &Frame) -> Vec<Move> {
    let mut out = Vec::new();
    let longest = frame.columns.iter().map(Vec::len).max().unwrap_or(0);
    for (item, own) in frame.items.iter().enumerate().filter(|(_, i)| i.free) {
        for side in [0, 1] {
            for a in 0..own.ports[side].len() {
                out.extend((0..a).map(|b| Move::Ports(item, side, b, a)));
            }
        }
    }
    for far in 1..longest {
        for (column, items) in frame.columns.iter().enumerate() {
            for from in 0..items.len() {
                if from + far < items.len() {
                    out.push(Move::Item(column, from, from + far));
                }
                if far > 1 && from >= far {
                    out.push(Move::Item(column, from, from - far));
                }
            }
        }
    }
    out
}

fn make(frame: &Frame, state: &mut State, step: Move) {
    match step {
        Move::Item(column, from, to) => {
            let items = &mut state.columns[column];
            let item = items.remove(from);
            items.insert(to, item);
        }
        Move::Ports(item, side, a, b) => {
            state.ports[item][side].swap(a, b);
            state.spread_ports(frame, item);
        }
    }
}
