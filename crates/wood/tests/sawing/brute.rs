//! Small jobs against a search of another kind: every cut at every place, from
//! the sheet downwards, on a coarse grid.

use crate::jobs;
use boxwright_wood::sawing::{Blank, Effort, Stock, faults, lay_out};
use proptest::collection::vec;
use proptest::prelude::*;
use std::collections::BTreeMap;

/// Grid of sizes, kerf and sheets in m.
const UNIT: f64 = 0.05;
/// Both sides of a usable rest, in units.
const USABLE: i32 = 2;

/// A job in units: pieces with whether they turn, offcuts, a sheet, a kerf.
#[derive(Clone, Debug)]
struct Small {
    pieces: Vec<([i32; 2], bool)>,
    offcuts: Vec<[i32; 2]>,
    sheet: [i32; 2],
    kerf: i32,
}

fn jobs() -> impl Strategy<Value = Small> {
    let piece = (prop::array::uniform2(1..7_i32), any::<bool>());
    let offcuts = vec(prop::array::uniform2(2..7_i32), 0..3);
    let sheet = prop::array::uniform2(6..10_i32);
    (vec(piece, 1..5), offcuts, sheet, 0..2_i32).prop_map(|(pieces, offcuts, sheet, kerf)| Small {
        pieces,
        offcuts,
        sheet,
        kerf,
    })
}

/// Answers met: the area of the largest usable rest, or none where the pieces do
/// not fit.
type Known = BTreeMap<([i32; 2], u32), Option<i32>>;

impl Small {
    /// The largest usable rest of a rectangle from which a set of pieces is cut.
    fn rest(&self, room: [i32; 2], set: u32, known: &mut Known) -> Option<i32> {
        if set == 0 {
            let usable = room[0] >= USABLE && room[1] >= USABLE;
            return Some(if usable { room[0] * room[1] } else { 0 });
        }
        if room[0] <= 0 || room[1] <= 0 {
            return None;
        }
        if let Some(&rest) = known.get(&(room, set)) {
            return rest;
        }
        let mut best = self.is_piece(room, set).then_some(0);
        for axis in 0..2 {
            for at in 1..room[axis] {
                let (mut one, mut other) = (room, room);
                one[axis] = at;
                other[axis] = (room[axis] - at - self.kerf).max(0);
                let mut part = set;
                loop {
                    if let Some(a) = self.rest(one, part, known)
                        && let Some(b) = self.rest(other, set - part, known)
                    {
                        best = best.max(Some(a.max(b)));
                    }
                    if part == 0 {
                        break;
                    }
                    part = (part - 1) & set;
                }
            }
        }
        known.insert((room, set), best);
        best
    }

    fn is_piece(&self, room: [i32; 2], set: u32) -> bool {
        let (size, turns) = self.pieces[set.trailing_zeros() as usize];
        let alike = size == room || (turns && [size[1], size[0]] == room);
        set.is_power_of_two() && alike
    }

    /// Fewest sheets, least area, largest rest: every piece into every bin.
    fn best(&self) -> (usize, i32, i32) {
        let known = &mut Known::new();
        let mut bins = self.offcuts.clone();
        bins.extend(vec![self.sheet; self.pieces.len()]);
        let ways = (bins.len() as u32).pow(self.pieces.len() as u32);
        let ways = (0..ways).filter_map(|way| {
            let mut sets = vec![0; bins.len()];
            let mut digits = way;
            for piece in 0..self.pieces.len() {
                sets[digits as usize % bins.len()] |= 1 << piece;
                digits /= bins.len() as u32;
            }
            let (mut bought, mut area, mut rest) = (0, 0, 0);
            for (index, (&bin, set)) in bins.iter().zip(sets).enumerate() {
                if set > 0 {
                    bought += usize::from(index >= self.offcuts.len());
                    area += bin[0] * bin[1];
                    rest = rest.max(self.rest(bin, set, known)?);
                }
            }
            Some((bought, area, -rest))
        });
        let (bought, area, rest) = ways.min().expect("a sheet for each piece will do");
        (bought, area, -rest)
    }

    fn blanks(&self) -> Vec<Blank> {
        let size = |units: i32| f64::from(units) * UNIT;
        let pieces = self.pieces.iter();
        pieces
            .map(|&([length, width], turns)| jobs::blank(size(length), size(width), turns))
            .collect()
    }

    fn stock(&self) -> Vec<Stock> {
        let size = |units: i32| f64::from(units) * UNIT;
        let sheet = jobs::sheet(size(self.sheet[0]), size(self.sheet[1]));
        self.offcuts
            .iter()
            .map(|&[length, width]| jobs::offcut(size(length), size(width), 1))
            .chain([sheet])
            .collect()
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(250))]

    #[test]
    fn exact_is_best(job in jobs()) {
        // A piece that fits on no sheet may spoil the search below.
        let fits = job.pieces.iter().all(|&(size, turns)| {
            let fits = |a: i32, b: i32| a <= job.sheet[0] && b <= job.sheet[1];
            fits(size[0], size[1]) || (turns && fits(size[1], size[0]))
        });
        prop_assume!(fits);
        let (blanks, stock) = (job.blanks(), job.stock());
        let saw = jobs::saw(f64::from(job.kerf) * UNIT, 0.0);
        let layout = lay_out(&blanks, &stock, &saw, Effort::NORMAL);
        prop_assert_eq!(faults(&blanks, &stock, &saw, &layout), []);
        let (bought, area, rest) = job.best();
        let rests = layout.sheets.iter().filter_map(|sheet| sheet.offcuts.first());
        let largest = rests.map(|rest| rest[2] * rest[3]).fold(0.0, f64::max);
        let units = |area: f64| (area / UNIT / UNIT).round() as i32;
        prop_assert!(layout.proven);
        prop_assert_eq!((layout.bought, units(layout.area), units(largest)), (bought, area, rest));

        // What the search says is proven holds, whatever it finds.
        let effort = Effort { pairs: 0, rounds: 50, blocks: 20 };
        let searched = lay_out(&blanks, &stock, &saw, effort);
        prop_assert_eq!(faults(&blanks, &stock, &saw, &searched), []);
        prop_assert!(searched.fewest <= bought && bought <= searched.bought);
        if searched.bought == bought {
            prop_assert!(units(searched.least_area) <= area && area <= units(searched.area));
            if units(searched.area) == area {
                prop_assert!(searched.offcut_bound / UNIT / UNIT > f64::from(rest) - 1e-6);
            }
        }
    }
}
