//! From how a sheet is divided to numbered cuts with the fence's setting.

use super::job::{Job, Shape, Um};
use super::tree::Tree;
use super::{Cut, CutSheet, Laid};

/// A piece in hand: where it starts, what of it can be used, kerf included, and
/// the margins still to be trimmed off: left, right, below, above.
#[derive(Clone, Copy, Debug)]
struct Region {
    x: Um,
    y: Um,
    shape: Shape,
    margins: [Um; 4],
}

/// Which way a cut runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    /// Across the sheet, at one x.
    Across,
    /// Along it, at one y.
    Along,
}

/// Blanks of each kind still to be cut.
pub(super) type Waiting = Vec<std::vec::IntoIter<Vec<usize>>>;

pub(super) fn waiting(job: &Job) -> Waiting {
    let copies = job.kinds.iter().map(|kind| kind.copies.clone().into_iter());
    copies.collect()
}

/// The cuts of one bin, numbered on from there.
pub(super) fn cut_up(job: &Job, bin: usize, tree: &Tree, waiting: &mut Waiting) -> CutSheet {
    let bin = &job.bins[bin];
    let mut saw = Saw {
        job,
        waiting,
        sheet: CutSheet {
            stock: bin.stock,
            pieces: Vec::new(),
            cuts: Vec::new(),
            offcuts: Vec::new(),
        },
    };
    saw.cut(
        tree,
        Region {
            x: bin.trim,
            y: bin.trim,
            shape: bin.room,
            margins: [bin.trim; 4],
        },
    );
    let area = |rest: &[f64; 4]| rest[2] * rest[3];
    let mut sheet = saw.sheet;
    sheet
        .offcuts
        .sort_by(|one, other| area(other).total_cmp(&area(one)));
    sheet
}

fn metres(length: Um) -> f64 {
    f64::from(length) / 1e6
}

struct Saw<'a> {
    job: &'a Job,
    waiting: &'a mut Waiting,
    sheet: CutSheet,
}

impl Saw<'_> {
    fn cut(&mut self, tree: &Tree, mut region: Region) {
        self.trim(&mut region);
        if let Tree::Rest(_) = tree {
            self.keep(region);
            return;
        }
        if let Tree::Piece { kind, turned } = *tree {
            let blanks = self.waiting[kind].next().unwrap_or_default();
            let shape = tree.shape(self.job);
            self.spare(shape, &mut region);
            self.lay(&blanks, shape, turned, region);
            return;
        }
        self.spare(tree.shape(self.job), &mut region);
        let (parts, way) = match tree {
            Tree::Beside(parts) => (parts, Way::Across),
            Tree::Stacked(parts) => (parts, Way::Along),
            Tree::Piece { .. } | Tree::Rest(_) => return,
        };
        let mut regions = Vec::with_capacity(parts.len());
        for part in &parts[..parts.len() - 1] {
            let shape = part.shape(self.job);
            regions.push(self.part(&mut region, way, extent(shape, way)));
        }
        regions.push(region);
        for (part, region) in parts.iter().zip(regions) {
            self.cut(part, region);
        }
    }

    /// Length and width in hand, margins included, kerf excluded.
    fn in_hand(&self, region: &Region) -> Shape {
        let [left, right, below, above] = region.margins;
        Shape {
            length: region.shape.length - self.job.kerf + left + right,
            width: region.shape.width - self.job.kerf + below + above,
        }
    }

    /// Trims the margins off that the saw can trim off now.
    fn trim(&mut self, region: &mut Region) {
        let longest = self.job.reach - self.job.kerf;
        // While a sheet is trimmed late, its margins come on top of the reach.
        let longest = longest + if self.job.late { self.margin() } else { 0 };
        for side in [2, 3, 0, 1] {
            let way = if side > 1 { Way::Along } else { Way::Across };
            let in_hand = self.in_hand(region);
            let long = if way == Way::Along {
                in_hand.length
            } else {
                in_hand.width
            };
            if region.margins[side] == 0 || long > longest {
                continue;
            }
            let far = side % 2 == 1;
            let kept = extent(region.shape, way) - self.job.kerf;
            let start = start(region, way);
            let near = if far {
                start + kept
            } else {
                start - self.job.kerf
            };
            self.mark(region, way, near, kept + region.margins[side ^ 1]);
            region.margins[side] = 0;
        }
    }

    fn margin(&self) -> Um {
        let trims = self.job.bins.iter().map(|bin| 2 * bin.trim);
        trims.max().unwrap_or(0)
    }

    /// Cuts off what a region offers beyond what is needed, the larger rest first.
    fn spare(&mut self, needed: Shape, region: &mut Region) {
        let along = Shape {
            width: region.shape.width - needed.width,
            ..region.shape
        };
        let across = Shape {
            length: region.shape.length - needed.length,
            ..region.shape
        };
        let across_best = self.job.usable(across) > self.job.usable(along);
        let reach = self.job.reach;
        let mut ways = [Way::Along, Way::Across];
        if region.shape.length > reach || (across_best && region.shape.width <= reach) {
            ways.reverse();
        }
        for way in ways {
            let wanted = extent(needed, way);
            let length = extent(region.shape, other(way));
            if wanted < extent(region.shape, way) && length <= reach {
                let kept = self.part(region, way, wanted);
                let rest = std::mem::replace(region, kept);
                self.keep(rest);
                // A shorter piece may be one whose margins the saw can trim.
                self.trim(region);
            }
        }
    }

    /// Cuts the near part off a region, of this extent, and leaves the rest there.
    fn part(&mut self, region: &mut Region, way: Way, wanted: Um) -> Region {
        let kerf = self.job.kerf;
        let near = start(region, way) + wanted - kerf;
        let low = if way == Way::Across { 0 } else { 2 };
        self.mark(region, way, near, wanted - kerf + region.margins[low]);
        let mut kept = *region;
        kept.margins[low + 1] = 0;
        region.margins[low] = 0;
        match way {
            Way::Across => {
                kept.shape.length = wanted;
                region.x += wanted;
                region.shape.length -= wanted;
            }
            Way::Along => {
                kept.shape.width = wanted;
                region.y += wanted;
                region.shape.width -= wanted;
            }
        }
        kept
    }

    /// Notes a cut whose kerf begins at `near`.
    fn mark(&mut self, region: &Region, way: Way, near: Um, fence: Um) {
        let in_hand = self.in_hand(region);
        let [left, _, below, _] = region.margins;
        let (x, y) = (metres(region.x - left), metres(region.y - below));
        let (length, width) = (metres(in_hand.length), metres(in_hand.width));
        let line = metres(near) + metres(self.job.kerf) / 2.0;
        let (from, to) = match way {
            Way::Across => ([line, y], [line, y + width]),
            Way::Along => ([x, line], [x + length, line]),
        };
        self.sheet.cuts.push(Cut {
            number: self.sheet.cuts.len() + 1,
            piece: [x, y, length, width],
            fence: metres(fence),
            from,
            to,
        });
    }

    /// Notes a rest if it can be used.
    fn keep(&mut self, mut region: Region) {
        if self.job.usable(region.shape) > 0 {
            self.trim(&mut region);
            self.sheet.offcuts.push([
                metres(region.x),
                metres(region.y),
                metres(region.shape.length - self.job.kerf),
                metres(region.shape.width - self.job.kerf),
            ]);
        }
    }

    /// Lays a blank in its place, or cuts a run into its blanks.
    fn lay(&mut self, blanks: &[usize], shape: Shape, turned: bool, mut region: Region) {
        if let [blank] = *blanks {
            self.sheet.pieces.push(Laid {
                blank,
                x: metres(region.x),
                y: metres(region.y),
                length: metres(shape.length - self.job.kerf),
                width: metres(shape.width - self.job.kerf),
                turned,
            });
            return;
        }
        let shapes: Vec<Shape> = blanks.iter().map(|&blank| self.job.shapes[blank]).collect();
        let last = shapes.len() - 1;
        let mut regions = Vec::with_capacity(shapes.len());
        for shape in &shapes[..last] {
            regions.push(self.part(&mut region, Way::Across, shape.length));
        }
        regions.push(region);
        for ((&blank, shape), mut region) in blanks.iter().zip(shapes).zip(regions) {
            self.trim(&mut region);
            self.spare(shape, &mut region);
            self.lay(&[blank], shape, false, region);
        }
    }
}

fn other(way: Way) -> Way {
    match way {
        Way::Across => Way::Along,
        Way::Along => Way::Across,
    }
}

/// What a cut of this way divides.
fn extent(shape: Shape, way: Way) -> Um {
    match way {
        Way::Across => shape.length,
        Way::Along => shape.width,
    }
}

fn start(region: &Region, way: Way) -> Um {
    match way {
        Way::Across => region.x,
        Way::Along => region.y,
    }
}
