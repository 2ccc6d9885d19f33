//! Tables of arms, sorted by conductance.

use super::Offer;
use crate::indicator::{Arm, Resistor};

/// One arm with what the search asks of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    pub(super) siemens: f64,
    /// Square of its tolerance.
    pub(super) tolerance_square: f64,
    pub(super) arm: Arm,
    pub(super) to_buy: u32,
    pub(super) count: u32,
}

/// Arms of as many resistors, sorted by rising conductance.
#[derive(Debug)]
pub(super) struct Shelf {
    pub(super) entries: Vec<Entry>,
    /// Resistors in each.
    pub(super) count: u32,
    /// Least square of a tolerance among them.
    pub(super) finest: f64,
    /// Fewest of its resistors that must be bought.
    pub(super) to_buy: u32,
}

impl Shelf {
    fn of(mut entries: Vec<Entry>, count: u32) -> Self {
        entries.sort_by(|a, b| a.siemens.total_cmp(&b.siemens));
        let squares = entries.iter().map(|entry| entry.tolerance_square);
        Self {
            finest: squares.fold(f64::INFINITY, f64::min),
            to_buy: entries.iter().map(|entry| entry.to_buy).min().unwrap_or(0),
            count,
            entries,
        }
    }

    /// Those between two conductances.
    pub(super) fn between(&self, low: f64, high: f64) -> &[Entry] {
        let from = self.entries.partition_point(|entry| entry.siemens < low);
        let to = self.entries.partition_point(|entry| entry.siemens <= high);
        &self.entries[from..to.max(from)]
    }
}

/// Every useful arm.
#[derive(Debug)]
pub(super) struct Arms {
    /// Of one resistor, and of two.
    pub(super) shelves: [Shelf; 2],
    /// Single resistors for the feedback, sorted by rising conductance.
    feedbacks: Vec<Offer<Resistor>>,
    /// Whether every feedback resistor must be bought.
    pub(super) buys_feedback: bool,
}

/// The lesser of two resistors must move the arm by this share of the other's
/// tolerance to be of use.
const USEFUL: f64 = 0.5;

impl Arms {
    pub(super) fn of(resistors: &[Offer<Resistor>]) -> Self {
        let single = resistors
            .iter()
            .map(|one| entry(Arm::One(one.part), [Some(one), None]))
            .collect();
        let mut double = Vec::new();
        for (i, a) in resistors.iter().enumerate() {
            for b in &resistors[i..] {
                for arm in [Arm::Series(a.part, b.part), Arm::Parallel(a.part, b.part)] {
                    if is_useful(&arm) {
                        double.push(entry(arm, [Some(a), Some(b)]));
                    }
                }
            }
        }
        let mut feedbacks = resistors.to_vec();
        feedbacks.sort_by(|a, b| a.part.siemens().total_cmp(&b.part.siemens()));
        Self {
            shelves: [Shelf::of(single, 1), Shelf::of(double, 2)],
            feedbacks,
            buys_feedback: resistors.iter().all(|offer| offer.to_buy),
        }
    }

    /// Resistors for the feedback whose conductances lie between two.
    pub(super) fn feedbacks(&self, low: f64, high: f64) -> &[Offer<Resistor>] {
        let all = &self.feedbacks;
        let from = all.partition_point(|offer| offer.part.siemens() < low);
        let to = all.partition_point(|offer| offer.part.siemens() <= high);
        &all[from..to.max(from)]
    }

    /// All of them.
    #[cfg(test)]
    pub(super) fn all(&self) -> impl Iterator<Item = &Entry> {
        self.shelves.iter().flat_map(|shelf| &shelf.entries)
    }
}

fn is_useful(arm: &Arm) -> bool {
    let (mut least, mut tolerance) = (f64::INFINITY, 0.0_f64);
    for (one, weight) in arm.resistors().zip(arm.weights()) {
        if weight < least {
            least = weight;
        }
        tolerance = tolerance.max(one.tolerance);
    }
    least >= USEFUL * tolerance
}

fn entry(arm: Arm, offers: [Option<&Offer<Resistor>>; 2]) -> Entry {
    let tolerance = arm.tolerance();
    let offers = || offers.iter().flatten();
    Entry {
        siemens: 1.0 / arm.ohms(),
        tolerance_square: tolerance * tolerance,
        arm,
        to_buy: offers().filter(|offer| offer.to_buy).count() as u32,
        count: offers().count() as u32,
    }
}
