//! Setting the threshold of one finished indicator.

use super::{Arm, Indicator, Resistor};

/// A trimmer in series with a fixed resistor, in place of the arm below.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trim {
    /// The fixed resistor.
    pub fixed: Resistor,
    /// The trimmer's whole value in Ω.
    pub trimmer: f64,
}

/// Tolerance of a trimmer's whole value as a share: common practice, no source.
const TRIMMER_TOLERANCE: f64 = 0.2;

impl Indicator {
    /// The value of the arm below at which the lamp lights at `trip` V, in Ω,
    /// all else nominal.
    #[must_use]
    pub fn bottom_for(&self, trip: f64) -> f64 {
        let (top, back, _) = self.dark_conductances();
        let input = self.reference.at(trip, self.feed.ohms);
        input / (trip * top + (trip - self.high_loss()) * back - input * (top + back))
    }

    /// The value of the arm above at which the lamp lights at `trip` V, in Ω,
    /// all else nominal.
    #[must_use]
    pub fn top_for(&self, trip: f64) -> f64 {
        let (_, back, bottom) = self.dark_conductances();
        let input = self.reference.at(trip, self.feed.ohms);
        (trip - input) / (input * (back + bottom) - (trip - self.high_loss()) * back)
    }

    /// The fixed resistor and the smallest trimmer of those offered with which
    /// every example can be set to `trip` V: what all tolerances at their worst
    /// ask for, and a tenth more.
    #[must_use]
    pub fn trim(&self, trip: f64, fixed: &[Resistor], trimmers: &[f64]) -> Option<Trim> {
        let stack = self.falling_stack();
        // An example that lights too high by so much wants the arm for a trip
        // that much lower.
        let (over, under) = (stack.most / stack.nominal, stack.least / stack.nominal);
        let reach = |ratio: f64| self.bottom_for(trip * ratio);
        let (low, high) = (reach(over).min(reach(under)), reach(over).max(reach(under)));
        let (low, high) = (low / SPARE, high * SPARE);
        let fits = |fixed: &Resistor, trimmer: f64| {
            fixed.ohms * (1.0 + fixed.tolerance) <= low
                && fixed.ohms * (1.0 - fixed.tolerance) + trimmer * (1.0 - TRIMMER_TOLERANCE)
                    >= high
        };
        let mut pairs: Vec<Trim> = fixed
            .iter()
            .flat_map(|one| trimmers.iter().map(move |trimmer| (one, *trimmer)))
            .filter(|(one, trimmer)| fits(one, *trimmer))
            .map(|(one, trimmer)| Trim {
                fixed: *one,
                trimmer,
            })
            .collect();
        pairs.sort_by(|a, b| {
            let order = a.trimmer.total_cmp(&b.trimmer);
            order.then(b.fixed.ohms.total_cmp(&a.fixed.ohms))
        });
        pairs.first().copied()
    }
}

/// What a trimmer reaches beyond the worst case, as a ratio.
const SPARE: f64 = 1.1;

/// The resistor in Ω that, set in parallel with an arm, brings it from `ohms`
/// down to `wanted`; `None` where it is not too large.
#[must_use]
pub fn parallel_for(ohms: f64, wanted: f64) -> Option<f64> {
    (wanted < ohms).then(|| ohms * wanted / (ohms - wanted))
}

impl Indicator {
    /// With a trimmer set so that the lamp lights at `trip` V.
    #[must_use]
    pub fn trimmed(&self, trim: &Trim, trip: f64) -> Self {
        let rest = Resistor {
            ohms: (self.bottom_for(trip) - trim.fixed.ohms).clamp(0.0, trim.trimmer),
            tolerance: 0.0,
        };
        Self {
            bottom: Arm::Series(trim.fixed, rest),
            ..*self
        }
    }
}
