//! A bounded search for jobs too large to look at everything: pieces are packed
//! by rules in many orders, then the best order is changed at random and kept
//! where it is no worse. Counted in rounds, with a fixed seed.

use super::bounds;
use super::construct::{Item, Packer, Score, Style};
use super::found::Found;
use super::job::{Job, Shape};
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

/// The best layout found in about so many rounds.
pub(super) fn search(job: &Job, fewest: usize, rounds: usize) -> Found {
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
        let (score, found) = climb(job, &bins, rounds, Aim::Place);
        if score.placed > best.placed(job) {
            best = found;
        }
        if score.placed == everything {
            return with_larger_rest(job, &with_less_area(job, best, rounds), rounds);
        }
    }
    best
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

/// The same on bins of less area, where that is found.
fn with_less_area(job: &Job, found: Found, rounds: usize) -> Found {
    let everything = job.wanted_area();
    let (bought, area) = (found.bought(job), found.area(job));
    let mut plans = plans(job, bought);
    plans.retain(|&(sum, _)| sum < area);
    plans.truncate(PLANS);
    let share = rounds / plans.len().max(4);
    for (_, bins) in plans {
        let (score, better) = climb(job, &bins, share, Aim::Place);
        if score.placed == everything {
            return better;
        }
    }
    found
}

/// Choices of bins with room enough and so many bought, least area first.
fn plans(job: &Job, bought: usize) -> Vec<(i64, Vec<usize>)> {
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
    let (score, better) = climb(job, &bins, rounds, Aim::Rest(bound));
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

/// Packs into these bins as well as can be found.
fn climb(job: &Job, bins: &[usize], rounds: usize, aim: Aim) -> (Score, Found) {
    let mut packer = Packer::new(job, bins);
    let everything = job.wanted_area();
    let styles: Vec<Style> = Style::all().collect();
    let (mut best, mut best_order) = (Score::default(), None);
    for items in orders(job) {
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
fn orders(job: &Job) -> Vec<Vec<Item>> {
    let sizes: [fn(Shape) -> i64; 5] = [
        Shape::area,
        |shape| i64::from(shape.length.max(shape.width)),
        |shape| i64::from(shape.length.min(shape.width)),
        |shape| i64::from(shape.length),
        |shape| i64::from(shape.width),
    ];
    let items: Vec<Item> = job
        .kinds
        .iter()
        .enumerate()
        .flat_map(|(kind, alike)| {
            let item = Item { kind, turned: None };
            std::iter::repeat_n(item, alike.copies.len())
        })
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
