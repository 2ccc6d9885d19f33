//! What no layout can beat: bounds by area and by dual feasible functions.

use super::job::{Job, Kind, Shape, Um};

/// Fewest bins to buy that could hold everything, proven.
///
/// Every measure of pieces that no bin can hold more of than its capacity gives
/// a bound. The first measure is area. The others are products of dual feasible
/// functions of length and width (`fekete-schepers-2004`), of which a bin no
/// larger than the largest holds at most 1; a piece that may be turned counts
/// with the lesser of both ways.
pub(super) fn fewest(job: &Job) -> usize {
    let whole = job.bins.iter().filter(|bin| bin.bought);
    let Some(room) = whole
        .clone()
        .map(|bin| bin.room)
        .max_by_key(|room| room.area())
    else {
        return 0;
    };
    let on_hand = || job.bins.iter().filter(|bin| !bin.bought);
    let stored: i64 = on_hand()
        .map(|bin| bin.room.area() * bin.count as i64)
        .sum();
    let missing = (job.wanted_area() - stored).max(0);
    let by_area = missing.div_euclid(room.area()) + i64::from(missing % room.area() > 0);
    let by_area = usize::try_from(by_area).unwrap_or(0);
    if job.bins.iter().any(|bin| !bin.room.fits(room)) {
        return by_area;
    }
    let stored: usize = on_hand().map(|bin| bin.count).sum();
    let weight = heaviest(&job.kinds, room);
    let by_weight = (weight - 1e-9).ceil().max(0.0) as usize;
    by_area.max(by_weight.saturating_sub(stored))
}

/// The largest total of a product of dual feasible functions.
fn heaviest(kinds: &[Kind], room: Shape) -> f64 {
    let (lengths, widths) = (functions(kinds, room.length), functions(kinds, room.width));
    let mut heaviest = 0.0f64;
    for along in &lengths {
        for across in &widths {
            let weights = kinds.iter().map(|kind| {
                let poses = kind.poses().filter(|(shape, _)| shape.fits(room));
                let weight = |shape: Shape| {
                    along.of(shape.length, room.length) * across.of(shape.width, room.width)
                };
                let least = poses.map(|(shape, _)| weight(shape)).reduce(f64::min);
                least.unwrap_or(0.0) * kind.copies.len() as f64
            });
            heaviest = heaviest.max(weights.sum());
        }
    }
    heaviest
}

/// A function f of sizes up to a whole: where sizes add up to no more than the
/// whole, their f add up to no more than 1.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Feasible {
    /// The share itself.
    Share,
    /// (k + 1) parts of the whole, k of which fill it (`fekete-schepers-2004`, u⁽ᵏ⁾).
    Parts(Um),
    /// Sizes below a limit count nothing, those that leave less than it count all (U⁽ᵋ⁾).
    Rounded(Um),
    /// Small ones of at least a limit count equally (φ⁽ᵋ⁾).
    Counted(Um),
}

impl Feasible {
    fn of(self, size: Um, whole: Um) -> f64 {
        let share = |part: Um, whole: Um| f64::from(part) / f64::from(whole);
        match self {
            Self::Share => share(size, whole),
            Self::Parts(parts) => {
                let times = (i64::from(parts) + 1) * i64::from(size);
                let whole_length = i64::from(whole);
                if times % whole_length == 0 {
                    share(size, whole)
                } else {
                    (times / whole_length) as f64 / f64::from(parts)
                }
            }
            Self::Rounded(limit) if whole - size < limit => 1.0,
            Self::Rounded(limit) if size < limit => 0.0,
            Self::Rounded(_) => share(size, whole),
            Self::Counted(limit) if size > whole - size => {
                1.0 - share((whole - size) / limit, whole / limit)
            }
            Self::Counted(limit) if size < limit => 0.0,
            Self::Counted(limit) => share(1, whole / limit),
        }
    }
}

/// The functions that can tell these pieces apart.
fn functions(kinds: &[Kind], whole: Um) -> Vec<Feasible> {
    let sides = |kind: &Kind| [kind.shape.length, kind.shape.width];
    let mut limits: Vec<Um> = kinds
        .iter()
        .flat_map(sides)
        .flat_map(|side| [side, whole - side + 1])
        .filter(|&limit| limit > 0 && limit <= whole / 2)
        .collect();
    limits.sort_unstable();
    limits.dedup();
    let by_limit = limits
        .iter()
        .flat_map(|&limit| [Feasible::Rounded(limit), Feasible::Counted(limit)]);
    [Feasible::Share]
        .into_iter()
        .chain((1..=4).map(Feasible::Parts))
        .chain(by_limit)
        .collect()
}

/// Least area of bins in µm² that could hold everything when this many are
/// bought, or as few as `fewest` of them, proven.
pub(super) fn least_area(job: &Job, fewest: usize, bought: usize) -> i64 {
    let wanted = job.wanted_area();
    let plans = (fewest..=bought).filter_map(|count| {
        let whole = job.bins.iter().filter(|bin| bin.bought && count > 0);
        let least = whole.clone().map(|bin| bin.area).min().unwrap_or(0);
        let most = whole.map(|bin| bin.room.area()).max().unwrap_or(0);
        let missing = wanted - count as i64 * most;
        Some(count as i64 * least + least_on_hand(job, missing)?)
    });
    plans.min().unwrap_or(0)
}

/// Combinations of offcuts that are looked at one by one.
pub(super) const COMBINATIONS: usize = 4096;

/// Least area of offcuts in µm² whose rooms add up to this area; `None` where
/// they do not.
fn least_on_hand(job: &Job, missing: i64) -> Option<i64> {
    if missing <= 0 {
        return Some(0);
    }
    let on_hand = || job.bins.iter().filter(|bin| !bin.bought);
    let ways: usize = on_hand().fold(1, |ways, bin| ways.saturating_mul(bin.count + 1));
    if ways > COMBINATIONS {
        let least = |bin: &super::job::Bin| bin.area as f64 / bin.room.area() as f64;
        let ratio = on_hand().map(least).fold(f64::INFINITY, f64::min);
        return Some((missing as f64 * ratio).floor() as i64);
    }
    let mut sums = vec![(0, 0)];
    for bin in on_hand() {
        sums = (0..=bin.count as i64)
            .flat_map(|count| {
                let more = move |&(area, room): &(i64, i64)| {
                    (area + count * bin.area, room + count * bin.room.area())
                };
                sums.iter().map(more).collect::<Vec<_>>()
            })
            .collect();
    }
    let enough = sums.into_iter().filter(|&(_, room)| room >= missing);
    enough.map(|(area, _)| area).min()
}

/// Area in µm² that no usable rest exceeds when these bins (kinds by index) hold
/// everything.
pub(super) fn largest_rest(job: &Job, bins: &[usize]) -> i64 {
    let rooms = || bins.iter().map(|&bin| job.bins[bin].room);
    let free = rooms().map(Shape::area).sum::<i64>() - job.wanted_area();
    let largest = rooms().map(|room| job.usable(room)).max().unwrap_or(0);
    // Of all rectangles of an area the square loses least to its two kerfs.
    let side = (free.max(0) as f64).sqrt() - f64::from(job.kerf);
    ((side * side).ceil() as i64).min(largest)
}

#[cfg(test)]
mod tests {
    use super::super::{Blank, SawLimits, Stock};
    use super::*;
    use proptest::collection::vec;
    use proptest::prelude::*;

    fn feasible(whole: Um) -> impl Strategy<Value = Feasible> {
        let limit = 1..=whole / 2;
        prop_oneof![
            Just(Feasible::Share),
            (1..6_i32).prop_map(Feasible::Parts),
            limit.clone().prop_map(Feasible::Rounded),
            limit.prop_map(Feasible::Counted),
        ]
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(4000))]

        /// What makes a function dual feasible. Sizes are drawn as shares of what is
        /// left, so that some sets fill the whole exactly.
        #[test]
        fn what_fits_weighs_no_more_than_one(
            (whole, function) in (2..400_i32).prop_flat_map(|whole| (Just(whole), feasible(whole))),
            shares in vec(0.0..1.01_f64, 1..8),
        ) {
            let (mut left, mut weight) = (whole, 0.0);
            for share in shares {
                let size = ((f64::from(left) * share) as Um).min(left);
                left -= size;
                weight += if size > 0 { function.of(size, whole) } else { 0.0 };
            }
            prop_assert!(weight < 1.0 + 1e-9, "{function:?} of {whole}: {weight}");
        }
    }

    /// Three squares of six tenths of a sheet have the area of 1.08 sheets, but no
    /// two of them fit on one.
    #[test]
    fn large_pieces_want_a_sheet_each() {
        let square = Blank {
            name: String::new(),
            length: 0.6,
            width: 0.6,
            turns: true,
            run: None,
        };
        let sheet = Stock {
            name: String::new(),
            length: 1.0,
            width: 1.0,
            count: None,
            whole: true,
        };
        let saw = SawLimits {
            kerf: 0.003,
            trim: 0.0,
            longest: 10.0,
            narrowest: 0.0,
        };
        let job = Job::new(&vec![square; 3], &[sheet], &saw);
        assert_eq!(fewest(&job), 3);
    }
}
