//! The same design with one thing changed, studied anew: for checks that say
//! how far a wish would have to yield.

use super::Evidence;
use crate::outcome::{Bench, Outcome};
use crate::sound::Grid;
use crate::vary::Draw;
use design::{Design, Value};

/// The nominal outcome of the design with a change, but for its cost: its wood is not made
/// anew. `None` where the changed design cannot be studied.
pub(super) fn outcome_with(
    evidence: &Evidence<'_>,
    change: impl FnOnce(&mut Design),
) -> Option<Outcome> {
    let mut project = evidence.subject.project.clone();
    change(&mut project.design);
    let subject = evidence.subject.sounding(project).ok()?;
    let mut bench = Bench::new(&subject, Grid::coarse());
    Some(bench.study(subject.build(&Draw::Nominal)).outcome)
}

/// Halvings of a search: a thousandth of its range.
const ROUNDS: u32 = 10;

/// The number between `fails` and `holds` nearest to `fails` with which a
/// condition holds, where it holds at all at `holds`.
pub(super) fn least_that(fails: f64, holds: f64, condition: impl Fn(f64) -> bool) -> Option<f64> {
    if !condition(holds) {
        return None;
    }
    let (mut fails, mut holds) = (fails, holds);
    for _ in 0..ROUNDS {
        let middle = f64::midpoint(fails, holds);
        if condition(middle) {
            holds = middle;
        } else {
            fails = middle;
        }
    }
    Some(holds)
}

/// A value multiplied, its tolerance left alone.
pub(super) fn times(value: Value, by: f64) -> Value {
    Value {
        si: value.si * by,
        ..value
    }
}
