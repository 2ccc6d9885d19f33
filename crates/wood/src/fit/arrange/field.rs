//! What is already in the box while places are sought.

use super::candidates::Candidate;
use super::wishes::Target;
use super::{Loose, Other};
use crate::fit::closest::{TOUCHING, distance_up_to};
use crate::fit::convex::Convex;
use crate::fit::gap::{CONTACT, Placed, between};
use crate::fit::grove::Grove;
use crate::fit::overlap::overlaps_by;
use crate::fit::timber::{Wood, timber};
use crate::shape::{Part, Pose};
use crate::vector::{Vector, add, scale};
use crate::{Body, PanelId, Wall};

/// The box and everything that has its place.
pub(crate) struct Field<'a> {
    pub(crate) body: &'a Body,
    pub(crate) woods: Vec<Wood>,
    /// Outward normals and offsets of the inner faces of the walls.
    inner: [(Vector, f64); 6],
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
            inner: Wall::ALL.map(|wall| {
                let out = body.wall(wall).frame.out;
                (out, corners.reach(out))
            }),
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
        let boards = boards.flat_map(|wood| &wood.wholes);
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
        let placed = here(loose, candidate);
        self.beyond(&placed).0 <= CONTACT
            && self
                .held_against(loose, candidate, &placed)
                .all(|held| !held.missed())
    }

    /// By how much the worst clearance is missed in a place, and which.
    pub(crate) fn short(&self, loose: &Loose, candidate: &Candidate) -> (f64, Other) {
        let placed = here(loose, candidate);
        let mut worst = self.beyond(&placed);
        for held in self.held_against(loose, candidate, &placed) {
            let short = held.short();
            if short > worst.0 {
                worst = (short, held.other);
            }
        }
        worst
    }

    /// All that a part is held against: the solids and the air of what is there, and the wood.
    fn held_against<'b>(
        &'b self,
        loose: &'b Loose,
        candidate: &'b Candidate,
        placed: &'b Placed,
    ) -> impl Iterator<Item = Held<'b>> {
        let parts = self.there.iter().enumerate().flat_map(move |(i, there)| {
            let wanted = loose.clearance.max(there.clearance);
            let held = |a: &'b [Convex], b: &'b [Convex], wanted: f64| Held {
                a,
                b: Others::Part(b),
                wanted,
                other: Other::Part(i),
            };
            [
                held(&placed.solids, &there.placed.solids, wanted),
                held(&placed.air, &there.placed.solids, 0.0),
                held(&placed.solids, &there.placed.air, 0.0),
            ]
        });
        let woods = self.woods.iter().flat_map(move |wood| {
            let on = wood.id == PanelId::Wall(candidate.wall);
            let held = |a: &'b [Convex], wanted: f64| Held {
                a,
                b: Others::Wood(&wood.rest),
                wanted,
                other: Other::Panel(wood.id),
            };
            // Air is free to reach into the wall the part is on.
            let air = (!on).then(|| held(&placed.air, 0.0));
            let wanted = if on { 0.0 } else { loose.clearance };
            core::iter::once(held(&placed.solids, wanted)).chain(air)
        });
        parts.chain(woods)
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
        self.inner[wall.index()]
    }
}

/// A part in a place that is tried.
fn here(loose: &Loose, candidate: &Candidate) -> Placed {
    Placed::at(&loose.shape, &candidate.pose)
}

/// Solids, others, and the clearance wanted between them.
struct Held<'a> {
    a: &'a [Convex],
    b: Others<'a>,
    wanted: f64,
    other: Other,
}

/// What solids are held against.
#[derive(Clone, Copy)]
enum Others<'a> {
    Part(&'a [Convex]),
    Wood(&'a Grove),
}

impl Others<'_> {
    /// Asks those whose blocks are nearer to that of a solid than a limit, until the answer is
    /// that it is enough.
    fn near(self, to: &Convex, limit: f64, mut ask: impl FnMut(&Convex) -> bool) -> bool {
        match self {
            Self::Part(solids) => {
                let mut near = solids.iter().filter(|b| to.block_distance(b) < limit);
                near.any(ask)
            }
            Self::Wood(grove) => {
                let enough = |b: &Convex, limit| if ask(b) { f64::NEG_INFINITY } else { limit };
                grove.nearer(to, limit, enough) < limit
            }
        }
    }
}

impl Held<'_> {
    /// Asks pairs near enough to matter until the answer is that it is enough.
    fn near(&self, mut ask: impl FnMut(&Convex, &Convex) -> bool) -> bool {
        let limit = self.wanted + TOUCHING;
        self.a.iter().any(|a| self.b.near(a, limit, |b| ask(a, b)))
    }

    /// Whether the clearance is missed, which is sooner known than by how much.
    fn missed(&self) -> bool {
        self.near(|a, b| {
            if self.wanted > CONTACT {
                distance_up_to(a, b, self.wanted) < self.wanted - CONTACT
            } else {
                distance_up_to(a, b, TOUCHING) <= 0.0 && overlaps_by(a, b, CONTACT)
            }
        })
    }

    /// By how much it is missed.
    fn short(&self) -> f64 {
        let mut least = f64::INFINITY;
        self.near(|a, b| {
            least = least.min(between(a, b).gap);
            false
        });
        self.wanted - least
    }
}
