//! What is already in the box while places are sought.

use super::candidates::Candidate;
use super::wishes::Target;
use super::{Loose, Other};
use crate::fit::closest::distance_up_to;
use crate::fit::convex::Convex;
use crate::fit::gap::{CONTACT, Placed};
use crate::fit::overlap::overlap;
use crate::fit::timber::{Wood, timber};
use crate::shape::{Part, Pose};
use crate::vector::{Vector, add, scale};
use crate::{Body, PanelId, Wall};

/// The box and everything that has its place.
pub(crate) struct Field<'a> {
    pub(crate) body: &'a Body,
    woods: Vec<Wood>,
    there: Vec<There>,
    fixed: usize,
    /// Lowest corner of the room.
    pub(crate) low: Vector,
    /// Its middle.
    pub(crate) middle: Vector,
}

struct There {
    part: Part,
    placed: Placed,
    clearance: f64,
    /// Its index among the loose parts.
    loose: Option<usize>,
}

impl<'a> Field<'a> {
    pub(crate) fn new(body: &'a Body, fixed: &[Part]) -> Self {
        let corners = Convex::hull(body.room.vertices.clone());
        let there = |part: &Part| There {
            part: part.clone(),
            placed: Placed::of(part),
            clearance: 0.0,
            loose: None,
        };
        Self {
            body,
            woods: timber(body),
            there: fixed.iter().map(there).collect(),
            fixed: fixed.len(),
            low: corners.low,
            middle: scale(add(corners.low, corners.high), 0.5),
        }
    }

    pub(crate) fn add(&mut self, index: usize, loose: &Loose, pose: Pose) {
        let part = Part {
            name: loose.name.clone(),
            shape: loose.shape.clone(),
            pose,
            sits_in: None,
        };
        self.there.push(There {
            placed: Placed::of(&part),
            part,
            clearance: loose.clearance,
            loose: Some(index),
        });
    }

    pub(crate) fn parts(&self) -> Vec<Part> {
        self.there.iter().map(|there| there.part.clone()).collect()
    }

    /// All solids in the box but the walls.
    pub(crate) fn solids(&self) -> impl Iterator<Item = &Convex> {
        let boards = self
            .woods
            .iter()
            .filter(|wood| matches!(wood.id, PanelId::Board(_)));
        let boards = boards.flat_map(|wood| wood.pieces.iter().map(|piece| &piece.whole));
        let parts = self.there.iter();
        boards.chain(parts.flat_map(|there| there.placed.solids.iter().chain(&there.placed.air)))
    }

    /// The block around what a wish is about; `None` while that has no place.
    pub(crate) fn target(&self, target: Target) -> Option<[Vector; 2]> {
        let there = match target {
            Target::Point(point) => return Some([point, point]),
            Target::Fixed(index) => self.there[..self.fixed].get(index)?,
            Target::Loose(index) => self.there.iter().find(|there| there.loose == Some(index))?,
        };
        let solids = &there.placed.solids;
        let pick = |i: usize| {
            let low = solids
                .iter()
                .map(|s| s.low[i])
                .fold(f64::INFINITY, f64::min);
            let high = solids
                .iter()
                .map(|s| s.high[i])
                .fold(f64::NEG_INFINITY, f64::max);
            (low, high)
        };
        let spans = [0, 1, 2].map(pick);
        Some([spans.map(|span| span.0), spans.map(|span| span.1)])
    }

    /// Whether a part keeps all clearances in a place.
    pub(crate) fn fits(&self, loose: &Loose, candidate: &Candidate) -> bool {
        self.worst(loose, candidate, CONTACT).0 <= CONTACT
    }

    /// By how much the worst clearance is missed in a place, and which.
    pub(crate) fn short(&self, loose: &Loose, candidate: &Candidate) -> (f64, Other) {
        self.worst(loose, candidate, f64::INFINITY)
    }

    /// The same; the search ends with the first clearance missed by more than `enough`.
    fn worst(&self, loose: &Loose, candidate: &Candidate, enough: f64) -> (f64, Other) {
        let placed = Placed::of(&Part {
            name: String::new(),
            shape: loose.shape.clone(),
            pose: candidate.pose,
            sits_in: None,
        });
        let mut worst = self.beyond(&placed);
        let mut note = |short: f64, other: Other| {
            if short > worst.0 {
                worst = (short, other);
            }
            worst.0 > enough
        };
        for (i, there) in self.there.iter().enumerate() {
            let wanted = loose.clearance.max(there.clearance);
            let solid = short_of(&placed.solids, there.placed.solids.iter(), wanted);
            let air = short_of(&placed.air, there.placed.solids.iter(), 0.0);
            let other_air = short_of(&placed.solids, there.placed.air.iter(), 0.0);
            if note(solid.max(air).max(other_air), Other::Part(i)) {
                return worst;
            }
        }
        for wood in &self.woods {
            let on = wood.id == PanelId::Wall(candidate.wall);
            let wanted = if on { 0.0 } else { loose.clearance };
            let pieces = || wood.pieces.iter().flat_map(|piece| piece.solids());
            let solid = short_of(&placed.solids, pieces(), wanted);
            let air = short_of(&placed.air, pieces(), 0.0);
            if note(
                if on { solid } else { solid.max(air) },
                Other::Panel(wood.id),
            ) {
                return worst;
            }
        }
        worst
    }

    fn beyond(&self, placed: &Placed) -> (f64, Other) {
        let mut worst = (f64::NEG_INFINITY, Other::Outside(Wall::Bottom));
        for wall in Wall::ALL {
            let plane = self.inner(wall);
            let reach = placed.solids.iter().map(|s| s.reach(plane.0) - plane.1);
            let reach = reach.fold(f64::NEG_INFINITY, f64::max);
            if reach > worst.0 {
                worst = (reach, Other::Outside(wall));
            }
        }
        worst
    }

    /// Outward normal and offset of the inner face of a wall.
    pub(crate) fn inner(&self, wall: Wall) -> (Vector, f64) {
        let panel = self.body.wall(wall);
        let out = panel.frame.out;
        let solid = Convex::hull(self.body.room.vertices.clone());
        (out, solid.reach(out))
    }
}

/// By how much a clearance between solids is missed at most.
fn short_of<'a>(a: &[Convex], b: impl Iterator<Item = &'a Convex>, wanted: f64) -> f64 {
    let mut short = f64::NEG_INFINITY;
    for other in b {
        for solid in a {
            if solid.block_distance(other) > wanted {
                continue;
            }
            let gap = distance_up_to(solid, other, wanted + CONTACT);
            let gap = if gap > 0.0 {
                gap
            } else {
                -overlap(solid, other).0
            };
            short = short.max(wanted - gap);
        }
    }
    short
}
