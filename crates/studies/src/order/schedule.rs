//! When what is done, by one pair of hands.
//!
//! Glue, finish and an hour's soak want no hands: other work goes on meanwhile. Of what may
//! begin, that comes first after which the longest chain of work and waiting still follows
//! (list scheduling, `graham-1969`).

use super::graph::{Graph, Time};
use std::collections::{BTreeMap, BTreeSet};

/// Hours at the bench in a day, in s: common practice, no source.
pub(crate) const DAY_AT_THE_BENCH: f64 = 6.0 * 3600.0;
/// When a day at the bench begins, in s from midnight: a choice of ours.
pub(crate) const MORNING: f64 = 9.0 * 3600.0;
/// From one day's beginning to the next, in s.
pub(crate) const DAY: f64 = 24.0 * 3600.0;

/// One step on the clock.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Slot {
    pub(crate) name: String,
    /// From the beginning of the first day in s, nights counted.
    pub(crate) begins: f64,
    /// When hands are free again.
    pub(crate) ends: f64,
    /// When what comes next may begin.
    pub(crate) ready: f64,
}

/// When hands are at work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Hours {
    /// At the bench in a day in s; without end where work goes on day and night.
    pub(crate) bench: f64,
}

impl Hours {
    /// Days as most makers have them.
    pub(crate) const USUAL: Self = Self {
        bench: DAY_AT_THE_BENCH,
    };

    /// The first moment from `at` on at which work of so many seconds can begin and end on the
    /// same day; longer work begins with a day.
    fn from(self, at: f64, hands: f64) -> f64 {
        if !self.bench.is_finite() {
            return at;
        }
        let day = (at / DAY).floor();
        let clock = at - day * DAY;
        if clock + hands.min(self.bench) <= self.bench + 1e-6 {
            at
        } else {
            (day + 1.0) * DAY
        }
    }
}

/// Puts the steps of a graph on the clock; empty where they wait for each other in a ring.
pub(crate) fn schedule(graph: &Graph, hours: Hours) -> Vec<Slot> {
    let Some(tails) = graph.tails() else {
        return Vec::new();
    };
    let mut open: Vec<&str> = graph.names().collect();
    let mut done: BTreeMap<&str, f64> = BTreeMap::new();
    let mut now = 0.0_f64;
    let mut slots: Vec<Slot> = Vec::with_capacity(open.len());
    while !open.is_empty() {
        // When each could begin at the earliest; those still waiting for undone work cannot.
        let earliest = |name: &str| -> Option<f64> {
            let mut at = now;
            for link in graph.links(name) {
                at = at.max(done.get(link.before.as_str())? + graph.wait(link));
            }
            Some(hours.from(at, graph.time(name).hands))
        };
        let candidates = open
            .iter()
            .enumerate()
            .filter_map(|(index, name)| earliest(name).map(|at| (index, at)));
        let tail = |index: usize| tails.get(open[index]).copied().unwrap_or(0.0);
        let Some((index, begins)) = candidates.min_by(|(a, at), (b, other)| {
            at.total_cmp(other)
                .then_with(|| tail(*b).total_cmp(&tail(*a)))
                .then_with(|| open[*a].cmp(open[*b]))
        }) else {
            break;
        };
        let name = open.remove(index);
        let slot = slot(name, begins, graph.time(name));
        now = slot.ends;
        done.insert(name, slot.ends);
        slots.push(slot);
    }
    slots
}

/// Puts steps on the clock in an order that is given, each as soon as it may begin.
pub(crate) fn timed<'a>(
    order: impl IntoIterator<Item = &'a str>,
    graph: &Graph,
    time: impl Fn(&str) -> Time,
    hours: Hours,
) -> Vec<Slot> {
    let mut done: BTreeMap<&str, f64> = BTreeMap::new();
    let mut now = 0.0_f64;
    let mut slots = Vec::new();
    for name in order {
        let own = time(name);
        let ready = graph
            .links(name)
            .iter()
            .filter_map(|link| Some(done.get(link.before.as_str())? + graph.wait(link)));
        let at = ready.fold(now, f64::max);
        let slot = slot(name, hours.from(at, own.hands), own);
        now = slot.ends;
        done.insert(name, slot.ends);
        slots.push(slot);
    }
    slots
}

fn slot(name: &str, begins: f64, time: Time) -> Slot {
    let ends = begins + time.hands;
    Slot {
        name: name.to_owned(),
        begins,
        ends,
        ready: ends + time.wait,
    }
}

/// When everything is ready, in s from the beginning.
pub(crate) fn finished(slots: &[Slot]) -> f64 {
    slots.iter().map(|slot| slot.ready).fold(0.0, f64::max)
}

/// Days on which somebody works.
pub(crate) fn days(slots: &[Slot]) -> u32 {
    let worked = slots.iter().filter(|slot| slot.ends > slot.begins);
    let days: BTreeSet<u32> = worked
        .map(|slot| (slot.begins / DAY).floor() as u32)
        .collect();
    u32::try_from(days.len()).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests;
