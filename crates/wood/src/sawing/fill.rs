//! Fills bins one after another, each with a block, and packs what is left into the
//! last one by rules: a beam search, in which the fullest fillings are followed.

use super::blocks::{Blocks, Pieces};
use super::found::{Found, Pattern};
use super::job::Job;
use std::cmp::Reverse;

/// Fillings that are followed from bin to bin.
const FOLLOWED: usize = 1000;

/// Blocks tried in each bin.
const TRIED: usize = 1000;

/// Fillings of all bins but the last whose other pieces are packed into that.
const FINISHED: usize = 300;

/// Blocks in the first bins.
#[derive(Clone, Debug)]
struct Filling {
    /// Area of their pieces in µm².
    placed: i64,
    left: Pieces,
    blocks: Vec<Option<usize>>,
}

/// Puts all pieces into these bins, where that is found. `pack` packs so many pieces
/// of each kind into one bin if it can.
pub(super) fn fill(
    job: &Job,
    blocks: &Blocks,
    bins: &[usize],
    mut pack: impl FnMut(&[usize], usize) -> Option<Found>,
) -> Option<Found> {
    let mut bins = bins.to_vec();
    bins.sort_by_key(|&bin| job.bins[bin].room.area());
    let last = bins.pop()?;
    let mut fillings = vec![Filling {
        placed: 0,
        left: blocks.fields.all(),
        blocks: Vec::new(),
    }];
    for &bin in &bins {
        fillings = filled(job, blocks, &fillings, bin);
    }
    let room = job.bins[last].room.area();
    for filling in fillings.iter().take(FINISHED) {
        if job.wanted_area() - filling.placed > room {
            break;
        }
        let counts = blocks.fields.counts(filling.left);
        if let Some(Found { mut patterns }) = pack(&counts, last) {
            let first = filling.blocks.iter().zip(&bins);
            patterns.extend(first.filter_map(|(&block, &bin)| {
                let tree = blocks.tree(block?);
                Some(Pattern { bin, tree })
            }));
            return Some(Found { patterns });
        }
    }
    None
}

/// The fullest fillings with one more bin, which stays empty where no block suits.
fn filled(job: &Job, blocks: &Blocks, fillings: &[Filling], bin: usize) -> Vec<Filling> {
    let mut fitting = blocks.fitting(job.bins[bin].room);
    fitting.truncate(TRIED);
    let mut next = Fullest::default();
    for (before, filling) in fillings.iter().enumerate() {
        let mut empty = true;
        for &number in &fitting {
            let block = blocks.get(number);
            let placed = filling.placed + block.area;
            if placed < next.limit {
                empty = false;
                break;
            }
            if blocks.fields.holds(filling.left, block.pieces) {
                let left = filling.left.without(block.pieces);
                next.offer((placed, left, before, Some(number)));
                empty = false;
            }
        }
        if empty {
            next.offer((filling.placed, filling.left, before, None));
        }
    }
    next.thin();
    let follow = |(placed, left, before, block): Followed| {
        let mut blocks = fillings[before].blocks.clone();
        blocks.push(block);
        Filling {
            placed,
            left,
            blocks,
        }
    };
    next.fillings.into_iter().map(follow).collect()
}

/// Area placed, pieces left, the filling before by number, the block in the next bin.
type Followed = (i64, Pieces, usize, Option<usize>);

/// The fullest fillings, one for each set of pieces left.
#[derive(Default)]
struct Fullest {
    fillings: Vec<Followed>,
    /// What places less is not followed.
    limit: i64,
}

impl Fullest {
    fn offer(&mut self, filling: Followed) {
        self.fillings.push(filling);
        if self.fillings.len() > 8 * FOLLOWED {
            self.thin();
        }
    }

    fn thin(&mut self) {
        self.fillings
            .sort_by_key(|&(placed, left, before, _)| (Reverse(placed), left, before));
        self.fillings.dedup_by_key(|&mut (_, left, ..)| left);
        self.fillings.truncate(FOLLOWED);
        if self.fillings.len() == FOLLOWED {
            self.limit = self.fillings.last().map_or(0, |&(placed, ..)| placed);
        }
    }
}
