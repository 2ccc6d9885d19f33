//! Rectangles of a few pieces with little waste, built bottom-up (`wang-1983`).
//!
//! Of the blocks of each number of pieces only those that waste the least share of
//! their area are kept, so that larger ones are built from a bounded number.

use super::job::{Job, Shape};
use super::tree::Tree;
use std::cmp::Ordering;

/// Pieces of a block at most.
const PIECES: usize = 10;

/// Numbers of pieces of each kind, side by side in one number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Pieces(u128);

impl Pieces {
    pub(super) fn without(self, others: Self) -> Self {
        Self(self.0 - others.0)
    }
}

/// Where the number of each kind lies, with a free bit above it.
#[derive(Clone, Debug)]
pub(super) struct Fields {
    /// First bit and number of bits of each kind.
    places: Vec<(u32, u32)>,
    guards: u128,
    all: Pieces,
}

impl Fields {
    /// None where there are too many pieces for one number.
    fn new(job: &Job) -> Option<Self> {
        let (mut places, mut guards, mut all, mut first) = (Vec::new(), 0, 0, 0);
        for kind in &job.kinds {
            let count = kind.copies.len();
            let bits = usize::BITS - count.leading_zeros();
            if first + bits >= u128::BITS {
                return None;
            }
            places.push((first, bits));
            all |= (count as u128) << first;
            guards |= 1 << (first + bits);
            first += bits + 1;
        }
        Some(Self {
            places,
            guards,
            all: Pieces(all),
        })
    }

    /// All pieces of the job.
    pub(super) fn all(&self) -> Pieces {
        self.all
    }

    /// Whether some pieces are among others: no kind borrows from the free bit.
    pub(super) fn holds(&self, among: Pieces, some: Pieces) -> bool {
        ((among.0 | self.guards) - some.0) & self.guards == self.guards
    }

    /// How many there are of each kind.
    pub(super) fn counts(&self, pieces: Pieces) -> Vec<usize> {
        let count = |&(first, bits): &(u32, u32)| (pieces.0 >> first) as usize & ((1 << bits) - 1);
        self.places.iter().map(count).collect()
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Make {
    Piece { kind: usize, turned: bool },
    Beside(usize, usize),
    Stacked(usize, usize),
}

/// A rectangle that some pieces can be cut from.
#[derive(Clone, Copy, Debug)]
pub(super) struct Block {
    pub(super) pieces: Pieces,
    pub(super) shape: Shape,
    /// Area of its pieces in µm².
    pub(super) area: i64,
    make: Make,
}

impl Block {
    /// The share of its area that is wasted, in parts per 10⁹.
    fn waste(&self) -> i64 {
        (1e9 * (1.0 - self.area as f64 / self.shape.area() as f64)) as i64
    }
}

/// All blocks kept.
#[derive(Clone, Debug)]
pub(super) struct Blocks {
    pub(super) fields: Fields,
    blocks: Vec<Block>,
}

impl Blocks {
    /// At most so many of each number of pieces; none where there are too many pieces.
    pub(super) fn new(job: &Job, keep: usize) -> Option<Self> {
        let fields = Fields::new(job)?;
        let mut rooms: Vec<Shape> = job.bins.iter().map(|bin| bin.room).collect();
        rooms.dedup();
        let mut blocks = Vec::new();
        for (kind, alike) in job.kinds.iter().enumerate() {
            blocks.extend(alike.poses().map(|(shape, turned)| Block {
                pieces: Pieces(1 << fields.places[kind].0),
                shape,
                area: shape.area(),
                make: Make::Piece { kind, turned },
            }));
        }
        let mut levels = vec![0..0, 0..blocks.len()];
        let mut made = Self { fields, blocks };
        for count in 2..=PIECES {
            let mut level = Level::new(keep);
            for fewer in 1..=count / 2 {
                for one in levels[fewer].clone() {
                    let others = levels[count - fewer].clone();
                    for other in others.start.max(one)..others.end {
                        made.join(job, &rooms, one, other, &mut level);
                    }
                }
            }
            let first = made.blocks.len();
            made.blocks.extend(level.least());
            levels.push(first..made.blocks.len());
        }
        Some(made)
    }

    /// Both ways two blocks lie together, as far as there are so many pieces, the saw
    /// can part them, and they fit somewhere.
    fn join(&self, job: &Job, rooms: &[Shape], one: usize, other: usize, level: &mut Level) {
        let (a, b) = (&self.blocks[one], &self.blocks[other]);
        let others = self.fields.all.without(a.pieces);
        if !self.fields.holds(others, b.pieces) {
            return;
        }
        let beside = Shape {
            length: a.shape.length + b.shape.length,
            width: a.shape.width.max(b.shape.width),
        };
        let stacked = Shape {
            length: a.shape.length.max(b.shape.length),
            width: a.shape.width + b.shape.width,
        };
        for (shape, cut, make) in [
            (beside, beside.width, Make::Beside(one, other)),
            (stacked, stacked.length, Make::Stacked(one, other)),
        ] {
            if cut <= job.reach && rooms.iter().any(|&room| shape.fits(room)) {
                level.offer(Block {
                    pieces: Pieces(a.pieces.0 + b.pieces.0),
                    shape,
                    area: a.area + b.area,
                    make,
                });
            }
        }
    }

    pub(super) fn get(&self, block: usize) -> &Block {
        &self.blocks[block]
    }

    /// Blocks that fit into a room, one for each set of pieces, most area first.
    pub(super) fn fitting(&self, room: Shape) -> Vec<usize> {
        let all = 0..self.blocks.len();
        let mut fitting: Vec<usize> = all
            .filter(|&block| self.blocks[block].shape.fits(room))
            .collect();
        fitting.sort_by_key(|&block| (-self.blocks[block].area, self.blocks[block].pieces));
        fitting.dedup_by_key(|block| self.blocks[*block].pieces);
        fitting
    }

    pub(super) fn tree(&self, block: usize) -> Tree {
        match self.blocks[block].make {
            Make::Piece { kind, turned } => Tree::Piece { kind, turned },
            Make::Beside(one, other) => Tree::beside(self.tree(one), self.tree(other)),
            Make::Stacked(one, other) => Tree::stacked(self.tree(one), self.tree(other)),
        }
    }
}

/// The least wasteful blocks of one number of pieces.
struct Level {
    keep: usize,
    blocks: Vec<(i64, Block)>,
    /// What wastes more is not kept.
    limit: i64,
}

impl Level {
    fn new(keep: usize) -> Self {
        Self {
            keep,
            blocks: Vec::new(),
            limit: i64::MAX,
        }
    }

    fn offer(&mut self, block: Block) {
        let waste = block.waste();
        if waste > self.limit {
            return;
        }
        self.blocks.push((waste, block));
        if self.blocks.len() > 8 * self.keep {
            self.thin();
        }
    }

    /// Drops all but the best, and of alike ones all but one.
    fn thin(&mut self) {
        let order =
            |(waste, one): &(i64, Block), (other_waste, other): &(i64, Block)| -> Ordering {
                let key = |block: &Block| (block.pieces, block.shape.length);
                waste.cmp(other_waste).then(key(one).cmp(&key(other)))
            };
        self.blocks.sort_by(order);
        self.blocks.dedup_by(|one, other| order(one, other).is_eq());
        self.blocks.truncate(self.keep);
        if self.blocks.len() == self.keep {
            self.limit = self.blocks.last().map_or(i64::MAX, |&(waste, _)| waste);
        }
    }

    fn least(mut self) -> impl Iterator<Item = Block> {
        self.thin();
        self.blocks.into_iter().map(|(_, block)| block)
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Blank, SawLimits, Stock};
    use super::*;

    fn job() -> Job {
        let blank = |(length, width, turns)| Blank {
            name: String::new(),
            length,
            width,
            turns,
            run: None,
        };
        let sizes = [
            (0.3, 0.2, true),
            (0.3, 0.2, true),
            (0.5, 0.2, false),
            (0.25, 0.11, true),
            (0.7, 0.35, false),
        ];
        let sheet = Stock {
            name: String::new(),
            length: 1.0,
            width: 0.5,
            count: None,
            whole: true,
        };
        let saw = SawLimits {
            kerf: 0.003,
            trim: 0.0,
            longest: 0.9,
            narrowest: 0.0,
        };
        Job::new(&sizes.map(blank), &[sheet], &saw)
    }

    #[test]
    fn a_block_is_what_its_cuts_give() {
        let job = job();
        let blocks = Blocks::new(&job, 50).expect("few pieces");
        let mut joined = 0;
        for block in 0..blocks.blocks.len() {
            let (tree, block) = (blocks.tree(block), blocks.get(block));
            assert_eq!(tree.shape(&job), block.shape);
            let mut kinds = Vec::new();
            tree.kinds(&mut kinds);
            let area = |&kind: &usize| job.kinds[kind].shape.area();
            assert_eq!(kinds.iter().map(area).sum::<i64>(), block.area);
            let counts = blocks.fields.counts(block.pieces);
            for (kind, alike) in job.kinds.iter().enumerate() {
                let held = kinds.iter().filter(|&&other| other == kind).count();
                assert_eq!(counts[kind], held);
                assert!(held <= alike.copies.len());
            }
            joined += usize::from(kinds.len() > 1);
        }
        assert!(joined > 50, "{joined}");
    }

    #[test]
    fn pieces_are_held_only_while_there_are_enough() {
        let blocks = Blocks::new(&job(), 50).expect("few pieces");
        let all = blocks.fields.all();
        for block in &blocks.blocks {
            let left = all.without(block.pieces);
            let counts = |pieces| blocks.fields.counts(pieces);
            for other in &blocks.blocks {
                let pairs = counts(left).into_iter().zip(counts(other.pieces));
                let enough = pairs.into_iter().all(|(left, wanted)| wanted <= left);
                assert_eq!(blocks.fields.holds(left, other.pieces), enough);
            }
        }
    }

    /// Two pieces of one width waste nothing side by side, and such blocks stay.
    #[test]
    fn the_least_wasteful_stay() {
        let job = job();
        let pairs = |keep| {
            let blocks = Blocks::new(&job, keep).expect("few pieces").blocks;
            let pairs = blocks.into_iter().filter(|block| {
                let two = matches!(block.make, Make::Beside(..) | Make::Stacked(..));
                two && block.waste() == 0
            });
            pairs.count()
        };
        assert!(pairs(6) >= 3, "{}", pairs(6));
        assert!(pairs(6) <= pairs(200));
    }
}
