//! Faces in painter's order, far ones first, split where none would do.

use super::eye::Eye;
use super::flat::{Bounds, Flat, Side, along, clipped, crossing, side_of, sides, wedge};
use super::scene::{FACING, Facet, Look, Scene};
use crate::role::Role;
use std::collections::{BTreeMap, BTreeSet};
use wood::vector::dot;

/// Faces that differ in depth by less than this, in m, touch.
const TOUCH: f64 = 1e-6;
/// Splits after which a scene is left unpainted: things stand within one another.
const MOST_SPLITS: usize = 600;

/// A surface with its colour.
#[derive(Clone, Debug)]
pub(crate) struct Patch {
    /// Whose.
    pub(crate) thing: usize,
    /// Outline and holes.
    pub(crate) loops: Vec<Vec<Flat>>,
    /// Its colour.
    pub(crate) tone: Tone,
    /// Whether it was made by a section.
    pub(crate) cut: bool,
    depth: [f64; 3],
    bounds: Bounds,
}

/// A colour, how far it is lightened towards the paper, and how opaque it is, in
/// hundredths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Tone {
    /// The colour.
    pub(crate) role: Role,
    /// 0 full to 100 as the paper.
    pub(crate) lit: u8,
    /// 100 opaque.
    pub(crate) opaque: u8,
}

/// Tones: lit from above, the right side darkest; seen square on, one tone for all,
/// and what is cut the lightest.
fn tone(look: Look, facet: &Facet, eye: &Eye) -> Tone {
    let [x, _, z] = facet.normal.map(f64::abs);
    let square_on = dot(facet.normal, eye.near) > 0.999;
    let way = match (z, x) {
        _ if facet.cut => 0,
        _ if square_on => 1,
        (z, _) if z > 0.6 => 0,
        (_, x) if x > 0.6 => 2,
        _ => 1,
    };
    let tone = |role, lit, opaque| Tone { role, lit, opaque };
    match look {
        Look::Wood => tone([Role::Wood, Role::WoodShade, Role::WoodDark][way], 0, 100),
        Look::Plain(role) => tone(role, [40, 20, 0][way], 100),
        Look::Glass => tone(
            [Role::Wood, Role::Wood, Role::WoodDark][way],
            0,
            [30, 30, 34][way],
        ),
    }
}

/// Faces far ones first; `None` where things stand within one another so that no
/// order was found.
pub(super) fn painted(scene: &Scene, eye: &Eye) -> Option<Vec<Patch>> {
    let facing = |f: &&Facet| dot(f.normal, eye.near) > FACING;
    let patches = scene.facets.iter().filter(facing).map(|f| {
        let loops = f.flat(eye);
        Patch {
            thing: f.thing,
            bounds: Bounds::of(loops.iter().flatten().copied()),
            depth: f.depth(eye),
            tone: tone(scene.things[f.thing].look, f, eye),
            cut: f.cut,
            loops,
        }
    });
    Order::new(patches.collect()).sorted()
}

/// How one patch lies to another where they overlap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Lies {
    Apart,
    Before,
    Behind,
    Both,
}

impl Patch {
    pub(super) fn near(&self, p: Flat) -> f64 {
        self.depth[0] + self.depth[1] * p[0] + self.depth[2] * p[1]
    }

    /// How this patch lies to another one.
    fn lies(&self, other: &Self) -> Lies {
        if !self.bounds.meets(&other.bounds) {
            return Lies::Apart;
        }
        let corners = overlap_corners(self, other);
        if !has_area(&corners) {
            return Lies::Apart;
        }
        let ahead = corners.iter().map(|p| self.near(*p) - other.near(*p));
        let (low, high) = ahead.fold((f64::MAX, f64::MIN), |(l, h), d| (l.min(d), h.max(d)));
        match (high > TOUCH, low < -TOUCH) {
            (true, true) => Lies::Both,
            (true, false) => Lies::Before,
            (false, true) => Lies::Behind,
            (false, false) => Lies::Apart,
        }
    }

    /// The patch in two along the plane of another one.
    fn split_by(&self, other: &Self) -> Option<[Self; 2]> {
        let ahead = |p: Flat| self.near(p) - other.near(p);
        let half = |loops: Vec<Vec<Flat>>| {
            (!loops.is_empty()).then(|| Self {
                bounds: Bounds::of(loops.iter().flatten().copied()),
                loops,
                ..self.clone()
            })
        };
        let heights = self.loops.iter().flatten().map(|p| ahead(*p));
        let (low, high) = heights.fold((f64::MAX, f64::MIN), |(l, h), d| (l.min(d), h.max(d)));
        if low > -TOUCH || high < TOUCH {
            return None;
        }
        let before = half(clipped(&self.loops, ahead))?;
        let behind = half(clipped(&self.loops, |p| -ahead(p)))?;
        Some([before, behind])
    }
}

/// Corners of where two patches overlap, their touching included.
fn overlap_corners(a: &Patch, b: &Patch) -> Vec<Flat> {
    let within =
        |p: &Flat, of: &Patch| of.bounds.holds(*p) && side_of(&of.loops, *p) != Side::Outside;
    let mut out: Vec<Flat> = Vec::new();
    out.extend(a.loops.iter().flatten().filter(|p| within(p, b)));
    out.extend(b.loops.iter().flatten().filter(|p| within(p, a)));
    for (p, q) in sides(&a.loops) {
        let own = Bounds::of([p, q]);
        if !own.meets(&b.bounds) {
            continue;
        }
        for (r, s) in sides(&b.loops) {
            if own.meets(&Bounds::of([r, s]))
                && let Some(t) = crossing(p, q, r, s)
            {
                out.push(along(p, q, t));
            }
        }
    }
    out
}

/// Whether points span an area, not only a line: wider than a micrometre.
fn has_area(points: &[Flat]) -> bool {
    let Some(first) = points.first() else {
        return false;
    };
    let arm = |p: &Flat| [p[0] - first[0], p[1] - first[1]];
    let size = |v: Flat| v[0].abs() + v[1].abs();
    let far = points.iter().map(arm).fold(
        [0.0; 2],
        |best, v| {
            if size(v) > size(best) { v } else { best }
        },
    );
    points
        .iter()
        .any(|p| wedge(far, arm(p)).abs() > 1e-6 * size(far))
}

/// Patches and which must be painted before which.
struct Order {
    patches: Vec<Patch>,
    /// For every patch, those it must be painted after.
    after: Vec<BTreeSet<usize>>,
    splits: usize,
}

impl Order {
    fn new(patches: Vec<Patch>) -> Self {
        let mut order = Self {
            patches: Vec::new(),
            after: Vec::new(),
            splits: 0,
        };
        for patch in patches {
            order.insert(patch);
        }
        order
    }

    /// Adds a patch, splitting it where others run through it.
    fn insert(&mut self, patch: Patch) {
        let mut waiting = vec![patch];
        while let Some(patch) = waiting.pop() {
            let lies: Vec<Lies> = self.patches.iter().map(|p| patch.lies(p)).collect();
            let through = lies.iter().position(|l| *l == Lies::Both);
            if let Some(i) = through
                && self.splits < MOST_SPLITS
                && let Some(halves) = patch.split_by(&self.patches[i])
            {
                self.splits += 1;
                waiting.extend(halves);
                continue;
            }
            self.put(patch, &lies);
        }
    }

    fn put(&mut self, patch: Patch, lies: &[Lies]) {
        let new = self.patches.len();
        self.patches.push(patch);
        self.after.push(BTreeSet::new());
        for (i, lies) in lies.iter().enumerate() {
            match lies {
                Lies::Apart => {}
                Lies::Before => _ = self.after[new].insert(i),
                Lies::Behind => _ = self.after[i].insert(new),
                Lies::Both => {
                    self.after[new].insert(i);
                    self.after[i].insert(new);
                }
            }
        }
    }

    /// Takes patches with nothing left behind them, one after the other.
    fn sorted(mut self) -> Option<Vec<Patch>> {
        loop {
            let order = self.free();
            if order.len() == self.patches.len() {
                let mut held: BTreeMap<usize, Patch> =
                    self.patches.into_iter().enumerate().collect();
                return Some(order.iter().filter_map(|i| held.remove(i)).collect());
            }
            let done: BTreeSet<usize> = order.into_iter().collect();
            self.break_ring(&done)?;
        }
    }

    /// As many patches as can be put in order.
    fn free(&self) -> Vec<usize> {
        let mut missing: Vec<usize> = self.after.iter().map(BTreeSet::len).collect();
        let mut before: Vec<Vec<usize>> = vec![Vec::new(); self.patches.len()];
        for (i, after) in self.after.iter().enumerate() {
            for j in after {
                before[*j].push(i);
            }
        }
        let mut ready: BTreeSet<usize> = (0..missing.len()).filter(|i| missing[*i] == 0).collect();
        let mut out = Vec::new();
        while let Some(i) = ready.pop_first() {
            out.push(i);
            for j in &before[i] {
                missing[*j] -= 1;
                if missing[*j] == 0 {
                    ready.insert(*j);
                }
            }
        }
        out
    }

    /// Splits a patch of a ring in which each covers the next.
    fn break_ring(&mut self, done: &BTreeSet<usize>) -> Option<()> {
        if self.splits >= MOST_SPLITS {
            return None;
        }
        // Walking from patch to patch behind it ends in a ring.
        let mut at = (0..self.patches.len()).find(|i| !done.contains(i))?;
        let mut seen: Vec<usize> = Vec::new();
        while !seen.contains(&at) {
            seen.push(at);
            at = *self.after[at].iter().find(|i| !done.contains(i))?;
        }
        let ring = &seen[seen.iter().position(|i| *i == at)?..];
        for (k, &i) in ring.iter().enumerate() {
            let j = ring[(k + 1) % ring.len()];
            for (what, by) in [(i, j), (j, i)] {
                if let Some(halves) = self.patches[what].split_by(&self.patches[by]) {
                    self.splits += 1;
                    self.remove(what);
                    for half in halves {
                        self.insert(half);
                    }
                    return Some(());
                }
            }
        }
        None
    }

    fn remove(&mut self, which: usize) {
        self.patches.swap_remove(which);
        self.after.swap_remove(which);
        let moved = self.patches.len();
        for after in &mut self.after {
            after.remove(&which);
            if after.remove(&moved) {
                after.insert(which);
            }
        }
    }
}
