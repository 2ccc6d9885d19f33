//! A bounded search for jobs too large to look at everything: pieces are packed
//! by rules in many orders, then the best order is changed at random and kept
//! where it is no worse. Counted in rounds, with a fixed seed.

use super::blocks::Blocks;
use super::bounds;
use super::construct::{Item, Packer, Score, Style};
use super::fill::fill;
use super::found::Found;
use super::job::{Job, Shape};
use std::cell::{Cell, OnceCell};
use std::cmp::Reverse;

/// What a search is after.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Aim {
    /// To place everything.
    Place,
    /// To place everything, and to leave a rest as large as this, in µm².
    Rest(i64),
}

impl Aim {
    fn met(self, score: Score, everything: i64) -> bool {
        let enough = match self {
            Self::Place => 0,
            Self::Rest(area) => area,
        };
        score.placed == everything && score.rest >= enough
    }
}

/// Choices of bins that are tried after the first that does.
const PLANS: usize = 24;

/// Rounds without gain after which the search goes back to the best.
const STALL: usize = 400;

/// Choices of bins that are filled with blocks.
const FILLS: usize = 6;

/// Rounds of packing what is left into the last bin.
const LAST_ROUNDS: usize = 300;

/// A job, and how much may be tried.
struct Search<'a> {
    job: &'a Job,
    rounds: usize,
    /// Blocks kept of each number of pieces.
    keep: usize,
    /// Made when first needed; none where there are too many pieces.
    blocks: OnceCell<Option<Blocks>>,
    /// How often bins were filled with them.
    fills: Cell<usize>,
}

/// The best layout found in about so many rounds, and with so many blocks of each
/// number of pieces.
pub(super) fn search(job: &Job, fewest: usize, rounds: usize, keep: usize) -> Found {
    let search = Search {
        job,
        rounds,
        keep,
        blocks: OnceCell::new(),
        fills: Cell::new(0),
    };
    let everything = job.wanted_area();
    let mut best = Found::default();
    let most = job
        .bins
        .iter()
        .filter(|bin| bin.bought)
        .map(|bin| bin.count);
    let most = most.max().unwrap_or(0).max(fewest);
    for bought in fewest..=most {
        let bins = all_on_hand_and(job, bought);
        let (placed, found) = search.place(&bins, rounds);
        if placed > best.placed(job) {
            best = found;
        }
        if placed == everything {
            return with_larger_rest(job, &search.with_less_area(best), rounds);
        }
    }
    best
}

impl Search<'_> {
    /// As much area as can be found to fit into these bins, and how.
    fn place(&self, bins: &[usize], rounds: usize) -> (i64, Found) {
        let job = self.job;
        let (score, found) = climb(job, &everything(job), bins, rounds, Aim::Place);
        let wanted = job.wanted_area();
        if score.placed < wanted
            && let Some(filled) = self.filled(bins)
        {
            return (wanted, filled);
        }
        (score.placed, found)
    }

    /// Everything in these bins, filled one after another.
    fn filled(&self, bins: &[usize]) -> Option<Found> {
        let rooms = bins.iter().map(|&bin| self.job.bins[bin].room.area());
        let enough = rooms.sum::<i64>() >= self.job.wanted_area();
        if self.keep == 0 || self.fills.get() >= FILLS || bins.len() < 2 || !enough {
            return None;
        }
        self.fills.set(self.fills.get() + 1);
        let blocks = self.blocks.get_or_init(|| Blocks::new(self.job, self.keep));
        fill(self.job, blocks.as_ref()?, bins, |counts, last| {
            let (score, found) = climb(self.job, counts, &[last], LAST_ROUNDS, Aim::Place);
            (score.placed == wanted_area(self.job, counts)).then_some(found)
        })
    }

    /// The same on bins of less area, where that is found.
    fn with_less_area(&self, found: Found) -> Found {
        let (bought, area) = (found.bought(self.job), found.area(self.job));
        let mut plans = plans(self.job, bought);
        plans.retain(|&(sum, _)| sum < area);
        plans.truncate(PLANS);
        let share = self.rounds / plans.len().max(4);
        for (_, bins) in plans {
            let (placed, better) = self.place(&bins, share);
            if placed == self.job.wanted_area() {
                return better;
            }
        }
        found
    }
}

/// How many pieces of each kind the job has.
fn everything(job: &Job) -> Vec<usize> {
    job.kinds.iter().map(|kind| kind.copies.len()).collect()
}

/// Area of so many pieces of each kind, in µm².
fn wanted_area(job: &Job, counts: &[usize]) -> i64 {
    let areas = job.kinds.iter().zip(counts);
    areas
        .map(|(kind, &count)| kind.shape.area() * count as i64)
        .sum()
}

/// All offcuts, and the largest so many of the sheets that can be bought.
fn all_on_hand_and(job: &Job, bought: usize) -> Vec<usize> {
    let mut whole: Vec<usize> = instances(job, |bin| bin.bought, bought);
    whole.sort_by_key(|&bin| Reverse(job.bins[bin].room.area()));
    whole.truncate(bought);
    let mut bins = instances(job, |bin| !bin.bought, usize::MAX);
    bins.sort_by_key(|&bin| job.bins[bin].room.area());
    bins.extend(whole);
    bins
}

/// One entry for each bin of some kinds, at most so many of each.
pub(super) fn instances(
    job: &Job,
    wanted: impl Fn(&super::job::Bin) -> bool,
    most: usize,
) -> Vec<usize> {
    let bins = job.bins.iter().enumerate().filter(|(_, bin)| wanted(bin));
    bins.flat_map(|(index, bin)| std::iter::repeat_n(index, bin.count.min(most)))
        .collect()
}

/// Choices of bins with room enough and so many bought, least area first; none where they are too
/// many to look at.
pub(super) fn plans(job: &Job, bought: usize) -> Vec<(i64, Vec<usize>)> {
    let mut plans = vec![(0, 0, 0, Vec::new())];
    for (index, bin) in job.bins.iter().enumerate() {
        let mut more = Vec::new();
        for (area, room, whole, bins) in &plans {
            let most = if bin.bought {
                bought - whole
            } else {
                bin.count
            };
            for count in 0..=most.min(bin.count) {
                let times = count as i64;
                let mut bins: Vec<usize> = bins.clone();
                bins.extend(std::iter::repeat_n(index, count));
                more.push((
                    area + times * bin.area,
                    room + times * bin.room.area(),
                    whole + if bin.bought { count } else { 0 },
                    bins,
                ));
            }
        }
        if more.len() > bounds::COMBINATIONS {
            return Vec::new();
        }
        plans = more;
    }
    let wanted = job.wanted_area();
    let mut enough: Vec<(i64, Vec<usize>)> = plans
        .into_iter()
        .filter(|&(_, room, whole, _)| room >= wanted && whole == bought)
        .map(|(area, _, _, bins)| (area, bins))
        .collect();
    enough.sort();
    enough
}

/// The same bins with a larger rest, where that is found.
fn with_larger_rest(job: &Job, found: &Found, rounds: usize) -> Found {
    let mut bins: Vec<usize> = found.patterns.iter().map(|pattern| pattern.bin).collect();
    bins.sort_by_key(|&bin| job.bins[bin].room.area());
    let bound = bounds::largest_rest(job, &bins);
    let (score, better) = climb(job, &everything(job), &bins, rounds, Aim::Rest(bound));
    if score.placed == job.wanted_area() {
        better
    } else {
        found.clone()
    }
}

/// One order of the pieces, and the rules they are packed by.
#[derive(Clone)]
struct Order {
    items: Vec<Item>,
    style: Style,
}

/// Packs so many pieces of each kind into these bins as well as can be found.
fn climb(job: &Job, counts: &[usize], bins: &[usize], rounds: usize, aim: Aim) -> (Score, Found) {
    let mut packer = Packer::new(job, bins);
    let everything = wanted_area(job, counts);
    let styles: Vec<Style> = Style::all().collect();
    let (mut best, mut best_order) = (Score::default(), None);
    for items in orders(job, counts) {
        for &style in &styles {
            let score = packer.pack(&items, style);
            if best_order.is_none() || score > best {
                let items = items.clone();
                (best, best_order) = (score, Some(Order { items, style }));
            }
        }
    }
    let Some(mut best_order) = best_order else {
        return (Score::default(), Found::default());
    };
    let (mut score, mut order) = (best, best_order.clone());
    let (mut draw, mut stalled) = (Draw(1), 0);
    for _ in 0..rounds {
        if aim.met(best, everything) {
            break;
        }
        if stalled > STALL {
            (score, order, stalled) = (best, best_order.clone(), 0);
            order.style = styles[draw.below(styles.len())];
            score.rest = 0;
            score.free = 0;
        }
        let mut other = order.clone();
        change(&mut other, &styles, &mut draw);
        let other_score = packer.pack(&other.items, other.style);
        stalled += 1;
        if worth(other_score) >= worth(score) {
            if worth(other_score) > worth(score) {
                stalled = 0;
            }
            (score, order) = (other_score, other);
        }
        if score > best {
            (best, best_order) = (score, order.clone());
        }
    }
    packer.pack(&best_order.items, best_order.style);
    (best, packer.found())
}

/// What the search climbs: area placed, then rests and what may become one.
fn worth(score: Score) -> (i64, i64) {
    (score.placed, score.rest + score.free)
}

/// The pieces from the largest down, by several measures of size.
fn orders(job: &Job, counts: &[usize]) -> Vec<Vec<Item>> {
    let sizes: [fn(Shape) -> i64; 5] = [
        Shape::area,
        |shape| i64::from(shape.length.max(shape.width)),
        |shape| i64::from(shape.length.min(shape.width)),
        |shape| i64::from(shape.length),
        |shape| i64::from(shape.width),
    ];
    let items: Vec<Item> = counts
        .iter()
        .enumerate()
        .flat_map(|(kind, &count)| std::iter::repeat_n(Item { kind, turned: None }, count))
        .collect();
    let sorted = sizes.map(|size| {
        let mut items = items.clone();
        items.sort_by_key(|item| Reverse(size(job.kinds[item.kind].shape)));
        items
    });
    sorted.to_vec()
}

/// One small change of an order, or of the rules.
fn change(order: &mut Order, styles: &[Style], draw: &mut Draw) {
    let count = order.items.len();
    let (one, other) = (draw.below(count), draw.below(count));
    match draw.below(8) {
        0..=2 => order.items.swap(one, other),
        3..=5 => {
            let item = order.items.remove(one);
            order.items.insert(other, item);
        }
        6 => order.items[one].turned = [None, Some(false), Some(true)][draw.below(3)],
        _ => order.style = styles[draw.below(styles.len())],
    }
}

/// A counter-based generator (`steele-2014`).
struct Draw(u64);

impl Draw {
    fn below(&mut self, end: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        bits ^= bits >> 31;
        ((u128::from(bits) * end as u128) >> 64) as usize
    }
}
