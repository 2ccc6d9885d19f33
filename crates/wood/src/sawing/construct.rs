//! Packs pieces one after another, each cut from a corner of a free rectangle.

use super::found::{Found, Pattern};
use super::job::{Job, Shape};
use super::tree::Tree;

/// Which free rectangle a piece is put into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Choose {
    /// The one with least area to spare.
    Area,
    /// The one with least to spare on the better fitting side.
    ShortSide,
    /// The one with least to spare on the worse fitting side.
    LongSide,
}

/// Which way the first cut around a piece runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Split {
    /// So that the larger of both rests is as large as can be.
    LargerRest,
    /// So that both rests are as alike as can be.
    EvenRests,
    /// Along the sheet.
    Along,
    /// Across it.
    Across,
}

/// A set of rules.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Style {
    pub(super) choose: Choose,
    pub(super) split: Split,
    /// Whether the first bin that fits is taken, rather than the best of all.
    pub(super) first: bool,
}

impl Style {
    pub(super) fn all() -> impl Iterator<Item = Self> {
        let choices = [Choose::Area, Choose::ShortSide, Choose::LongSide];
        let splits = [
            Split::LargerRest,
            Split::EvenRests,
            Split::Along,
            Split::Across,
        ];
        choices.into_iter().flat_map(move |choose| {
            splits.into_iter().flat_map(move |split| {
                [true, false].map(|first| Self {
                    choose,
                    split,
                    first,
                })
            })
        })
    }
}

/// A piece to be packed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Item {
    pub(super) kind: usize,
    /// The way it must lie; either where `None`.
    pub(super) turned: Option<bool>,
}

/// How good a packing is; larger is better.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Score {
    /// Area placed in µm².
    pub(super) placed: i64,
    /// Area of the largest usable rest in µm².
    pub(super) rest: i64,
    /// Area left free in the emptiest bin in µm², from which a large rest may come.
    pub(super) free: i64,
}

#[derive(Clone, Copy, Debug)]
enum Content {
    Free,
    Piece { kind: usize, turned: bool },
    Beside(usize, usize),
    Stacked(usize, usize),
}

#[derive(Clone, Copy, Debug)]
struct Node {
    shape: Shape,
    content: Content,
}

/// Packs again and again into the same bins.
pub(super) struct Packer<'a> {
    job: &'a Job,
    bins: Vec<usize>,
    nodes: Vec<Node>,
    /// Free rectangles: place in the list of bins, node.
    free: Vec<(usize, usize)>,
    /// Area left free in each bin.
    spare: Vec<i64>,
}

impl<'a> Packer<'a> {
    pub(super) fn new(job: &'a Job, bins: &[usize]) -> Self {
        Self {
            job,
            bins: bins.to_vec(),
            nodes: Vec::new(),
            free: Vec::new(),
            spare: Vec::new(),
        }
    }

    pub(super) fn pack(&mut self, items: &[Item], style: Style) -> Score {
        self.nodes.clear();
        self.free.clear();
        for (place, &bin) in self.bins.iter().enumerate() {
            let shape = self.job.bins[bin].room;
            let content = Content::Free;
            self.nodes.push(Node { shape, content });
            self.free.push((place, place));
        }
        self.spare.clear();
        let rooms = self.bins.iter().map(|&bin| self.job.bins[bin].room.area());
        self.spare.extend(rooms);
        let mut placed = 0;
        for item in items {
            if let Some((at, shape, turned)) = self.choose(*item, style) {
                placed += shape.area();
                self.spare[self.free[at].0] -= shape.area();
                self.put(at, item.kind, shape, turned, style.split);
            }
        }
        let rests = self.free.iter().map(|&(_, node)| self.nodes[node].shape);
        let largest = rests.map(|rest| self.job.usable(rest)).max();
        Score {
            placed,
            rest: largest.unwrap_or(0),
            free: self.spare.iter().copied().max().unwrap_or(0),
        }
    }

    /// The free rectangle for a piece, and the way it lies there.
    fn choose(&self, item: Item, style: Style) -> Option<(usize, Shape, bool)> {
        let mut best: Option<((usize, i64), usize, Shape, bool)> = None;
        for (at, &(place, node)) in self.free.iter().enumerate() {
            let room = self.nodes[node].shape;
            for (shape, turned) in self.job.kinds[item.kind].poses() {
                if !shape.fits(room) || item.turned.is_some_and(|wanted| wanted != turned) {
                    continue;
                }
                let spare = [room.length - shape.length, room.width - shape.width];
                let waste = match style.choose {
                    Choose::Area => room.area() - shape.area(),
                    Choose::ShortSide => i64::from(spare[0].min(spare[1])),
                    Choose::LongSide => i64::from(spare[0].max(spare[1])),
                };
                let key = (if style.first { place } else { 0 }, waste);
                if best.is_none_or(|(least, ..)| key < least) {
                    best = Some((key, at, shape, turned));
                }
            }
        }
        best.map(|(_, at, shape, turned)| (at, shape, turned))
    }

    /// Cuts a piece from the corner of a free rectangle.
    fn put(&mut self, at: usize, kind: usize, shape: Shape, turned: bool, split: Split) {
        let (place, node) = self.free.swap_remove(at);
        let room = self.nodes[node].shape;
        let beside = Shape {
            length: room.length - shape.length,
            width: room.width,
        };
        let above = Shape {
            length: room.length,
            width: room.width - shape.width,
        };
        let piece = Content::Piece { kind, turned };
        if beside.length == 0 && above.width == 0 {
            self.nodes[node].content = piece;
            return;
        }
        if self.across_first(room, beside, above, split) {
            let strip = self.part(node, place, [shape.length, room.width], beside, true);
            let rest = Shape {
                length: shape.length,
                ..above
            };
            // A run may be longer than the saw reaches; no rest along it then.
            let corner = if shape.length > self.job.reach {
                strip
            } else {
                self.part(strip, place, [shape.length, shape.width], rest, false)
            };
            self.nodes[corner].content = piece;
        } else {
            let strip = self.part(node, place, [room.length, shape.width], above, false);
            let rest = Shape {
                width: shape.width,
                ..beside
            };
            let corner = self.part(strip, place, [shape.length, shape.width], rest, true);
            self.nodes[corner].content = piece;
        }
    }

    fn across_first(&self, room: Shape, beside: Shape, above: Shape, split: Split) -> bool {
        let reach = self.job.reach;
        if room.width > reach || room.length > reach {
            return room.width <= reach;
        }
        match split {
            Split::LargerRest => beside.area() > above.area(),
            Split::EvenRests => beside.area() < above.area(),
            Split::Along => false,
            Split::Across => true,
        }
    }

    /// Parts a node in a kept part and a free rest, and gives the kept part's node.
    fn part(
        &mut self,
        node: usize,
        place: usize,
        [length, width]: [i32; 2],
        rest: Shape,
        beside: bool,
    ) -> usize {
        if rest.length == 0 || rest.width == 0 {
            return node;
        }
        let (kept, other) = (self.nodes.len(), self.nodes.len() + 1);
        let content = Content::Free;
        let shape = Shape { length, width };
        self.nodes.push(Node { shape, content });
        self.nodes.push(Node {
            shape: rest,
            content,
        });
        self.free.push((place, other));
        self.nodes[node].content = if beside {
            Content::Beside(kept, other)
        } else {
            Content::Stacked(kept, other)
        };
        kept
    }

    /// The last packing.
    pub(super) fn found(&self) -> Found {
        let patterns = self.bins.iter().enumerate().filter_map(|(place, &bin)| {
            let tree = self.tree(place)?;
            Some(Pattern { bin, tree })
        });
        Found {
            patterns: patterns.collect(),
        }
    }

    fn tree(&self, node: usize) -> Option<Tree> {
        let both = |one: usize, other: usize, join: fn(Tree, Tree) -> Tree| match (
            self.tree(one),
            self.tree(other),
        ) {
            (Some(one), Some(other)) => Some(join(one, other)),
            (one, other) => one.or(other),
        };
        match self.nodes[node].content {
            Content::Free => None,
            Content::Piece { kind, turned } => Some(Tree::Piece { kind, turned }),
            Content::Beside(one, other) => both(one, other, Tree::beside),
            Content::Stacked(one, other) => both(one, other, Tree::stacked),
        }
    }
}
