//! What sits on one wall, and how it is moved where it clashes.

use super::super::timber::{Middle, capital, grown, listed, mm};
use super::super::{Candidate, Evidence, Verdict, movers, swap, things, tune};
use super::clash::{Clash, edges};
use super::free;
use super::row;
use super::spread::spread;
use super::walls::{Faces, along_box, name, thing};
use crate::carpentry::{Carpentry, Opening};
use crate::subject::SpotKind;
use physics::math::hypot;
use std::collections::BTreeSet;
use wood::Wall;

/// Room beyond the least when a frame is moved, in m.
const SPARE: f64 = 0.001;

/// How much further than it must one of two frames is moved, in m.
const FURTHER: [f64; 4] = [0.0, 0.006, 0.012, 0.024];

/// What sits on a wall of which some is placed by hand, or which a row does not fill.
pub(super) struct Frames<'a> {
    pub(super) evidence: &'a Evidence<'a>,
    pub(super) carpentry: &'a Carpentry,
    pub(super) openings: &'a [Opening],
    pub(super) side: Wall,
    pub(super) faces: &'a Faces,
}

impl Frames<'_> {
    fn name(&self, index: usize) -> String {
        name(self.carpentry, &self.openings[index])
    }

    /// Frames that reach over the edge of their wall.
    pub(super) fn over(&self, over: &[Clash]) -> Verdict {
        let on = things::wall_name(self.side);
        let clause = |clash: &Clash| {
            let (it, by) = (self.name(clash.first), edges(clash));
            format!("{it} reaches {by}")
        };
        let clauses: Vec<String> = over.iter().map(clause).collect();
        let cause = format!("On {on}, {}.", clauses.join("; "));
        let title = match over {
            [one] => {
                let it = capital(&self.name(one.first));
                format!("{it} reaches over the edge of {on}")
            }
            _ => format!("Frames reach over the edge of {on}"),
        };
        let said = self.said(Verdict::stop(title, cause), over);
        let back: Vec<(usize, [f64; 2])> = over
            .iter()
            .map(|clash| (clash.first, clash.shift))
            .collect();
        said.advice("move it, take a smaller one, or make the box larger")
            .mends(self.placed(over))
            .mends(self.moved(&back))
            .ladder(self.larger(over))
            .ladders(self.roomier(over))
            .mends(self.smaller(over))
    }

    /// Frames that overlap.
    pub(super) fn overlap(&self, overlap: &[Clash]) -> Verdict {
        let on = things::wall_name(self.side);
        let clause = |clash: &Clash| {
            let second = clash.second.unwrap_or(clash.first);
            let (it, other) = (self.name(clash.first), self.name(second));
            format!("{it} and {other} overlap by {}", mm(clash.by))
        };
        let clauses: Vec<String> = overlap.iter().map(clause).collect();
        let cause = format!("On {on}, {}.", clauses.join("; "));
        let title = match overlap {
            [one] => {
                let names: Vec<String> = one.ends().map(|index| self.name(index)).collect();
                format!("{} overlap", capital(&listed(&names)))
            }
            _ => format!("Frames overlap on {on}"),
        };
        let said = self.said(Verdict::stop(title, cause), overlap);
        let singly = match overlap {
            [clash] => self.singly(clash),
            _ => Vec::new(),
        };
        let advice = if self.unplaced(overlap).next().is_some() {
            "place by hand what the design places nowhere, take a smaller one, or make the box larger"
        } else {
            "move one of them, take a smaller one, or make the box larger"
        };
        said.advice(advice)
            .mends(self.placed(overlap))
            .mends(singly)
            .mends(self.apart())
            .ladders(self.roomier(overlap))
            .mends(self.narrower(overlap))
            .mends(self.smaller(overlap))
    }

    /// One of two moved off the other, by just so much and by more: vents first.
    fn singly(&self, clash: &Clash) -> Vec<Candidate> {
        let second = clash.second.unwrap_or(clash.first);
        let mut ends = [
            (second, clash.shift),
            (clash.first, clash.shift.map(|part| -part)),
        ];
        ends.sort_by_key(|(index, _)| self.openings[*index].kind != SpotKind::Vent);
        let long = hypot(clash.shift[0], clash.shift[1]).max(1e-9);
        let further = |(index, shift): (usize, [f64; 2])| {
            FURTHER.into_iter().flat_map(move |more| {
                self.moved(&[(index, shift.map(|part| part * (1.0 + more / long)))])
            })
        };
        ends.into_iter().flat_map(further).collect()
    }

    /// With what is wrong with it, and where that is written.
    fn said(&self, verdict: Verdict, wrong: &[Clash]) -> Verdict {
        let most = wrong.iter().map(|clash| clash.by).fold(0.0, f64::max);
        let ends = wrong.iter().flat_map(Clash::ends);
        let place = ends.filter_map(|index| self.middle(index)).last();
        let verdict = verdict
            .measured(-1e3 * most, 0.0, "mm")
            .at(place.map(|middle| middle.place));
        wrong.iter().fold(verdict, |verdict, clash| {
            let things = clash
                .ends()
                .map(|index| thing(self.carpentry, &self.openings[index]));
            verdict.about(things, 1e3 * clash.by)
        })
    }

    fn middle(&self, index: usize) -> Option<Middle> {
        let key = thing(self.carpentry, &self.openings[index]);
        let found = movers::middle(self.evidence.design(), self.carpentry, &key);
        found.map(|(_, middle)| middle)
    }

    /// Some of them moved, all at once, each a little further than it must.
    fn moved(&self, by: &[(usize, [f64; 2])]) -> Vec<Candidate> {
        let spare = |shift: [f64; 2]| {
            let long = hypot(shift[0], shift[1]).max(1e-9);
            shift.map(|part| part * (1.0 + SPARE / long))
        };
        let mut each = by.iter().map(|(index, shift)| {
            let middle = self.middle(*index);
            middle.map_or_else(Vec::new, |middle| middle.moved(spare(*shift)))
        });
        let Some(first) = each.next() else {
            return Vec::new();
        };
        each.fold(first, |sum, next| swap::pairs(&sum, &next))
    }

    /// All of them pushed apart at once.
    fn apart(&self) -> Vec<Candidate> {
        self.moved(&spread(self.openings, self.faces, self.side))
    }

    /// What clashes though nobody placed it, each once.
    fn unplaced(&self, wrong: &[Clash]) -> impl Iterator<Item = usize> {
        let ends = wrong.iter().flat_map(Clash::ends);
        let found: BTreeSet<usize> = ends.filter(|index| !self.openings[*index].stated).collect();
        found.into_iter()
    }

    /// What nobody placed, put where the wall is free.
    fn placed(&self, wrong: &[Clash]) -> Vec<Candidate> {
        let joint = self.evidence.build.enclosure.thickness;
        let face = self.faces[self.side.index()];
        let place = |index| free::placed(self.carpentry, self.openings, index, face, joint);
        self.unplaced(wrong).flat_map(place).collect()
    }

    /// Larger walls, on which what nobody placed is laid out anew.
    fn roomier(&self, wrong: &[Clash]) -> Vec<Vec<Candidate>> {
        if self.unplaced(wrong).next().is_none() {
            return Vec::new();
        }
        row::larger(self.evidence, self.side).into()
    }

    /// The box so much larger that places measured from the left and the bottom lie within.
    fn larger(&self, over: &[Clash]) -> Vec<Candidate> {
        grown(
            self.evidence,
            over.iter().fold([0.0; 3], |most, clash| {
                let one = along_box(self.side, clash.shift.map(|part| (-part).max(0.0)));
                [0, 1, 2].map(|axis| f64::max(most[axis], one[axis]))
            }),
        )
    }

    /// Narrower tubes where vents are at fault.
    fn narrower(&self, wrong: &[Clash]) -> Vec<Candidate> {
        let mut ends = wrong.iter().flat_map(Clash::ends);
        let vent = ends.any(|index| self.openings[index].kind == SpotKind::Vent);
        let Some(vent) = self.evidence.vent().filter(|_| vent) else {
            return Vec::new();
        };
        tune::other_tubes(self.evidence, |diameter| diameter < vent.diameter.si)
    }

    /// Smaller drivers where drivers are at fault.
    fn smaller(&self, wrong: &[Clash]) -> Vec<Candidate> {
        let kinds = wrong.iter().flat_map(Clash::ends);
        let mut groups: Vec<usize> = kinds
            .filter_map(|index| match self.openings[index].kind {
                SpotKind::Driver(group) => Some(group),
                SpotKind::Vent | SpotKind::Radiator => None,
            })
            .collect();
        groups.sort_unstable();
        groups.dedup();
        let smaller = |group| movers::smaller_drivers(self.evidence, group);
        groups.into_iter().flat_map(smaller).collect()
    }
}
