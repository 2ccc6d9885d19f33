//! Thousands of drawn builds, and what they say together.

use crate::outcome::{Bench, Outcome, Traces};
use crate::subject::Subject;
use crate::vary::draw;
use rayon::prelude::*;
use serde::Serialize;

/// Lower and upper share of builds that a band leaves out.
const TAILS: (f64, f64) = (0.1, 0.9);

/// The tenth and ninetieth percentile of a number over the drawn builds.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Band {
    /// One build in ten is below.
    pub p10: f64,
    /// One build in ten is above.
    pub p90: f64,
}

impl Band {
    /// The band of some numbers, NaNs left out; `None` where nothing is left.
    ///
    /// Quantiles by linear interpolation between order statistics
    /// (`hyndman-1996`, definition 7).
    #[must_use]
    pub fn of(values: impl Iterator<Item = f64>) -> Option<Self> {
        let mut sorted: Vec<f64> = values.filter(|value| !value.is_nan()).collect();
        if sorted.is_empty() {
            return None;
        }
        sorted.sort_unstable_by(f64::total_cmp);
        Some(Self {
            p10: quantile(&sorted, TAILS.0),
            p90: quantile(&sorted, TAILS.1),
        })
    }
}

/// A quantile of sorted numbers (`hyndman-1996`, definition 7).
fn quantile(sorted: &[f64], share: f64) -> f64 {
    let position = share * (sorted.len() - 1) as f64;
    let (below, above) = (position.floor() as usize, position.ceil() as usize);
    let part = position - position.floor();
    if part == 0.0 {
        return sorted[below];
    }
    sorted[below] + part * (sorted[above] - sorted[below])
}

/// All drawn builds, studied on the coarse grid.
#[derive(Clone, Debug)]
pub(crate) struct Drawn {
    pub(crate) outcomes: Vec<Outcome>,
    traces: Vec<Traces>,
    points: usize,
}

/// Builds between two reports of progress.
const CHUNK: usize = 50;

impl Drawn {
    /// No drawn builds: the nominal one alone is studied.
    pub(crate) const fn none() -> Self {
        Self {
            outcomes: Vec::new(),
            traces: Vec::new(),
            points: 0,
        }
    }

    /// Studies so many drawn builds; `progress` hears how many are done.
    ///
    /// The same builds give the same numbers on any number of threads: each
    /// depends on its own index alone, and they are gathered in order.
    pub(crate) fn run(
        subject: &Subject,
        bench: &Bench<'_>,
        builds: usize,
        progress: &(dyn Fn(usize) + Sync),
    ) -> Self {
        let dimensions = subject.causes.list().len();
        let one = |bench: &mut Bench<'_>, index: usize| {
            let index_u32 = u32::try_from(index).unwrap_or(u32::MAX);
            let studied = bench.study(subject.build(&draw(index_u32, dimensions)));
            if index % CHUNK == CHUNK - 1 {
                progress(CHUNK);
            }
            (studied.outcome, bench.traces(&studied))
        };
        let (outcomes, traces) = (0..builds)
            .into_par_iter()
            .with_min_len(CHUNK)
            .map_init(|| bench.clone(), one)
            .unzip();
        Self {
            outcomes,
            traces,
            points: bench.scene.grid.hertz.len(),
        }
    }

    /// Works out anew what each build costs, for a subject with the same causes in the same
    /// order, and more after them for more to be bought.
    pub(crate) fn priced(&mut self, subject: &Subject) {
        let dimensions = subject.causes.list().len();
        let each = self.outcomes.par_iter_mut().enumerate();
        each.for_each(|(index, outcome)| {
            let index = u32::try_from(index).unwrap_or(u32::MAX);
            outcome.cost = subject.cost.at(&draw(index, dimensions));
        });
    }

    /// The curves of all drawn builds, on the coarse grid.
    pub(crate) fn traces(&self) -> &[Traces] {
        &self.traces
    }

    /// The band of one number.
    pub(crate) fn band(&self, number: impl Fn(&Outcome) -> f64) -> Option<Band> {
        Band::of(self.outcomes.iter().map(number))
    }

    /// The share of builds for which something is true.
    pub(crate) fn share(&self, holds: impl Fn(&Outcome) -> bool) -> Option<f64> {
        if self.outcomes.is_empty() {
            return None;
        }
        let count = self
            .outcomes
            .iter()
            .filter(|outcome| holds(outcome))
            .count();
        Some(count as f64 / self.outcomes.len() as f64)
    }

    /// The band of one curve at every point of the coarse grid.
    pub(crate) fn curve_band(&self, curve: impl Fn(&Traces) -> &[f64] + Sync) -> Vec<Band> {
        if self.traces.is_empty() {
            return Vec::new();
        }
        (0..self.points)
            .into_par_iter()
            .map(|i| {
                let values = self.traces.iter().map(|traces| curve(traces)[i]);
                Band::of(values).unwrap_or(Band {
                    p10: f64::NAN,
                    p90: f64::NAN,
                })
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_of_a_known_set() {
        // SciPy: numpy.quantile(range(11), [0.1, 0.9]) = 1, 9 and of range(4) = 0.3, 2.7.
        let band = Band::of((0..11).map(f64::from)).unwrap();
        assert_eq!((band.p10, band.p90), (1.0, 9.0));
        let band = Band::of((0..4).map(f64::from)).unwrap();
        assert!((band.p10 - 0.3).abs() < 1e-12 && (band.p90 - 2.7).abs() < 1e-12);
    }

    #[test]
    fn nothing_has_no_band() {
        assert!(Band::of([f64::NAN].into_iter()).is_none());
    }
}
