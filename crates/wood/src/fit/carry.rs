//! Carrying a part out of the box.
//!
//! First the part is lifted off what it touches. Then every right-angled turn, and every tipped
//! one, is tried in which it can be pushed straight through the opening, the widest first; each
//! such way is exact. What remains is to bring it from its place to the inside of the opening:
//! straight, around corners, turning where there is room, and at last by a roadmap grown from
//! both ends with a fixed seed.

use super::connect::{Links, least_gap, link};
use super::motion::{Mover, shifted};
use super::obstacles::Obstacles;
use super::opening::{Aperture, Opening};
use super::push::{Push, attitudes, own_pushes, pushes, tipped_pushes, way_out};
use super::scene::Scene;
use super::shadow::surely_too_large;
use crate::vector::{Vector, dot, scale, sub, unit};
use crate::{PanelId, Pose, Wall};

/// A gap that is wide enough to stop looking for a wider way, in m (common practice, no
/// source).
pub(crate) const WIDE: f64 = 0.005;
/// Gaps are not told beyond this, in m.
pub(crate) const FAR: f64 = 0.02;
/// Gap kept everywhere on a way that counts as free, in m.
pub(crate) const MARGIN: f64 = 0.0002;
/// How far a part is lifted off what it touches before its way is searched, in m.
const LIFTS: [f64; 6] = [FAR, 0.008, 0.0032, 0.0013, 0.0005, 0.00025];
/// Shares by which a lift is made longer to come to the middle of its play.
const LONGER: [f64; 5] = [1.25, 1.5, 1.75, 2.0, 2.25];
/// Places it is lifted to.
const STARTS: usize = 3;
/// Pushes through an opening for which a way to them is searched.
const TRIES: usize = 10;
/// Ways found through one opening before the widest is taken.
const WAYS: usize = 3;

/// How a part comes out.
#[derive(Clone, Debug, PartialEq)]
pub struct Carry {
    /// The opening it comes out through, by index; `None` where no way was found.
    pub through: Option<usize>,
    /// Smallest gap on the way in m, told up to 20 mm; what it touches in its place does not
    /// count while it is lifted off that.
    /// Where it does not come out, negative: by how much it is too large for the opening, or
    /// how deep it runs into something, in the best straight try.
    pub slack: f64,
    /// Poses on the way, from its place to outside; between two of them it moves by
    /// [`Pose::toward`]. Empty where it does not come out.
    pub path: Vec<Pose>,
    /// Angle in rad through which it is turned between its place and the opening.
    pub turned: f64,
    /// Angle in rad by which it is tipped against the nearest right-angled attitude as it passes
    /// the opening.
    pub tipped: f64,
    /// What is known.
    pub verdict: Verdict,
}

/// What is known of a part's way out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It comes out on the path given.
    ComesOut,
    /// It cannot come out: it is larger than every opening, however it is turned.
    TooLarge,
    /// No way was found by the search, which does not prove that there is none.
    NotFound,
    /// There is no opening.
    NoOpening,
}

impl Scene<'_> {
    /// The widest way found on which a part comes out through one of some openings; `nodes`
    /// bounds the roadmap at each.
    #[must_use]
    pub fn carry_out(&self, moving: usize, openings: &[Opening], nodes: usize) -> Carry {
        let mut best: Option<Carry> = None;
        for (index, opening) in openings.iter().enumerate() {
            let Some(aperture) = opening.aperture(self.body) else {
                continue;
            };
            let found = self.through(moving, opening, &aperture, nodes);
            let found = Carry {
                through: found.through.map(|_| index),
                ..found
            };
            if best.as_ref().is_none_or(|best| better(&found, best)) {
                best = Some(found);
            }
            if best.as_ref().is_some_and(|best| best.slack >= WIDE) {
                break;
            }
        }
        best.unwrap_or(Carry::none(0.0, Verdict::NoOpening))
    }

    /// Whether another part lies in the way of one that is moved along a path.
    #[must_use]
    pub fn lies_in(&self, path: &[Pose], moving: usize, other: usize) -> bool {
        let alone = Obstacles {
            woods: Vec::new(),
            parts: self.placed[other].solids.iter().collect(),
        };
        least_gap(&Mover::new(&self.parts[moving].shape.solids, alone), path).is_none()
    }

    /// The smallest gap in m, told up to 20 mm, of a part that is drawn straight off a wall it
    /// lies in or on, everything else in its place but what is taken out; `None` where it runs
    /// into something. 0 where it slides along something.
    #[must_use]
    pub fn draw_off(&self, moving: usize, wall: Wall, taken_out: &[usize]) -> Option<f64> {
        let part = &self.parts[moving];
        let mover = Mover::new(&part.shape.solids, self.all_but(moving, taken_out));
        let out = self.body.wall(wall).frame.out;
        let corners = self.body.panels.iter().flat_map(|panel| &panel.pieces);
        let corners = corners.flat_map(|piece| &piece.vertices);
        let reach = |so_far: f64, corner: &Vector| so_far.max(dot(*corner, out));
        let outer = corners.fold(f64::NEG_INFINITY, reach);
        let (low, high) = part.shape.bounds(&part.pose);
        let inner = (0..3).map(|i| (out[i] * low[i]).min(out[i] * high[i]));
        let by = scale(out, (outer - inner.sum::<f64>()).max(0.0) + FAR);
        (!mover.runs_into(&part.pose, by)).then(|| mover.straight(&part.pose, by, FAR))
    }

    fn through(
        &self,
        moving: usize,
        opening: &Opening,
        aperture: &Aperture,
        nodes: usize,
    ) -> Carry {
        let part = &self.parts[moving];
        let own = part.sits_in.map(PanelId::Wall) == Some(opening.panel);
        if !own && let Some(excess) = surely_too_large(&part.shape, &aperture.outline) {
            return Carry::none(-excess, Verdict::TooLarge);
        }
        let mover = self.mover(moving, opening, own);
        let starts = starts(&mover, &part.pose, aperture);
        let mut search = Search {
            mover: &mover,
            links: Links::new(self.body, &mover, nodes),
            place: part.pose,
            starts,
            ways: Vec::new(),
        };
        let (mut straight, mut short) = own_pushes(&mover, &search.starts, aperture);
        search.all(&straight);
        if !own && !search.is_wide() {
            (straight, short) = pushes(&mover, &part.pose, &search.starts, aperture);
            search.all(&straight);
        }
        if search.ways.is_empty() {
            search.ways.extend(slide_out(&mover, &part.pose, aperture));
        }
        if search.ways.is_empty() {
            search.grown(&straight);
        }
        if search.ways.is_empty() && !own {
            let tipped = tipped_pushes(&mover, &part.pose, aperture);
            search.all(&tipped);
            if search.ways.is_empty() {
                search.grown(&tipped);
            }
        }
        let widest = search.ways.into_iter().max_by(|a, b| a.0.total_cmp(&b.0));
        match widest {
            Some((slack, path)) => Carry::out(slack, path, aperture),
            None => Carry::none(short.min(-MARGIN), Verdict::NotFound),
        }
    }
}

impl Carry {
    fn none(slack: f64, verdict: Verdict) -> Self {
        Self {
            through: None,
            slack,
            path: Vec::new(),
            turned: 0.0,
            tipped: 0.0,
            verdict,
        }
    }

    fn out(slack: f64, path: Vec<Pose>, aperture: &Aperture) -> Self {
        let (first, last) = (path[0], path[path.len() - 1]);
        let upright = attitudes(aperture).into_iter();
        let tipped = upright.map(|turn| last.angle_to(&Pose { turn, ..last }));
        Self {
            through: Some(0),
            slack,
            turned: first.angle_to(&last),
            tipped: tipped.fold(f64::INFINITY, f64::min),
            path,
            verdict: Verdict::ComesOut,
        }
    }
}

/// Whether one answer tells more than another: a way out before none, then the wider; of those
/// without, what was only not found before what is proven, then the nearest miss.
fn better(one: &Carry, other: &Carry) -> bool {
    let rank = |carry: &Carry| match carry.verdict {
        Verdict::ComesOut => 3,
        Verdict::NotFound => 2,
        Verdict::TooLarge => 1,
        Verdict::NoOpening => 0,
    };
    (rank(one), one.slack) > (rank(other), other.slack)
}

struct Search<'a> {
    mover: &'a Mover<'a>,
    links: Links,
    place: Pose,
    starts: Vec<Pose>,
    /// Slack and poses of what was found.
    ways: Vec<(f64, Vec<Pose>)>,
}

impl Search<'_> {
    fn all(&mut self, pushes: &[Push]) {
        let enough = self.ways.len() + WAYS;
        for push in pushes.iter().take(TRIES) {
            if self.ways.len() >= enough || self.is_wide() {
                return;
            }
            if let Some(way) = self.way(push, false) {
                self.ways.push(way);
            }
        }
    }

    /// By a roadmap, which is dear; one opening seldom has two ways to it.
    fn grown(&mut self, pushes: &[Push]) {
        let way = pushes.iter().take(2).find_map(|push| self.way(push, true));
        self.ways.extend(way);
    }

    fn is_wide(&self) -> bool {
        self.ways.iter().any(|way| way.0 >= WIDE)
    }

    fn way(&self, push: &Push, roadmap: bool) -> Option<(f64, Vec<Pose>)> {
        let starts = if roadmap { 1 } else { STARTS };
        self.starts.iter().take(starts).find_map(|start| {
            let between = link(self.mover, &self.links, start, &push.inside, roadmap)?;
            let mut path = vec![self.place, *start];
            path.extend(between);
            path.push(shifted(&push.inside, push.by));
            path.dedup();
            let after_lift = path.iter().position(|pose| pose == start).unwrap_or(0);
            let slack = least_gap(self.mover, &path[after_lift..])?;
            let lift = sub(start.at, self.place.at);
            let slack = match after_lift {
                0 => slack,
                _ => self.mover.lifting(&self.place, lift, slack),
            };
            Some((slack, path))
        })
    }
}

/// Straight out from its place, sliding along what it touches there, with nothing to spare.
fn slide_out(mover: &Mover, place: &Pose, aperture: &Aperture) -> Option<(f64, Vec<Pose>)> {
    let by = way_out(mover, place, aperture.frame.out, aperture);
    (!mover.runs_into(place, by)).then(|| (0.0, vec![*place, shifted(place, by)]))
}

/// Where a part stands free after it was lifted off what it touches, without running into
/// anything on the way; its place itself where it is free there.
fn starts(mover: &Mover, place: &Pose, aperture: &Aperture) -> Vec<Pose> {
    if mover.gap(place, 2.0 * MARGIN) > MARGIN {
        return vec![*place];
    }
    let directions = lifting_directions(aperture);
    let mut found: Vec<(f64, Pose)> = Vec::new();
    for lift in LIFTS {
        // No gap to what it touches is wider than it is lifted.
        if found.first().is_some_and(|best| best.0 >= lift) {
            break;
        }
        found.extend(directions.iter().filter_map(|along| {
            let free = lifted(mover, place, *along, lift)?;
            // The middle of a narrow play lies somewhere between this lift and the next.
            let longer = LONGER.iter().map(|share| share * lift);
            let others = longer.filter_map(|lift| lifted(mover, place, *along, lift));
            Some(others.fold(free, |best, this| if this.0 > best.0 { this } else { best }))
        }));
        found.sort_by(|a, b| b.0.total_cmp(&a.0));
    }
    let found = found.into_iter().take(STARTS);
    found.map(|(_, pose)| pose).collect()
}

/// A part lifted so far in a direction, with the gap it has there and on the way; `None` where
/// it runs into something or still touches.
fn lifted(mover: &Mover, place: &Pose, along: Vector, lift: f64) -> Option<(f64, Pose)> {
    let by = scale(along, lift);
    let lifted = shifted(place, by);
    let gap = mover.gap(&lifted, FAR);
    (gap > MARGIN && !mover.runs_into(place, by)).then(|| (mover.lifting(place, by, gap), lifted))
}

/// Towards the opening, then along the axes and between them.
fn lifting_directions(aperture: &Aperture) -> Vec<Vector> {
    let mut directions = vec![aperture.frame.out, scale(aperture.frame.out, -1.0)];
    let steps = [-1.0, 0.0, 1.0];
    for x in steps {
        for y in steps {
            for z in steps {
                if [x, y, z] != [0.0; 3] {
                    directions.push(unit([x, y, z]));
                }
            }
        }
    }
    directions
}
