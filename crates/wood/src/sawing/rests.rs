//! The largest rest of a sheet, exactly.
//!
//! A rest that stays whole is what remains when strips are cut off a sheet one
//! after another, each along a whole side of what is in hand, each holding some
//! of the pieces. So the rests that may remain follow from the sheet by cutting
//! off sets of pieces in every order, each in the thinnest strip its front gives.

use super::fronts::Fronts;
use super::job::{Job, Shape};
use super::tree::Tree;

/// What may remain of a sheet, and the strip cut off last.
#[derive(Clone, Copy, Debug)]
struct Remainder {
    shape: Shape,
    strip: usize,
    before: usize,
    beside: bool,
}

/// What may remain of one room once any set of pieces has been cut off.
pub(super) struct Rests<'a> {
    job: &'a Job,
    fronts: &'a Fronts<'a>,
    room: Shape,
    left: Vec<Vec<Remainder>>,
}

impl<'a> Rests<'a> {
    pub(super) fn new(job: &'a Job, fronts: &'a Fronts<'a>, room: Shape) -> Self {
        let mut rests = Self {
            job,
            fronts,
            room,
            left: vec![Vec::new(); fronts.sets.size()],
        };
        rests.keep(0, room, 0, 0, false);
        for set in 0..fronts.sets.size() {
            if !rests.left[set].is_empty() {
                rests.cut_off(set);
            }
        }
        rests
    }

    /// Cuts every further set of pieces off all that may remain after one.
    fn cut_off(&mut self, set: usize) {
        let remain = self.left[set].clone();
        let mut strips = Vec::new();
        let others = self.fronts.sets.full() - set;
        self.fronts.sets.parts(others, |strip| {
            if strip > 0 && !self.fronts.front(strip).is_empty() {
                strips.push(strip);
            }
        });
        for strip in strips {
            for (before, Remainder { shape, .. }) in remain.iter().enumerate() {
                if shape.width <= self.job.reach
                    && let Some(cut) = self.fronts.shortest(strip, shape.width)
                {
                    let length = shape.length - cut.length;
                    self.keep(set + strip, Shape { length, ..*shape }, strip, before, true);
                }
                if shape.length <= self.job.reach
                    && let Some(cut) = self.fronts.narrowest(strip, shape.length)
                {
                    let width = shape.width - cut.width;
                    self.keep(set + strip, Shape { width, ..*shape }, strip, before, false);
                }
            }
        }
    }

    /// Keeps what can be used and is not part of a larger one.
    fn keep(&mut self, set: usize, shape: Shape, strip: usize, before: usize, beside: bool) {
        let left = &mut self.left[set];
        if self.job.usable(shape) == 0 || left.iter().any(|other| shape.fits(other.shape)) {
            return;
        }
        left.retain(|other| !other.shape.fits(shape));
        left.push(Remainder {
            shape,
            strip,
            before,
            beside,
        });
    }

    /// Area in µm² of the largest usable rest once a set is cut off, else 0.
    pub(super) fn largest(&self, set: usize) -> i64 {
        let areas = self.left[set]
            .iter()
            .map(|rest| self.job.usable(rest.shape));
        areas.max().unwrap_or(0)
    }

    /// How a set is cut so that this rest remains.
    pub(super) fn tree(&self, set: usize) -> Option<Tree> {
        let places = 0..self.left[set].len();
        let Some(mut place) = places.max_by_key(|&at| self.job.usable(self.left[set][at].shape))
        else {
            return self.fronts.tree(set, self.room);
        };
        let mut set = set;
        let mut tree = Tree::Rest(self.left[set][place].shape);
        while set > 0 {
            let Remainder {
                strip,
                before,
                beside,
                ..
            } = self.left[set][place];
            (set, place) = (set - strip, before);
            let shape = self.left[set][place].shape;
            tree = if beside {
                let cut = self.fronts.shortest(strip, shape.width)?;
                Tree::beside(self.fronts.tree(strip, cut)?, tree)
            } else {
                let cut = self.fronts.narrowest(strip, shape.length)?;
                Tree::stacked(self.fronts.tree(strip, cut)?, tree)
            };
        }
        Some(tree)
    }
}
