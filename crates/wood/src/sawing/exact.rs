//! The best layout of a small job, by looking at every set of its pieces.

use super::found::{Found, Pattern};
use super::fronts::{Fronts, Sets};
use super::job::{Job, Shape};
use super::rests::Rests;

/// Sheets to buy, then area of all used in µm².
type Cost = (usize, i64);

/// Pairs of a set and a part of it that may be looked at, over all steps.
pub(super) fn affordable(job: &Job, bins: &[usize], pairs: u64) -> bool {
    let counts: Vec<usize> = job.kinds.iter().map(|kind| kind.copies.len()).collect();
    // Fronts and rests take a few times as long for each pair as covering.
    let steps = 1 + bins.len() as u64 / 8;
    Sets::pairs(&counts).saturating_mul(steps) <= pairs
}

/// The best layout on some of these bins (kinds by index, one entry for each).
pub(super) fn solve(job: &Job, bins: &[usize]) -> Option<Found> {
    let pieces: Vec<(usize, usize)> = job
        .kinds
        .iter()
        .enumerate()
        .map(|(kind, alike)| (kind, alike.copies.len()))
        .collect();
    let rooms: Vec<Shape> = job.bins.iter().map(|bin| bin.room).collect();
    let largest = rooms.iter().map(|room| room.area()).max().unwrap_or(0);
    let fronts = Fronts::new(job, &pieces, &rooms, |sets, set| {
        let areas = job.kinds.iter().enumerate();
        let area = areas.map(|(kind, alike)| alike.shape.area() * sets.count(set, kind) as i64);
        area.sum::<i64>() <= largest
    });
    let covers = Covers::new(job, &fronts, bins);
    let all = covers.most()?;
    let cost = covers.cost(all)?;
    let mut best: Option<(i64, Found)> = None;
    let mut tried = Vec::new();
    for (place, &bin) in bins.iter().enumerate() {
        if tried.contains(&bin) {
            continue;
        }
        tried.push(bin);
        let mut others = bins.to_vec();
        others.remove(place);
        if let Some(better) = with_rest(job, &fronts, all, cost, bin, &others, &best) {
            best = Some(better);
        }
    }
    best.map(|(_, found)| found)
}

/// The layout with the largest rest on a bin of this kind, at this cost, if that
/// is larger than the best so far.
fn with_rest(
    job: &Job,
    fronts: &Fronts,
    all: usize,
    cost: Cost,
    bin: usize,
    others: &[usize],
    best: &Option<(i64, Found)>,
) -> Option<(i64, Found)> {
    let covers = Covers::new(job, fronts, others);
    let room = job.bins[bin].room;
    let rests = Rests::new(job, fronts, room);
    let (mut most, mut chosen) = (best.as_ref().map_or(-1, |(area, _)| *area), None);
    fronts.sets.parts(all, |set| {
        let fits = set > 0 && fronts.fits(set, room);
        if fits && covers.cost(all - set).map(|others| add(job, others, bin)) == Some(cost) {
            let area = rests.largest(set);
            if area > most {
                (most, chosen) = (area, Some(set));
            }
        }
    });
    let set = chosen?;
    let mut patterns = covers.patterns(job, fronts, all - set)?;
    let tree = rests.tree(set)?;
    patterns.push(Pattern { bin, tree });
    Some((most, Found { patterns }))
}

fn add(job: &Job, cost: Cost, bin: usize) -> Cost {
    let bin = &job.bins[bin];
    (cost.0 + usize::from(bin.bought), cost.1 + bin.area)
}

/// The cheapest way to cut every set from some of a list of bins.
struct Covers<'a> {
    job: &'a Job,
    fronts: &'a Fronts<'a>,
    bins: &'a [usize],
    costs: Vec<Option<Cost>>,
    /// What is cut from each bin when a set is cut from it and those before it.
    taken: Vec<Vec<u32>>,
}

impl<'a> Covers<'a> {
    fn new(job: &'a Job, fronts: &'a Fronts<'a>, bins: &'a [usize]) -> Self {
        let size = fronts.sets.size();
        let mut covers = Self {
            job,
            fronts,
            bins,
            costs: vec![None; size],
            taken: Vec::with_capacity(bins.len()),
        };
        covers.costs[0] = Some((0, 0));
        let mut fits = Vec::new();
        for (place, &bin) in bins.iter().enumerate() {
            if place == 0 || bins[place - 1] != bin {
                let room = job.bins[bin].room;
                fits = (0..size).map(|set| fronts.fits(set, room)).collect();
            }
            covers.use_bin(bin, &fits);
        }
        covers
    }

    fn use_bin(&mut self, bin: usize, fits: &[bool]) {
        let before = self.costs.clone();
        let mut taken = vec![0; before.len()];
        for set in 1..before.len() {
            let mut best = before[set];
            self.fronts.sets.parts(set, |part| {
                if part > 0
                    && fits[part]
                    && let Some(cost) = before[set - part]
                {
                    let cost = add(self.job, cost, bin);
                    if best.is_none_or(|best| cost < best) {
                        best = Some(cost);
                        taken[set] = part as u32;
                    }
                }
            });
            self.costs[set] = best;
        }
        self.taken.push(taken);
    }

    fn cost(&self, set: usize) -> Option<Cost> {
        self.costs[set]
    }

    /// The set of most area that can be cut at all, the cheapest of these.
    fn most(&self) -> Option<usize> {
        if self.costs[self.fronts.sets.full()].is_some() {
            return Some(self.fronts.sets.full());
        }
        let area = |set: usize| -> i64 {
            let kinds = self.job.kinds.iter().enumerate();
            kinds
                .map(|(kind, alike)| alike.shape.area() * self.fronts.sets.count(set, kind) as i64)
                .sum()
        };
        (1..self.costs.len())
            .filter_map(|set| Some((-area(set), self.costs[set]?, set)))
            .min()
            .map(|(_, _, set)| set)
    }

    fn patterns(&self, job: &Job, fronts: &Fronts, set: usize) -> Option<Vec<Pattern>> {
        let mut patterns = Vec::new();
        let mut set = set;
        for (place, &bin) in self.bins.iter().enumerate().rev() {
            let part = self.taken[place][set] as usize;
            if part > 0 {
                let tree = fronts.tree(part, job.bins[bin].room)?;
                patterns.push(Pattern { bin, tree });
                set -= part;
            }
        }
        Some(patterns)
    }
}
