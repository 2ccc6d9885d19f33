//! How sheets are sawn: straight cuts from edge to edge, numbered in order.
//!
//! [`lay_out`] wants as few sheets bought as possible, then as little area of
//! sheets and offcuts cut into, then the largest rest that can be used. Patterns
//! may have any number of stages. Small jobs are solved exactly; for larger ones
//! a bounded search gives a layout, and bounds say how far from the best it can be.

mod blocks;
mod bounds;
mod check;
mod construct;
mod cuts;
mod exact;
mod fill;
mod found;
mod fronts;
mod job;
mod layout;
mod rests;
mod search;
mod tree;
mod value;

pub use check::{Fault, faults};
pub use layout::{Effort, lay_out};
pub use value::best_value;

/// A rectangle to be cut out.
#[derive(Clone, Debug, PartialEq)]
pub struct Blank {
    /// What it is for.
    pub name: String,
    /// Along the face grain, in m.
    pub length: f64,
    /// Across it, in m.
    pub width: f64,
    /// Whether it may be turned by a right angle.
    pub turns: bool,
    /// Blanks of one group that should lie side by side along the grain in
    /// the order of the list, so that the grain runs around the box.
    pub run: Option<usize>,
}

/// Sheets or offcuts to cut from.
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// What it is.
    pub name: String,
    /// Along the face grain, in m.
    pub length: f64,
    /// Across it, in m.
    pub width: f64,
    /// How many are on hand, which cost nothing; `None` where any number can be
    /// bought.
    pub count: Option<usize>,
    /// Whether it is a whole sheet, whose factory edges are trimmed before
    /// anything else. Edges of an offcut are clean, and it is cut as it is.
    pub whole: bool,
}

/// What the saw can do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SawLimits {
    /// Width of a cut in m.
    pub kerf: f64,
    /// Taken off every edge of a whole sheet first, in m.
    pub trim: f64,
    /// Longest cut in m.
    pub longest: f64,
    /// Narrowest strip that can be cut off in m.
    pub narrowest: f64,
}

/// How every blank is cut from the stock.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// The sheets used, in order.
    pub sheets: Vec<CutSheet>,
    /// Blanks, by index, that fit on nothing.
    pub left_over: Vec<usize>,
    /// Groups whose grain cannot run through, because they fit on no one sheet.
    pub broken_runs: Vec<usize>,
    /// Whole sheets to buy.
    pub bought: usize,
    /// Fewest whole sheets that could do, proven.
    pub fewest: usize,
    /// Area of all sheets and offcuts cut into, in m².
    pub area: f64,
    /// Least such area that could do, proven, in m².
    pub least_area: f64,
    /// Area that no usable offcut of any layout exceeds that buys as many sheets and cuts into as
    /// much area, proven, in m².
    pub offcut_bound: f64,
    /// Whether nothing better exists: as few sheets, as little area, and no larger offcut.
    pub proven: bool,
}

/// One sheet and its cuts.
#[derive(Clone, Debug, PartialEq)]
pub struct CutSheet {
    /// Which stock, by index.
    pub stock: usize,
    /// Where blanks lie, from the corner at which length and width start.
    pub pieces: Vec<Laid>,
    /// Cuts in sawing order.
    pub cuts: Vec<Cut>,
    /// What is left and can be used (both sides 100 mm or more), largest first:
    /// x, y, length, width in m.
    pub offcuts: Vec<[f64; 4]>,
}

/// A blank in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Laid {
    /// Which blank, by index.
    pub blank: usize,
    /// Along the length of the sheet, in m.
    pub x: f64,
    /// Along its width, in m.
    pub y: f64,
    /// Extent along the length, in m.
    pub length: f64,
    /// Extent along the width, in m.
    pub width: f64,
    /// Whether it was turned.
    pub turned: bool,
}

/// One cut, from edge to edge of the piece in hand, its kerf centred on the line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// Number in sawing order, from 1.
    pub number: usize,
    /// The piece in hand before the cut: x, y, length, width in m.
    pub piece: [f64; 4],
    /// Setting of the fence in m: from the edge of that piece nearer to the
    /// corner of the sheet to the blade. Where a factory edge at that corner is
    /// trimmed off, from the opposite edge.
    pub fence: f64,
    /// One end: x and y in m.
    pub from: [f64; 2],
    /// The other end.
    pub to: [f64; 2],
}
