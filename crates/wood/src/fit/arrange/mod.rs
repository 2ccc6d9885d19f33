//! Finding places for parts.
//!
//! Each part is tried on every wall it may be on, in every attitude, at every place where it
//! would be in line with a corner of the room or of another part, and on a coarse grid. Places are
//! scored by the wishes, and the best-scored one that keeps all clearances is taken and moved on
//! as long as that serves the wishes. Larger parts choose first.

mod candidates;
mod field;
mod wishes;

pub use wishes::{Target, Wishes};

use super::gap::Other;
use super::opening::Opening;
use super::scene::Scene;
use crate::shape::{Part, Pose, Shape};
use crate::vector::{add, length, scale, sub};
use crate::{Body, PanelId, Wall};
use candidates::{Candidate, candidates};
use field::Field;

/// Candidates that are held exactly against everything, in the order of their score.
const CHECKED: usize = 4000;
/// Candidates among which the nearest miss is looked for.
const MISSES: usize = 200;
/// Places that are tried for a way out, at least so far apart in m.
const TRIED_OUT: (usize, f64) = (5, 0.03);
/// Steps of moving on, in m.
const STEPS: [f64; 4] = [0.008, 0.004, 0.002, 0.001];
/// Moves at most with one step.
const MOVES: usize = 40;

/// A part that wants a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Loose {
    /// What it is called.
    pub name: String,
    /// As it is made.
    pub shape: Shape,
    /// The walls it may stand on or be fixed to.
    pub walls: Vec<Wall>,
    /// Which way round.
    pub stand: Stand,
    /// Gap in m to everything but the wall it is on.
    pub clearance: f64,
    /// What makes one place better than another.
    pub wishes: Wishes,
}

/// Which way round a part may stand on a wall.
#[derive(Clone, Debug, PartialEq)]
pub enum Stand {
    /// In line with the box, its axes exchanged in any of these orders ([`Pose::ORDERS`]).
    Exchanged(Vec<[usize; 3]>),
    /// On its foot: its z axis points from the wall into the box, in four attitudes.
    OnFoot,
}

/// The nearest to a place that a part without one came.
#[derive(Clone, Debug, PartialEq)]
pub struct Miss {
    /// Where that would be.
    pub pose: Pose,
    /// By how much a clearance is missed there, in m.
    pub short: f64,
    /// The clearance to what.
    pub other: Other,
}

/// Places for loose parts beside fixed ones, in the order of the loose; openings serve the wish to
/// come out, and speak of parts in the order fixed, then loose. The nearest miss where a part
/// finds no place.
#[must_use]
pub fn arrange(
    body: &Body,
    fixed: &[Part],
    loose: &[Loose],
    openings: &[Opening],
) -> Vec<Result<Pose, Option<Miss>>> {
    let mut found: Vec<Result<Pose, Option<Miss>>> = vec![Err(None); loose.len()];
    let mut field = Field::new(body, fixed);
    let mut order: Vec<usize> = (0..loose.len()).collect();
    let bulk = |i: usize| {
        let (low, high) = loose[i].shape.bounds(&Pose::at([0.0; 3]));
        sub(high, low).iter().product::<f64>()
    };
    order.sort_by(|a, b| bulk(*b).total_cmp(&bulk(*a)));
    for index in order {
        let this = &loose[index];
        found[index] = place(&field, this, openings);
        if let Ok(pose) = found[index] {
            field.add(index, this, pose);
        }
    }
    found
}

fn place(field: &Field, loose: &Loose, openings: &[Opening]) -> Result<Pose, Option<Miss>> {
    let candidates = candidates(field, loose);
    if let Some(pose) = reached(field, loose, openings, &candidates) {
        return Ok(pose);
    }
    let mut feasible = candidates
        .iter()
        .take(CHECKED)
        .filter(|candidate| field.fits(loose, candidate));
    if !loose.wishes.comes_out || openings.is_empty() {
        let first = feasible.next().map(|first| moved_on(field, loose, first));
        return first.ok_or_else(|| nearest_miss(field, loose, &candidates));
    }
    let wanted = |pose: Pose| comes_out(field, loose, pose, openings, false);
    let (found, first) = first_wanted(field, loose, &mut feasible, wanted);
    let found = found.or(first);
    found.ok_or_else(|| nearest_miss(field, loose, &candidates))
}

/// A place on a wall that faces an opening or comes off, where a screwdriver reaches the screws
/// of a part and the part comes out; `None` for a part without screws or that need not come out.
fn reached(
    field: &Field,
    loose: &Loose,
    openings: &[Opening],
    candidates: &[Candidate],
) -> Option<Pose> {
    if !loose.wishes.comes_out || loose.shape.screws.is_empty() {
        return None;
    }
    let faces = |wall: Wall| {
        openings.iter().any(|opening| {
            opening.panel == PanelId::Wall(wall.opposite())
                || opening.hole.is_none() && opening.panel == PanelId::Wall(wall)
        })
    };
    let mut feasible = candidates
        .iter()
        .filter(|candidate| faces(candidate.wall))
        .take(CHECKED)
        .filter(|candidate| field.fits(loose, candidate));
    let wanted = |pose: Pose| comes_out(field, loose, pose, openings, true);
    first_wanted(field, loose, &mut feasible, wanted).0
}

/// The first place that is as wanted among a few that differ, and the first of all.
fn first_wanted(
    field: &Field,
    loose: &Loose,
    feasible: &mut dyn Iterator<Item = &Candidate>,
    wanted: impl Fn(Pose) -> bool,
) -> (Option<Pose>, Option<Pose>) {
    let mut tried: Vec<Pose> = Vec::new();
    for candidate in feasible {
        let pose = moved_on(field, loose, candidate);
        let near = |other: &Pose| {
            length(sub(other.at, pose.at)) < TRIED_OUT.1 && other.angle_to(&pose) < 1e-6
        };
        if tried.iter().any(near) {
            continue;
        }
        if wanted(pose) {
            return (Some(pose), None);
        }
        tried.push(pose);
        if tried.len() >= TRIED_OUT.0 {
            break;
        }
    }
    (None, tried.first().copied())
}

/// Whether a part comes out again, by pushes and turns alone; where asked for, through an
/// opening through which a screwdriver reaches its screws.
fn comes_out(
    field: &Field,
    loose: &Loose,
    pose: Pose,
    openings: &[Opening],
    reached: bool,
) -> bool {
    let mut parts = field.parts();
    let moving = parts.len();
    parts.push(Part {
        name: loose.name.clone(),
        shape: loose.shape.clone(),
        pose,
        sits_in: None,
    });
    let scene = Scene::of_wood(field.body, &parts, &field.woods);
    openings.iter().any(|opening| {
        let one = core::slice::from_ref(opening);
        (!reached || scene.screwdriver_reaches(moving, opening))
            && scene.carry_out(moving, one, 0).through.is_some()
    })
}

/// Moved along its wall in ever smaller steps as long as that serves the wishes.
fn moved_on(field: &Field, loose: &Loose, candidate: &Candidate) -> Pose {
    let mut best = candidate.clone();
    for step in STEPS {
        for _ in 0..MOVES {
            let better = best.axes.iter().flat_map(|axis| {
                let by = scale(*axis, step);
                [by, scale(by, -1.0)]
            });
            let better = better
                .map(|by| best.moved(field, loose, by))
                .filter(|next| next.score < best.score - 1e-9)
                .find(|next| field.fits(loose, next));
            let Some(better) = better else { break };
            best = better;
        }
    }
    best.pose
}

fn nearest_miss(field: &Field, loose: &Loose, candidates: &[Candidate]) -> Option<Miss> {
    let misses = candidates
        .iter()
        .step_by((candidates.len() / MISSES).max(1));
    let misses = misses.map(|candidate| {
        let (short, other) = field.short(loose, candidate);
        Miss {
            pose: candidate.pose,
            short,
            other,
        }
    });
    misses.min_by(|a, b| a.short.total_cmp(&b.short))
}

impl Candidate {
    fn moved(&self, field: &Field, loose: &Loose, by: crate::vector::Vector) -> Self {
        let mut next = self.clone();
        next.pose.at = add(self.pose.at, by);
        next.low = add(self.low, by);
        next.high = add(self.high, by);
        next.score = loose.wishes.score(field, next.low, next.high);
        next
    }
}
