//! Saws a layout cut by cut and says what is wrong with it.

use super::{Blank, Cut, CutSheet, Laid, Layout, SawLimits, Stock};

/// Lengths in m are equal within this.
const SAME: f64 = 2e-6;

/// What is wrong with a layout. Sheets and blanks by index, cuts by number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// A blank is cut more than once, or neither cut nor left over.
    Count(usize),
    /// A blank has another size than wanted, or was turned although its grain is fixed.
    Size(usize),
    /// A blank is narrower than the narrowest strip.
    Narrow(usize),
    /// A blank is not what comes off the saw once all cuts are made.
    NotSawn(usize),
    /// A blank has part of a factory edge that should be trimmed off.
    Untrimmed(usize),
    /// More sheets of a stock are used than there are.
    TooMany(usize),
    /// A cut is not numbered in order.
    Order(usize, usize),
    /// A cut does not run from edge to edge of a piece that is there.
    NotThrough(usize, usize),
    /// A cut is longer than the saw's longest.
    Long(usize, usize),
    /// A cut's fence is set otherwise than its line.
    Fence(usize, usize),
    /// An offcut is not what comes off the saw.
    Offcut(usize),
    /// Blanks of a run do not lie side by side in order.
    Run(usize),
}

/// Everything that is wrong with a layout; nothing, if it can be sawn as it says.
#[must_use]
pub fn faults(blanks: &[Blank], stock: &[Stock], saw: &SawLimits, layout: &Layout) -> Vec<Fault> {
    let mut faults = Vec::new();
    counts(blanks, stock, layout, &mut faults);
    for (index, sheet) in layout.sheets.iter().enumerate() {
        let of = &stock[sheet.stock];
        let pieces = sawn(index, sheet, of, saw, &mut faults);
        let there = |wanted: [f64; 4]| pieces.iter().any(|&piece| same(piece, wanted));
        for laid in &sheet.pieces {
            blank(&blanks[laid.blank], laid, saw, &mut faults);
            if !there(place(laid)) {
                faults.push(Fault::NotSawn(laid.blank));
            }
            if of.whole && !inside(place(laid), of, saw.trim) {
                faults.push(Fault::Untrimmed(laid.blank));
            }
        }
        let margin = if of.whole { saw.trim } else { 0.0 };
        let left = |offcut: [f64; 4]| pieces.iter().any(|&piece| within(offcut, piece, margin));
        if !sheet.offcuts.iter().all(|&offcut| left(offcut)) {
            faults.push(Fault::Offcut(index));
        }
    }
    runs(blanks, saw, layout, &mut faults);
    faults
}

fn counts(blanks: &[Blank], stock: &[Stock], layout: &Layout, faults: &mut Vec<Fault>) {
    for index in 0..blanks.len() {
        let laid = layout.sheets.iter().flat_map(|sheet| &sheet.pieces);
        let times = laid.filter(|laid| laid.blank == index).count();
        let left = layout.left_over.iter().filter(|&&left| left == index);
        if times + left.count() != 1 {
            faults.push(Fault::Count(index));
        }
    }
    for (index, stock) in stock.iter().enumerate() {
        let used = layout.sheets.iter().filter(|sheet| sheet.stock == index);
        if stock.count.is_some_and(|count| used.count() > count) {
            faults.push(Fault::TooMany(index));
        }
    }
}

fn blank(blank: &Blank, laid: &Laid, saw: &SawLimits, faults: &mut Vec<Fault>) {
    let (mut length, mut width) = (laid.length, laid.width);
    if laid.turned {
        (length, width) = (width, length);
    }
    let alike = (length - blank.length).abs() < SAME && (width - blank.width).abs() < SAME;
    if !alike || (laid.turned && !blank.turns) {
        faults.push(Fault::Size(laid.blank));
    }
    if length.min(width) < saw.narrowest - SAME {
        faults.push(Fault::Narrow(laid.blank));
    }
}

/// What is in hand once all cuts are made.
fn sawn(
    index: usize,
    sheet: &CutSheet,
    stock: &Stock,
    saw: &SawLimits,
    faults: &mut Vec<Fault>,
) -> Vec<[f64; 4]> {
    let mut pieces = vec![[0.0, 0.0, stock.length, stock.width]];
    for (number, cut) in (1..).zip(&sheet.cuts) {
        if cut.number != number {
            faults.push(Fault::Order(index, cut.number));
        }
        let at = pieces.iter().position(|&piece| same(piece, cut.piece));
        let (Some(at), Some(axis)) = (at, through(cut)) else {
            faults.push(Fault::NotThrough(index, cut.number));
            continue;
        };
        let piece = pieces.swap_remove(at);
        if piece[3 - axis] > saw.longest + SAME {
            faults.push(Fault::Long(index, cut.number));
        }
        let line = cut.from[axis];
        let (near, far) = (line - saw.kerf / 2.0, line + saw.kerf / 2.0);
        let end = piece[axis] + piece[2 + axis];
        let from_near = (near - piece[axis] - cut.fence).abs() < SAME;
        let from_far = (end - far - cut.fence).abs() < SAME;
        if !from_near && !from_far {
            faults.push(Fault::Fence(index, cut.number));
        }
        for (start, end) in [(piece[axis], near.min(end)), (far.max(piece[axis]), end)] {
            if end - start > SAME {
                let mut part = piece;
                part[axis] = start;
                part[2 + axis] = end - start;
                pieces.push(part);
            }
        }
    }
    pieces
}

/// The axis along which a cut divides its piece, if it runs from edge to edge.
fn through(cut: &Cut) -> Option<usize> {
    let axis = (0..2).find(|&axis| (cut.from[axis] - cut.to[axis]).abs() < SAME)?;
    let (start, extent) = (cut.piece[1 - axis], cut.piece[3 - axis]);
    let begins = (cut.from[1 - axis] - start).abs() < SAME;
    let ends = (cut.to[1 - axis] - start - extent).abs() < SAME;
    (begins && ends).then_some(axis)
}

fn runs(blanks: &[Blank], saw: &SawLimits, layout: &Layout, faults: &mut Vec<Fault>) {
    let mut names: Vec<usize> = blanks.iter().filter_map(|blank| blank.run).collect();
    names.sort_unstable();
    names.dedup();
    for run in names {
        let members: Vec<usize> = (0..blanks.len())
            .filter(|&index| blanks[index].run == Some(run))
            .collect();
        let left = members.iter().any(|index| layout.left_over.contains(index));
        if left || layout.broken_runs.contains(&run) {
            continue;
        }
        let laid: Vec<(usize, Laid)> = members
            .iter()
            .filter_map(|&member| find(layout, member))
            .collect();
        let neighbours = laid.windows(2).all(|pair| {
            let [(one_sheet, one), (other_sheet, other)] = [pair[0], pair[1]];
            let gap = other.x - one.x - one.length;
            one_sheet == other_sheet
                && !one.turned
                && !other.turned
                && (gap - saw.kerf).abs() < SAME
                && (one.y - other.y).abs() < SAME
        });
        if !neighbours {
            faults.push(Fault::Run(run));
        }
    }
}

fn find(layout: &Layout, blank: usize) -> Option<(usize, Laid)> {
    let sheets = layout.sheets.iter().enumerate();
    let mut laid = sheets.flat_map(|(index, sheet)| {
        let pieces = sheet.pieces.iter();
        pieces.map(move |laid| (index, *laid))
    });
    laid.find(|(_, laid)| laid.blank == blank)
}

fn place(laid: &Laid) -> [f64; 4] {
    [laid.x, laid.y, laid.length, laid.width]
}

fn inside([x, y, length, width]: [f64; 4], stock: &Stock, trim: f64) -> bool {
    let within = |start: f64, extent: f64, whole: f64| {
        start > trim - SAME && start + extent < whole - trim + SAME
    };
    within(x, length, stock.length) && within(y, width, stock.width)
}

/// Whether a rest is a piece, but for margins that could not be trimmed off.
fn within(rest: [f64; 4], piece: [f64; 4], margin: f64) -> bool {
    (0..2).all(|axis| {
        let near = rest[axis] - piece[axis];
        let far = piece[axis] + piece[2 + axis] - rest[axis] - rest[2 + axis];
        [near, far]
            .iter()
            .all(|gap| (-SAME..margin + SAME).contains(gap))
    })
}

fn same(one: [f64; 4], other: [f64; 4]) -> bool {
    one.iter().zip(other).all(|(a, b)| (a - b).abs() < SAME)
}
