//! Every rectangle that a set of pieces can be cut from, exactly.
//!
//! For each sub-multiset of the pieces, the rectangles that suffice for it are
//! given by a front of smallest ones: none is both shorter and narrower than
//! another. A single piece has one for each way it can lie. Of a larger set, any
//! guillotine pattern parts the set in two at its first cut, so its front comes
//! from all partitions in two, side by side or stacked (bottom-up combination:
//! `wang-1983`, made complete over subsets). Any number of stages, no pattern
//! left out.

use super::job::{Job, Shape, Um};
use super::tree::Tree;

/// Smallest rectangles: lengths ascending, widths descending.
pub(super) type Front = Vec<Shape>;

/// Sub-multisets of so many pieces of each kind, numbered in mixed radix: any
/// part of a set has a lower number than the set, and numbers of parts add up.
#[derive(Clone, Debug)]
pub(super) struct Sets {
    counts: Vec<usize>,
    strides: Vec<usize>,
    size: usize,
}

impl Sets {
    pub(super) fn new(counts: &[usize]) -> Self {
        let mut size = 1;
        let mut strides = Vec::with_capacity(counts.len());
        for count in counts {
            strides.push(size);
            size *= count + 1;
        }
        Self {
            counts: counts.to_vec(),
            strides,
            size,
        }
    }

    /// How many pairs of a set and a part of it there are.
    pub(super) fn pairs(counts: &[usize]) -> u64 {
        let ways = |count: &usize| (*count as u64 + 1) * (*count as u64 + 2) / 2;
        counts.iter().map(ways).fold(1, u64::saturating_mul)
    }

    pub(super) fn size(&self) -> usize {
        self.size
    }

    /// The set of everything.
    pub(super) fn full(&self) -> usize {
        self.size - 1
    }

    pub(super) fn count(&self, set: usize, kind: usize) -> usize {
        set / self.strides[kind] % (self.counts[kind] + 1)
    }

    /// Calls with every part of a set, the empty and the whole one included,
    /// from the lowest number up.
    pub(super) fn parts(&self, set: usize, mut call: impl FnMut(usize)) {
        let held: Vec<(usize, usize)> = (0..self.counts.len())
            .map(|kind| (self.count(set, kind), self.strides[kind]))
            .filter(|&(count, _)| count > 0)
            .collect();
        let mut digits = vec![0; held.len()];
        let mut part = 0;
        loop {
            call(part);
            let mut kind = 0;
            loop {
                let Some(&(count, stride)) = held.get(kind) else {
                    return;
                };
                if digits[kind] < count {
                    digits[kind] += 1;
                    part += stride;
                    break;
                }
                part -= digits[kind] * stride;
                digits[kind] = 0;
                kind += 1;
            }
        }
    }
}

/// Fronts of all sets of a job's pieces.
pub(super) struct Fronts<'a> {
    job: &'a Job,
    kinds: Vec<usize>,
    pub(super) sets: Sets,
    fronts: Vec<Front>,
    rooms: Vec<Shape>,
}

impl<'a> Fronts<'a> {
    /// For so many pieces of these kinds, in any of these rooms. Sets that are
    /// not `wanted` are left without a front.
    pub(super) fn new(
        job: &'a Job,
        pieces: &[(usize, usize)],
        rooms: &[Shape],
        wanted: impl Fn(&Sets, usize) -> bool,
    ) -> Self {
        let counts: Vec<usize> = pieces.iter().map(|&(_, count)| count).collect();
        let sets = Sets::new(&counts);
        let mut fronts = Self {
            job,
            kinds: pieces.iter().map(|&(kind, _)| kind).collect(),
            fronts: vec![Front::new(); sets.size()],
            sets,
            rooms: rooms.to_vec(),
        };
        for set in 1..fronts.sets.size() {
            if wanted(&fronts.sets, set) {
                fronts.fronts[set] = fronts.front_of(set);
            }
        }
        fronts
    }

    pub(super) fn front(&self, set: usize) -> &[Shape] {
        &self.fronts[set]
    }

    /// Whether a set can be cut from a room.
    pub(super) fn fits(&self, set: usize, room: Shape) -> bool {
        set == 0 || self.fronts[set].iter().any(|shape| shape.fits(room))
    }

    /// The smallest rectangle of a set that is no wider than this.
    pub(super) fn shortest(&self, set: usize, width: Um) -> Option<Shape> {
        let front = &self.fronts[set];
        let first = front.partition_point(|shape| shape.width > width);
        front.get(first).copied()
    }

    /// The smallest rectangle of a set that is no longer than this.
    pub(super) fn narrowest(&self, set: usize, length: Um) -> Option<Shape> {
        let front = &self.fronts[set];
        let after = front.partition_point(|shape| shape.length <= length);
        after.checked_sub(1).map(|last| front[last])
    }

    fn front_of(&self, set: usize) -> Front {
        let mut front = Front::new();
        if let Some(kind) = self.single(set) {
            for (shape, _) in self.job.kinds[kind].poses() {
                self.offer(&mut front, shape);
            }
            return front;
        }
        self.sets.parts(set, |part| {
            let rest = set - part;
            if part == 0 || part > rest {
                return;
            }
            let (one, other) = (&self.fronts[part], &self.fronts[rest]);
            if !one.is_empty() && !other.is_empty() {
                self.beside(one, other, &mut front);
                self.stacked(one, other, &mut front);
            }
        });
        front
    }

    fn single(&self, set: usize) -> Option<usize> {
        let position = self.sets.strides.iter().position(|&stride| stride == set)?;
        (self.sets.counts[position] > 0).then(|| self.kinds[position])
    }

    /// Side by side, from the shortest on: the wider of the two gives way.
    fn beside(&self, one: &[Shape], other: &[Shape], front: &mut Front) {
        let (mut i, mut j) = (0, 0);
        while i < one.len() && j < other.len() {
            let (a, b) = (one[i], other[j]);
            let width = a.width.max(b.width);
            if width <= self.job.reach {
                let length = a.length + b.length;
                self.offer(front, Shape { length, width });
            }
            i += usize::from(a.width >= b.width);
            j += usize::from(b.width >= a.width);
        }
    }

    /// Stacked, from the narrowest on: the longer of the two gives way.
    fn stacked(&self, one: &[Shape], other: &[Shape], front: &mut Front) {
        let (mut i, mut j) = (one.len(), other.len());
        while i > 0 && j > 0 {
            let (a, b) = (one[i - 1], other[j - 1]);
            let length = a.length.max(b.length);
            if length <= self.job.reach {
                let width = a.width + b.width;
                self.offer(front, Shape { length, width });
            }
            i -= usize::from(a.length >= b.length);
            j -= usize::from(b.length >= a.length);
        }
    }

    /// Takes a rectangle into a front unless one there is no larger.
    fn offer(&self, front: &mut Front, shape: Shape) {
        let after = front.partition_point(|other| other.length <= shape.length);
        if after > 0 && front[after - 1].width <= shape.width {
            return;
        }
        if !self.rooms.iter().any(|&room| shape.fits(room)) {
            return;
        }
        let first = front.partition_point(|other| other.length < shape.length);
        let beaten = front[first..]
            .iter()
            .take_while(|other| other.width >= shape.width);
        let last = first + beaten.count();
        front.splice(first..last, [shape]);
    }

    /// How a set is cut from a rectangle of its front, or from a larger one.
    pub(super) fn tree(&self, set: usize, room: Shape) -> Option<Tree> {
        if let Some(kind) = self.single(set) {
            let mut poses = self.job.kinds[kind].poses();
            let (_, turned) = poses.find(|(shape, _)| shape.fits(room))?;
            return Some(Tree::Piece { kind, turned });
        }
        let (beside, part, one, other) = self.partition(set, room)?;
        let (first, second) = (self.tree(part, one)?, self.tree(set - part, other)?);
        Some(if beside {
            Tree::beside(first, second)
        } else {
            Tree::stacked(first, second)
        })
    }

    /// The first partition in two that suits a room.
    fn partition(&self, set: usize, room: Shape) -> Option<(bool, usize, Shape, Shape)> {
        let reach = self.job.reach;
        let mut found = None;
        self.sets.parts(set, |part| {
            let rest = set - part;
            if found.is_some() || part == 0 || part > rest {
                return;
            }
            let width = room.width.min(reach);
            if let (Some(one), Some(other)) =
                (self.shortest(part, width), self.shortest(rest, width))
                && one.length + other.length <= room.length
            {
                found = Some((true, part, one, other));
                return;
            }
            let length = room.length.min(reach);
            if let (Some(one), Some(other)) =
                (self.narrowest(part, length), self.narrowest(rest, length))
                && one.width + other.width <= room.width
            {
                found = Some((false, part, one, other));
            }
        });
        found
    }
}
