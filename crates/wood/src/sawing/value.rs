//! The most that one sheet can give.

use super::fronts::{Fronts, Sets};
use super::job::Job;
use super::{Blank, SawLimits, Stock};

/// The most that blanks cut from one sheet can be worth together, exactly: what
/// each is worth, in any unit. Every set of blanks whose area fits is looked at,
/// so this is for few kinds or small numbers.
#[must_use]
pub fn best_value(blanks: &[Blank], worth: &[f64], sheet: &Stock, saw: &SawLimits) -> f64 {
    let one = Stock {
        count: Some(1),
        ..sheet.clone()
    };
    let job = Job::new(blanks, &[one], saw);
    let Some(bin) = job.bins.first() else {
        return 0.0;
    };
    let kinds = job.kinds.iter().enumerate();
    let pieces: Vec<(usize, usize)> = kinds
        .map(|(kind, alike)| (kind, alike.copies.len()))
        .collect();
    // Of blanks that are alike, those worth most come first.
    let values: Vec<Vec<f64>> = job
        .kinds
        .iter()
        .map(|alike| {
            let sum = |copy: &Vec<usize>| copy.iter().map(|&blank| worth[blank]).sum();
            let mut values: Vec<f64> = alike.copies.iter().map(sum).collect();
            values.sort_by(|one, other| other.total_cmp(one));
            values
        })
        .collect();
    let held = |sets: &Sets, set: usize, kind: usize| sets.count(set, kind);
    let fronts = Fronts::new(&job, &pieces, &[bin.room], |sets, set| {
        let areas = job.kinds.iter().enumerate();
        let area = areas.map(|(kind, alike)| alike.shape.area() * held(sets, set, kind) as i64);
        area.sum::<i64>() <= bin.room.area()
    });
    let total = |set: usize| -> f64 {
        let kinds = values.iter().enumerate();
        kinds
            .map(|(kind, values)| values[..held(&fronts.sets, set, kind)].iter().sum::<f64>())
            .sum()
    };
    (0..fronts.sets.size())
        .filter(|&set| fronts.fits(set, bin.room))
        .map(total)
        .fold(0.0, f64::max)
}
