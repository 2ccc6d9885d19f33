//! Orders with few crossings, judged by order alone: heights come later.

use super::frame::Frame;
use super::state::State;

/// Channels counted at most, and times the best order is shaken.
const COUNTED: usize = 16_000;
const SHAKEN: usize = 60;
/// Moves of a shake.
const MOVES: usize = 3;

/// What can change places: two neighbours or more in a column, two ports of a side.
#[derive(Clone, Copy)]
enum Move {
    Item {
        column: usize,
        from: usize,
        to: usize,
    },
    Ports {
        item: usize,
        side: usize,
        a: usize,
        b: usize,
    },
}

/// Which wire of its channel every port is the end of, on the left and on the right.
type Ends = Vec<[Vec<Option<usize>>; 2]>;

/// The same columns and ports in an order with fewer crossings where one is found:
/// moves that help until none does, then again from a shaken order.
pub(super) fn untangled(frame: &Frame, state: &State) -> State {
    let mut search = Search::new(frame, state);
    search.descend();
    let mut best = (search.sum(), search.order.clone(), search.crossed.clone());
    let mut dice = Dice(20_251);
    for _ in 0..SHAKEN {
        if best.0 == 0 || search.counted >= COUNTED || search.moves.is_empty() {
            break;
        }
        for _ in 0..MOVES {
            let step = search.moves[dice.roll(search.moves.len())];
            search.make(step);
        }
        search.descend();
        let sum = search.sum();
        if sum <= best.0 {
            best = (sum, search.order.clone(), search.crossed.clone());
        } else {
            (search.order, search.crossed) = (best.1.clone(), best.2.clone());
        }
    }
    let mut out = state.clone();
    (out.columns, out.ports) = best.1;
    for item in 0..frame.items.len() {
        out.spread_ports(frame, item);
    }
    out
}

/// Items of each column, and ports of each item on either side, from the top down.
type Sequence = (Vec<Vec<usize>>, Vec<[Vec<usize>; 2]>);

struct Search<'a> {
    frame: &'a Frame<'a>,
    ends: Ends,
    order: Sequence,
    /// Crossings of every channel.
    crossed: Vec<usize>,
    moves: Vec<Move>,
    counted: usize,
}

impl<'a> Search<'a> {
    fn new(frame: &'a Frame<'a>, state: &State) -> Self {
        let mut search = Self {
            frame,
            ends: ends(frame),
            order: (state.columns.clone(), state.ports.clone()),
            crossed: vec![0; frame.channels.len()],
            moves: moves(frame),
            counted: 0,
        };
        for channel in 0..frame.channels.len() {
            search.crossed[channel] = search.count(channel);
        }
        search
    }

    fn sum(&self) -> usize {
        self.crossed.iter().sum()
    }

    /// Makes moves that help until none does.
    fn descend(&mut self) {
        loop {
            let before = self.sum();
            for i in 0..self.moves.len() {
                let sum = self.sum();
                if sum == 0 || self.counted >= COUNTED {
                    return;
                }
                let kept = self.crossed.clone();
                self.make(self.moves[i]);
                if self.sum() >= sum {
                    self.undo(self.moves[i]);
                    self.crossed = kept;
                }
            }
            if self.sum() == before {
                return;
            }
        }
    }

    fn make(&mut self, step: Move) {
        let column = match step {
            Move::Item { column, from, to } => {
                let items = &mut self.order.0[column];
                let item = items.remove(from);
                items.insert(to, item);
                column
            }
            Move::Ports { item, side, a, b } => {
                self.order.1[item][side].swap(a, b);
                self.frame.items[item].layer
            }
        };
        let channels = match step {
            Move::Item { .. } => column..column + 2,
            Move::Ports { side, .. } => column + side..column + side + 1,
        };
        for channel in channels {
            self.crossed[channel] = self.count(channel);
        }
    }

    /// Takes a move back; the counts are for the caller to put back.
    fn undo(&mut self, step: Move) {
        match step {
            Move::Item { column, from, to } => {
                let items = &mut self.order.0[column];
                let item = items.remove(to);
                items.insert(from, item);
            }
            Move::Ports { item, side, a, b } => self.order.1[item][side].swap(a, b),
        }
    }

    /// Crossings of a channel that no heights can avoid. Round the channel, down its
    /// left side and up its right, the ends of two nets change `2 k` times from one to
    /// the other: they cross `k − 1` times.
    fn count(&mut self, channel: usize) -> usize {
        self.counted += 1;
        let mut places: Vec<Vec<usize>> = vec![Vec::new(); self.frame.channels[channel].len()];
        let mut place = 0;
        let sides = [(channel.checked_sub(1), 1), (Some(channel), 0)];
        for (column, side) in sides {
            let Some(items) = column.and_then(|c| self.order.0.get(c)) else {
                continue;
            };
            let ports = items
                .iter()
                .flat_map(|i| self.order.1[*i][side].iter().map(move |p| (*i, *p)));
            let wires = ports.filter_map(|(item, port)| self.ends[item][side][port]);
            let mut wires: Vec<usize> = wires.collect();
            if side == 0 {
                wires.reverse();
            }
            for wire in wires {
                places[wire].push(place);
                place += 1;
            }
        }
        let mut sum = 0;
        for (i, a) in places.iter().enumerate() {
            sum += places[..i].iter().map(|b| crossings(a, b)).sum::<usize>();
        }
        sum
    }
}

/// Crossings of two nets by the places of their ends round a channel.
fn crossings(a: &[usize], b: &[usize]) -> usize {
    let (mut i, mut j, mut changes) = (0, 0, 0);
    let mut last = None;
    while i < a.len() || j < b.len() {
        let first = j == b.len() || (i < a.len() && a[i] < b[j]);
        if first {
            i += 1;
        } else {
            j += 1;
        }
        changes += usize::from(last.is_some_and(|l| l != first));
        last = Some(first);
    }
    // Closing the round makes the number of changes even.
    changes.div_ceil(2).saturating_sub(1)
}

fn ends(frame: &Frame) -> Ends {
    let count = |item: &super::frame::Item, side: usize| {
        item.ports[side].iter().max().map_or(0, |most| most + 1)
    };
    let mut out: Ends = (frame.items.iter())
        .map(|item| [vec![None; count(item, 0)], vec![None; count(item, 1)]])
        .collect();
    for wires in &frame.channels {
        for (place, wire) in wires.iter().enumerate() {
            for (side, ends) in wire.ends.iter().enumerate() {
                for end in ends {
                    // What lies left of a channel ends there with its right side.
                    out[end.item][1 - side][end.port] = Some(place);
                }
            }
        }
    }
    out
}

fn moves(frame: &Frame) -> Vec<Move> {
    let mut out = Vec::new();
    for (item, own) in frame.items.iter().enumerate().filter(|(_, i)| i.free) {
        for side in [0, 1] {
            for a in 0..own.ports[side].len() {
                out.extend((0..a).map(|b| Move::Ports { item, side, a, b }));
            }
        }
    }
    for (column, items) in frame.columns.iter().enumerate() {
        for from in 0..items.len() {
            let others = (0..items.len()).filter(|to| *to != from);
            out.extend(others.map(|to| Move::Item { column, from, to }));
        }
    }
    out
}

/// Numbers of a fixed sequence (Lehmer's multiplicative generator, modulus 2³¹ − 1).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        (self.0 / 7 % sides as u64) as usize
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_in_turn_cross() {
        // a b | b a: side by side; a b | a b going round: one crossing.
        assert_eq!(crossings(&[0, 3], &[1, 2]), 0);
        assert_eq!(crossings(&[0, 2], &[1, 3]), 1);
        assert_eq!(crossings(&[0, 2, 4], &[1, 3, 5]), 2);
        assert_eq!(crossings(&[0, 1], &[2, 3]), 0);
        assert_eq!(crossings(&[0], &[1, 2]), 0);
    }
}
