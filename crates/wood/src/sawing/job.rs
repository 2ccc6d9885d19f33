//! The task in whole micrometres, with the kerf folded into every size.
//!
//! A blank of length l beside another takes l and one kerf; a sheet of length L
//! offers L and one kerf, for the last blank needs none. With one kerf added to
//! both, guillotine cutting with a kerf is guillotine cutting without.

use super::{Blank, SawLimits, Stock};
use std::collections::BTreeMap;

/// A length in µm.
pub(super) type Um = i32;

/// Longest length that sums of lengths can bear.
const ENDLESS: Um = 100_000_000;

/// Both sides of what is left must be this long to be of use: 100 mm.
pub(super) const USABLE: Um = 100_000;

/// A rectangle in µm, kerf included: along the sheet's length, across it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Shape {
    pub(super) length: Um,
    pub(super) width: Um,
}

impl Shape {
    pub(super) fn area(self) -> i64 {
        i64::from(self.length) * i64::from(self.width)
    }

    pub(super) fn fits(self, room: Self) -> bool {
        self.length <= room.length && self.width <= room.width
    }

    fn turned(self) -> Self {
        Self {
            length: self.width,
            width: self.length,
        }
    }
}

/// Blanks, or runs of blanks, that are all alike.
#[derive(Clone, Debug)]
pub(super) struct Kind {
    /// As it lies along the grain.
    pub(super) shape: Shape,
    pub(super) turns: bool,
    /// Blanks by index, one list for each copy; several in a list are a run in
    /// order along the length.
    pub(super) copies: Vec<Vec<usize>>,
}

impl Kind {
    /// The ways it can lie, and whether it is turned then.
    pub(super) fn poses(&self) -> impl Iterator<Item = (Shape, bool)> {
        let turns = self.turns && self.shape.length != self.shape.width;
        let second = turns.then(|| (self.shape.turned(), true));
        std::iter::once((self.shape, false)).chain(second)
    }

    pub(super) fn fits(&self, room: Shape) -> bool {
        self.poses().any(|(shape, _)| shape.fits(room))
    }
}

/// Sheets or offcuts that are all alike.
#[derive(Clone, Debug)]
pub(super) struct Bin {
    /// Which stock, by index.
    pub(super) stock: usize,
    /// What can be used of it, kerf included.
    pub(super) room: Shape,
    /// Taken off every edge.
    pub(super) trim: Um,
    /// Whether it must be bought.
    pub(super) bought: bool,
    /// Its whole area in µm².
    pub(super) area: i64,
    /// How many there are at most.
    pub(super) count: usize,
}

impl Bin {
    /// Its longer side before it is trimmed.
    fn longer_side(&self, kerf: Um) -> Um {
        self.room.length.max(self.room.width) - kerf + 2 * self.trim
    }
}

/// What is to be cut from what.
#[derive(Clone, Debug)]
pub(super) struct Job {
    /// Every blank as it lies along the grain, kerf included.
    pub(super) shapes: Vec<Shape>,
    pub(super) kinds: Vec<Kind>,
    pub(super) bins: Vec<Bin>,
    pub(super) kerf: Um,
    /// Longest cut, kerf included.
    pub(super) reach: Um,
    /// Whether some sheets are too long for the saw to be trimmed whole. They are
    /// trimmed piece by piece then, and `reach` is cut short by their margins.
    pub(super) late: bool,
    /// Blanks that fit on nothing, or that the saw cannot cut.
    pub(super) left_over: Vec<usize>,
    pub(super) broken_runs: Vec<usize>,
}

pub(super) fn micrometres(length: f64) -> Um {
    let rounded = (length * 1e6).round();
    rounded.clamp(0.0, f64::from(ENDLESS)) as Um
}

impl Job {
    pub(super) fn new(blanks: &[Blank], stock: &[Stock], saw: &SawLimits) -> Self {
        let (kerf, longest) = (micrometres(saw.kerf), micrometres(saw.longest));
        let bins: Vec<Bin> = stock
            .iter()
            .enumerate()
            .filter_map(|(index, stock)| bin(index, stock, saw, blanks.len()))
            .collect();
        let late = |bin: &Bin| bin.trim > 0 && bin.longer_side(kerf) > longest;
        let margins = bins.iter().filter(|bin| late(bin)).map(|bin| 2 * bin.trim);
        let margin = margins.max().unwrap_or(0);
        let shape = |blank: &Blank| Shape {
            length: micrometres(blank.length) + kerf,
            width: micrometres(blank.width) + kerf,
        };
        let mut job = Self {
            shapes: blanks.iter().map(shape).collect(),
            kinds: Vec::new(),
            bins,
            kerf,
            reach: longest + kerf - margin,
            late: margin > 0,
            left_over: Vec::new(),
            broken_runs: Vec::new(),
        };
        for kind in job.group(blanks, saw) {
            if job.bins.iter().any(|bin| kind.fits(bin.room)) {
                job.kinds.push(kind);
            } else {
                job.left_over.extend(kind.copies.concat());
            }
        }
        job.left_over.sort_unstable();
        job
    }

    /// Alike blanks and runs put together, largest first; notes what cannot be.
    fn group(&mut self, blanks: &[Blank], saw: &SawLimits) -> Vec<Kind> {
        let (narrowest, longest) = (micrometres(saw.narrowest), self.reach - self.kerf);
        let mut runs: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        let mut singles = Vec::new();
        for (index, blank) in blanks.iter().enumerate() {
            let Shape { length, width } = self.shapes[index];
            let (short, long) = (length.min(width) - self.kerf, length.max(width) - self.kerf);
            if short < narrowest.max(1) || long > longest {
                self.left_over.push(index);
                self.broken_runs.extend(blank.run);
            } else if let Some(run) = blank.run {
                runs.entry(run).or_default().push(index);
            } else {
                singles.push(index);
            }
        }
        let mut kinds = Vec::new();
        for (run, members) in runs {
            let kind = self.run(&members);
            let whole = !self.broken_runs.contains(&run);
            if members.len() > 1 && whole && self.bins.iter().any(|bin| kind.fits(bin.room)) {
                kinds.push(kind);
            } else {
                if members.len() > 1 {
                    self.broken_runs.push(run);
                }
                singles.extend(members);
            }
        }
        self.broken_runs.sort_unstable();
        self.broken_runs.dedup();
        singles.sort_unstable();
        let mut alike: BTreeMap<(Um, Um, bool), Vec<Vec<usize>>> = BTreeMap::new();
        for index in singles {
            let Shape { length, width } = self.shapes[index];
            let key = (length, width, blanks[index].turns);
            alike.entry(key).or_default().push(vec![index]);
        }
        kinds.extend(
            alike
                .into_iter()
                .map(|((length, width, turns), copies)| Kind {
                    shape: Shape { length, width },
                    turns,
                    copies,
                }),
        );
        kinds.sort_by_key(|kind| std::cmp::Reverse(kind.shape.area()));
        kinds
    }

    /// A run as one rectangle; its grain decides how it lies.
    fn run(&self, members: &[usize]) -> Kind {
        let shapes = members.iter().map(|&index| self.shapes[index]);
        let length: Um = shapes.clone().map(|shape| shape.length).sum();
        let width = shapes.map(|shape| shape.width).max().unwrap_or(0);
        Kind {
            shape: Shape { length, width },
            turns: false,
            copies: vec![members.to_vec()],
        }
    }

    /// Area of everything to be cut, kerfs included, in µm².
    pub(super) fn wanted_area(&self) -> i64 {
        let area = |kind: &Kind| kind.shape.area() * kind.copies.len() as i64;
        self.kinds.iter().map(area).sum()
    }

    /// Area in µm² of a rest of this shape if it can be used, else 0.
    pub(super) fn usable(&self, rest: Shape) -> i64 {
        let bare = Shape {
            length: rest.length - self.kerf,
            width: rest.width - self.kerf,
        };
        if bare.length >= USABLE && bare.width >= USABLE {
            bare.area()
        } else {
            0
        }
    }
}

/// A stock as the saw can use it; none if it cannot even begin.
fn bin(index: usize, stock: &Stock, saw: &SawLimits, blanks: usize) -> Option<Bin> {
    let (kerf, longest) = (micrometres(saw.kerf), micrometres(saw.longest));
    let whole = Shape {
        length: micrometres(stock.length),
        width: micrometres(stock.width),
    };
    let trim = if stock.whole {
        micrometres(saw.trim)
    } else {
        0
    };
    let room = Shape {
        length: whole.length - 2 * trim + kerf,
        width: whole.width - 2 * trim + kerf,
    };
    if room.length <= kerf || room.width <= kerf || whole.length.min(whole.width) > longest {
        return None;
    }
    Some(Bin {
        stock: index,
        room,
        trim,
        bought: stock.count.is_none(),
        area: whole.area(),
        count: stock.count.map_or(blanks, |count| count.min(blanks)),
    })
}
