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

/// Every useful arm, sorted by rising conductance.
#[derive(Debug)]
pub(super) struct Arms {
    pub(super) single: Vec<Entry>,
    pub(super) double: Vec<Entry>,
    /// Least square of a tolerance among single arms.
    pub(super) finest_single: f64,
    /// The same among double ones.
    pub(super) finest_double: f64,
}

/// The lesser of two resistors must move the arm by this share of the other's
/// tolerance to be of use.
const USEFUL: f64 = 0.5;

impl Arms {
    pub(super) fn of(resistors: &[Offer<Resistor>]) -> Self {
        let mut single: Vec<Entry> = resistors
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
        for list in [&mut single, &mut double] {
            list.sort_by(|a, b| a.siemens.total_cmp(&b.siemens));
        }
        let finest = |list: &[Entry]| {
            list.iter()
                .map(|entry| entry.tolerance_square)
                .fold(f64::INFINITY, f64::min)
        };
        Self {
            finest_single: finest(&single),
            finest_double: finest(&double),
            single,
            double,
        }
    }

    /// Both tables, each with the finest square of a tolerance in it.
    pub(super) fn tables(&self) -> [(&[Entry], f64); 2] {
        [
            (&self.single, self.finest_single),
            (&self.double, self.finest_double),
        ]
    }
}

/// The entries of a table between two conductances.
pub(super) fn between(table: &[Entry], low: f64, high: f64) -> &[Entry] {
    let from = table.partition_point(|entry| entry.siemens < low);
    let to = table.partition_point(|entry| entry.siemens <= high);
    &table[from..to.max(from)]
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
