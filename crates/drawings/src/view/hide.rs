//! Which stretches of the edges are seen.

use super::eye::Eye;
use super::flat::{Bounds, Flat, Side, along, apart, crossing, side_of, sides, wedge};
use super::scene::{Edge, FACING, Look, Scene};
use wood::vector::Vector;

/// What lies deeper than a facet by less than this, in m, lies on it.
const ON_IT: f64 = 1e-7;
/// Stretches shorter than this, in m, are none.
pub(super) const SHORT: f64 = 1e-7;
/// Gaps between hidden stretches shorter than this, in m, come from what is taken
/// as lying on a facet, and are hidden too.
const GAP: f64 = 2e-5;
/// Cells of the grid along the longer side of the picture.
const CELLS: f64 = 24.0;

/// A piece of an edge as seen.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stretch {
    /// Whose.
    pub(crate) thing: usize,
    /// Its ends.
    pub(crate) ends: [Flat; 2],
    /// Whether nothing covers it.
    pub(crate) seen: bool,
}

/// A facet turned to the eye.
pub(super) struct Cover {
    pub(super) loops: Vec<Vec<Flat>>,
    pub(super) depth: [f64; 3],
    pub(super) bounds: Bounds,
    /// The thing it alone covers; `None` where it covers everything.
    pub(super) only: Option<usize>,
}

impl Cover {
    /// Nearness of its plane over a point.
    pub(super) fn near(&self, p: Flat) -> f64 {
        self.depth[0] + self.depth[1] * p[0] + self.depth[2] * p[1]
    }
}

/// Facets that cover what is behind them.
pub(super) fn covers(scene: &Scene, eye: &Eye) -> Vec<Cover> {
    scene
        .facets
        .iter()
        .filter(|f| wood::vector::dot(f.normal, eye.near) > FACING)
        .map(|f| {
            let loops = f.flat(eye);
            let bounds = Bounds::of(loops.iter().flatten().copied());
            Cover {
                depth: f.depth(eye),
                loops,
                bounds,
                only: (scene.things[f.thing].look == Look::Glass).then_some(f.thing),
            }
        })
        .collect()
}

impl Scene {
    /// Whether nothing but glass covers any of some points.
    pub(crate) fn all_open(&self, points: &[Vector], eye: &Eye) -> bool {
        let covers = covers(self, eye);
        points.iter().all(|point| {
            let [x, y, near] = eye.see(*point);
            let p = [x, y];
            !covers.iter().any(|c| {
                c.only.is_none()
                    && c.bounds.holds(p)
                    && c.near(p) > near
                    && side_of(&c.loops, p) == Side::Inside
            })
        })
    }

    /// Middles of a thing's facets, and points near their corners, that nothing covers,
    /// as seen; those of large facets first.
    pub(crate) fn open_points(&self, thing: usize, eye: &Eye) -> Vec<Flat> {
        let covers: Vec<Cover> = covers(self, eye)
            .into_iter()
            .filter(|c| c.only.is_none())
            .collect();
        let own = self.facets.iter().filter(|f| f.thing == thing);
        let mut faces: Vec<(f64, [f64; 3], Vec<Flat>)> = own
            .filter(|f| wood::vector::dot(f.normal, eye.near) > FACING)
            .map(|f| {
                let loops = f.flat(eye);
                let area: f64 = sides(&loops).map(|(a, b)| wedge(a, b)).sum();
                (
                    area,
                    f.depth(eye),
                    loops.into_iter().next().unwrap_or_default(),
                )
            })
            .collect();
        faces.sort_by(|a, b| b.0.total_cmp(&a.0));
        let near = |d: [f64; 3], p: Flat| d[0] + d[1] * p[0] + d[2] * p[1];
        let mut out = Vec::new();
        for (_, depth, corners) in faces {
            let count = corners.len() as f64;
            let sum = corners
                .iter()
                .fold([0.0; 2], |s, p| [s[0] + p[0], s[1] + p[1]]);
            let middle = sum.map(|c| c / count);
            let step = corners.len().div_ceil(4).max(1);
            let aside = corners.iter().step_by(step).map(|c| along(middle, *c, 0.6));
            for p in std::iter::once(middle).chain(aside) {
                let covered = covers.iter().any(|c| {
                    c.bounds.holds(p)
                        && c.near(p) > near(depth, p) + 1e-6
                        && side_of(&c.loops, p) == Side::Inside
                });
                if !covered && side_of(std::slice::from_ref(&corners), p) == Side::Inside {
                    out.push(p);
                }
            }
        }
        out
    }
}

/// Every edge in the pieces that are seen and the pieces that are not.
pub(super) fn stretches(scene: &Scene, eye: &Eye) -> Vec<Stretch> {
    let covers = covers(scene, eye);
    let Some(all) = scene.bounds(eye) else {
        return Vec::new();
    };
    let grid = Grid::new(all, &covers);
    let mut out = Vec::new();
    for edge in scene.edges.iter().filter(|e| e.shows(eye)) {
        split(edge, eye, &covers, &grid, &mut out);
    }
    out
}

fn split(edge: &Edge, eye: &Eye, covers: &[Cover], grid: &Grid, out: &mut Vec<Stretch>) {
    let [a, b] = edge.ends.map(|p| eye.see(p));
    let (from, to) = ([a[0], a[1]], [b[0], b[1]]);
    let long = apart(from, to);
    if long < SHORT {
        return;
    }
    let bounds = Bounds::of([from, to]);
    let mut hidden: Vec<[f64; 2]> = Vec::new();
    for i in grid.about(&bounds) {
        let only = covers[i].only;
        if only.is_none_or(|thing| thing == edge.thing) && covers[i].bounds.meets(&bounds) {
            behind(&covers[i], (from, a[2]), (to, b[2]), &mut hidden);
        }
    }
    let mut add = |t0: f64, t1: f64, seen: bool| {
        if (t1 - t0) * long > SHORT {
            out.push(Stretch {
                thing: edge.thing,
                ends: [along(from, to, t0), along(from, to, t1)],
                seen,
            });
        }
    };
    let gap = GAP / long;
    let mut at = 0.0;
    for [t0, t1] in joined(hidden, gap) {
        let t0 = if t0 - at < gap { at } else { t0 };
        let t1 = if 1.0 - t1 < gap { 1.0 } else { t1 };
        add(at, t0, true);
        add(t0, t1, false);
        at = t1;
    }
    add(at, 1.0, true);
}

/// The parts of a stretch that lie behind a facet, as fractions of its length.
fn behind(
    cover: &Cover,
    (from, near_from): (Flat, f64),
    (to, near_to): (Flat, f64),
    out: &mut Vec<[f64; 2]>,
) {
    let above = [
        cover.near(from) - near_from - ON_IT,
        cover.near(to) - near_to - ON_IT,
    ];
    if above.iter().all(|h| *h <= 0.0) {
        return;
    }
    let mut ts = vec![0.0, 1.0];
    if above[0] * above[1] < 0.0 {
        ts.push(above[0] / (above[0] - above[1]));
    }
    let met = sides(&cover.loops).filter_map(|(c, d)| crossing(from, to, c, d));
    ts.extend(met.map(|t| t.clamp(0.0, 1.0)));
    ts.sort_by(f64::total_cmp);
    let long = apart(from, to);
    for pair in ts.windows(2) {
        let middle = (pair[0] + pair[1]) / 2.0;
        let height = above[0] + (above[1] - above[0]) * middle;
        if (pair[1] - pair[0]) * long > SHORT / 4.0
            && height > 0.0
            && side_of(&cover.loops, along(from, to, middle)) == Side::Inside
        {
            out.push([pair[0], pair[1]]);
        }
    }
}

/// Intervals joined where they meet or nearly meet, in order.
pub(super) fn joined(mut parts: Vec<[f64; 2]>, gap: f64) -> Vec<[f64; 2]> {
    parts.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut out: Vec<[f64; 2]> = Vec::new();
    for part in parts {
        match out.last_mut() {
            Some(last) if part[0] <= last[1] + gap => last[1] = last[1].max(part[1]),
            _ => out.push(part),
        }
    }
    out
}

/// Facets by the cells of the picture they may cover.
struct Grid {
    low: Flat,
    cell: f64,
    across: usize,
    up: usize,
    held: Vec<Vec<usize>>,
}

impl Grid {
    fn new(all: Bounds, covers: &[Cover]) -> Self {
        let (w, h) = (all.high[0] - all.low[0], all.high[1] - all.low[1]);
        let cell = (w.max(h) / CELLS).max(1e-6);
        let (across, up) = ((w / cell) as usize + 1, (h / cell) as usize + 1);
        let mut grid = Self {
            low: all.low,
            cell,
            across,
            up,
            held: vec![Vec::new(); across * up],
        };
        for (i, cover) in covers.iter().enumerate() {
            for cell in grid.cells(&cover.bounds) {
                grid.held[cell].push(i);
            }
        }
        grid
    }

    fn cells(&self, bounds: &Bounds) -> Vec<usize> {
        let index = |v: f64, axis: usize, count: usize| {
            (((v - self.low[axis]) / self.cell).max(0.0) as usize).min(count - 1)
        };
        let (x0, x1) = (
            index(bounds.low[0], 0, self.across),
            index(bounds.high[0], 0, self.across),
        );
        let (y0, y1) = (
            index(bounds.low[1], 1, self.up),
            index(bounds.high[1], 1, self.up),
        );
        (y0..=y1)
            .flat_map(|y| (x0..=x1).map(move |x| (x, y)))
            .map(|(x, y)| y * self.across + x)
            .collect()
    }

    /// Facets that may cover something within bounds, each once.
    fn about(&self, bounds: &Bounds) -> Vec<usize> {
        let mut out: Vec<usize> = self
            .cells(bounds)
            .into_iter()
            .flat_map(|cell| self.held[cell].iter().copied())
            .collect();
        out.sort_unstable();
        out.dedup();
        out
    }
}
