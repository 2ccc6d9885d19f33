//! An order of the columns with heights, and what it costs.

use super::frame::{Frame, Term, Wire, spread};

/// What weighs how much.
const CROSSING: i64 = 600;
const BEND: i64 = 8;
/// An order of the tracks of two nets in which they would share a stretch.
const SHARED: i64 = 300;

/// Items in order, ports in order, and the heights of both, half steps.
#[derive(Clone)]
pub(super) struct State {
    /// Items of each column from the top down.
    pub(super) columns: Vec<Vec<usize>>,
    /// Ports of each item from the top down, left and right.
    pub(super) ports: Vec<[Vec<usize>; 2]>,
    /// Level of every item.
    pub(super) level: Vec<i64>,
    /// Ports below the level of their item.
    pub(super) below: Vec<Vec<i64>>,
}

impl State {
    pub(super) fn new(frame: &Frame, columns: Vec<Vec<usize>>) -> Self {
        let below = frame.items.iter().map(|item| {
            let most = item.ports.iter().flatten().max();
            vec![item.middle; most.map_or(0, |p| p + 1)]
        });
        let mut state = Self {
            columns,
            ports: frame.items.iter().map(|i| i.ports.clone()).collect(),
            level: vec![0; frame.items.len()],
            below: below.collect(),
        };
        for item in 0..frame.items.len() {
            state.spread_ports(frame, item);
        }
        state
    }

    /// Puts the ports of an item where their order says.
    pub(super) fn spread_ports(&mut self, frame: &Frame, item: usize) {
        for ports in &self.ports[item] {
            for (place, port) in ports.iter().enumerate() {
                let from_middle = spread(place, ports.len());
                self.below[item][*port] = frame.items[item].middle + from_middle;
            }
        }
    }

    /// Height of an end.
    pub(super) fn at(&self, term: Term) -> i64 {
        self.level[term.item] + self.below[term.item][term.port]
    }

    /// Every wire of a channel with the heights of its ends.
    pub(super) fn spans(&self, wires: &[Wire]) -> Vec<Span> {
        wires.iter().map(|wire| Span::new(self, wire)).collect()
    }

    /// Crossings, bends and length together.
    pub(super) fn cost(&self, frame: &Frame) -> i64 {
        let channels = frame.channels.iter();
        channels.map(|wires| self.channel_cost(wires)).sum()
    }

    fn channel_cost(&self, wires: &[Wire]) -> i64 {
        let spans = self.spans(wires);
        let mut cost = 0;
        for (i, a) in spans.iter().enumerate() {
            cost += BEND * a.bends() + wires[i].pull.min(2) * (a.high - a.low) / 2;
            for b in &spans[..i] {
                cost += match (a.before(b), b.before(a)) {
                    (Some(x), Some(y)) => CROSSING * x.min(y),
                    (Some(x), None) | (None, Some(x)) => CROSSING * x + SHARED,
                    (None, None) => CROSSING * a.crossed(b).min(b.crossed(a)) + 2 * SHARED,
                };
            }
        }
        cost
    }
}

/// A net in a channel by the heights of its ends.
#[derive(Clone, Debug)]
pub(super) struct Span {
    pub(super) left: Vec<i64>,
    pub(super) right: Vec<i64>,
    pub(super) low: i64,
    pub(super) high: i64,
}

impl Span {
    fn new(state: &State, wire: &Wire) -> Self {
        let heights =
            |side: usize| -> Vec<i64> { wire.ends[side].iter().map(|t| state.at(*t)).collect() };
        let (left, right) = (heights(0), heights(1));
        let all = || left.iter().chain(&right);
        let (low, high) = (all().min().copied(), all().max().copied());
        Self {
            low: low.unwrap_or(0),
            high: high.unwrap_or(0),
            left,
            right,
        }
    }

    /// Whether it needs no track.
    pub(super) fn is_level(&self) -> bool {
        self.low == self.high && !self.left.is_empty() && !self.right.is_empty()
    }

    /// Crossings of the two where this one's track lies to the left; `None` where they
    /// would share a stretch.
    pub(super) fn before(&self, other: &Self) -> Option<i64> {
        let apart = self.high < other.low || other.high < self.low;
        let shared = !apart && self.right.iter().any(|y| other.left.contains(y));
        (!shared).then(|| self.crossed(other))
    }

    /// Crossings of the two where this one's track lies to the left and no stretch is shared.
    pub(super) fn crossed(&self, other: &Self) -> i64 {
        let within = |ys: &[i64], span: &Self| {
            let own = ys.iter().filter(|y| span.low < **y && **y < span.high);
            own.count() as i64
        };
        within(&self.right, other) + within(&other.left, self)
    }

    /// Ends of its track where a single line turns off.
    fn bends(&self) -> i64 {
        if self.is_level() {
            return 0;
        }
        let turns = |y: i64| {
            let ends = self.left.iter().chain(&self.right).filter(|e| **e == y);
            i64::from(ends.count() == 1)
        };
        turns(self.low) + turns(self.high)
    }
}
