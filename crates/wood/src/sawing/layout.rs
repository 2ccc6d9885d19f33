//! From blanks and stock to a layout.

use super::cuts;
use super::found::Found;
use super::fronts::{Fronts, Sets};
use super::job::Job;
use super::rests::Rests;
use super::search::{instances, plans, search};
use super::{Blank, Layout, SawLimits, Stock, bounds, exact};

/// How long a layout may be searched for; counted, not timed, so that the same
/// job has the same answer on every machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// Jobs are solved exactly if they have no more pairs of a set of blanks and
    /// a part of that set than this: 3ⁿ for n blanks, all different.
    pub pairs: u64,
    /// Rounds of each search otherwise.
    pub rounds: usize,
    /// Where those place not everything: blocks kept of each number of pieces, from
    /// which bins are filled one after another; 0 for not at all.
    pub blocks: usize,
}

impl Effort {
    /// For trying many designs: some milliseconds.
    pub const QUICK: Self = Self {
        pairs: 7_000,
        rounds: 400,
        blocks: 0,
    };
    /// For a design that is to be built: mostly some ten milliseconds, tenths of a
    /// second where stock that might do is short.
    pub const NORMAL: Self = Self {
        pairs: 60_000,
        rounds: 3_000,
        blocks: 1_000,
    };
    /// For a job that is worth waiting for: some seconds.
    pub const THOROUGH: Self = Self {
        pairs: 5_000_000,
        rounds: 100_000,
        blocks: 3_000,
    };
}

/// Lays blanks out on stock: what is on hand first, then sheets to be bought.
/// Lengths are taken to the nearest µm.
///
/// Every blank is sawn on all four sides as far as this needs no cut longer than
/// the saw's longest: a longer blank is left over. So are blanks narrower than
/// the narrowest strip, and those that fit on nothing. Where a whole sheet is
/// longer than the longest cut, it is trimmed piece by piece once it is crosscut.
#[must_use]
pub fn lay_out(blanks: &[Blank], stock: &[Stock], saw: &SawLimits, effort: Effort) -> Layout {
    let job = Job::new(blanks, stock, saw);
    let bound = bounds::fewest(&job);
    let quick = search(&job, bound, 0, 0);
    let complete = quick.placed(&job) == job.wanted_area();
    let most = if complete {
        quick.bought(&job)
    } else {
        usize::MAX
    };
    let mut bins = instances(&job, |bin| !bin.bought, usize::MAX);
    bins.extend(instances(&job, |bin| bin.bought, most));
    if exact::affordable(&job, &bins, effort.pairs)
        && let Some(found) = exact::solve(&job, &bins)
    {
        return layout(&job, &found, bound, !job.late);
    }
    let found = search(&job, bound, effort.rounds, effort.blocks);
    let found = with_exact_rests(&job, found, effort);
    layout(&job, &found, bound, false)
}

/// Divides each bin anew so that the largest rest of its pieces remains.
fn with_exact_rests(job: &Job, mut found: Found, effort: Effort) -> Found {
    for pattern in &mut found.patterns {
        let mut kinds = Vec::new();
        pattern.tree.kinds(&mut kinds);
        kinds.sort_unstable();
        let pieces: Vec<(usize, usize)> = kinds
            .chunk_by(|one, other| one == other)
            .map(|alike| (alike[0], alike.len()))
            .collect();
        let counts: Vec<usize> = pieces.iter().map(|&(_, count)| count).collect();
        if Sets::pairs(&counts) > effort.pairs {
            continue;
        }
        let room = job.bins[pattern.bin].room;
        let fronts = Fronts::new(job, &pieces, &[room], |_, _| true);
        let rests = Rests::new(job, &fronts, room);
        let all = fronts.sets.full();
        if rests.largest(all) > 0
            && let Some(tree) = rests.tree(all)
        {
            pattern.tree = tree;
        }
    }
    found
}

fn layout(job: &Job, found: &Found, bound: usize, exact: bool) -> Layout {
    let mut patterns = found.patterns.clone();
    patterns.sort_by_key(|pattern| (job.bins[pattern.bin].bought, pattern.bin));
    let mut waiting = cuts::waiting(job);
    let sheets: Vec<_> = patterns
        .iter()
        .map(|pattern| cuts::cut_up(job, pattern.bin, &pattern.tree, &mut waiting))
        .collect();
    let mut left_over = job.left_over.clone();
    left_over.extend(waiting.into_iter().flatten().flatten());
    left_over.sort_unstable();
    let (bought, area) = (found.bought(job), found.area(job));
    let fewest = if exact { bought } else { bound.min(bought) };
    let least_area = if exact {
        area
    } else {
        bounds::least_area(job, fewest, bought).min(area)
    };
    let rests = sheets.iter().filter_map(|sheet| sheet.offcuts.first());
    let largest = rests.map(|rest| rest[2] * rest[3]).fold(0.0, f64::max);
    let unlimited = job
        .bins
        .iter()
        .all(|bin| bin.room.length <= job.reach && bin.room.width <= job.reach);
    let offcut_bound = if exact && unlimited {
        largest
    } else {
        (largest_rest(job, bought, area) as f64 * 1e-12).max(largest)
    };
    Layout {
        sheets,
        left_over,
        broken_runs: job.broken_runs.clone(),
        bought,
        fewest,
        area: area as f64 * 1e-12,
        least_area: least_area as f64 * 1e-12,
        offcut_bound,
        proven: fewest == bought && least_area == area && offcut_bound - largest < 1e-9,
    }
}

/// Area in µm² that no usable rest exceeds when bins of this area in all, so many of them bought,
/// hold everything: several choices of offcuts may come to the same area.
fn largest_rest(job: &Job, bought: usize, area: i64) -> i64 {
    let alike = plans(job, bought).into_iter().filter(|plan| plan.0 == area);
    let bounds = alike.map(|(_, bins)| bounds::largest_rest(job, &bins));
    // Where the choices are too many to look at, no rest is larger than its bin.
    let rooms = || job.bins.iter().map(|bin| job.usable(bin.room)).max();
    bounds.max().or_else(rooms).unwrap_or(0)
}
