//! Holes, pockets and windows in the surface of a panel.

use super::{Surface, SurfaceFace, loops};
use crate::flat::{Flat, Line, run_into};
use crate::hole::{Cut, starts};
use crate::math;
use crate::panel::Panel;
use crate::polytope::{Plane, TOUCH};
use crate::vector::{cross, dot, sub};

/// A hole from one depth to another below the outer face.
struct Bore {
    hole: usize,
    cut: Cut,
    start: f64,
}

/// Whether every window of a board can be cut into its faces: none meets a notch, nor a
/// notch within the thickness that shows on neither face.
pub(super) fn all_fit(board: &Panel) -> bool {
    let full = board.hole_volume();
    let found: f64 = board
        .window_moments()
        .iter()
        .map(|(_, volume)| volume)
        .sum();
    if (full - found).abs() > 1e-9 * full {
        return false;
    }
    let surface = super::merge::surface(&board.pieces);
    let bores = bores(board);
    fitting(&surface, board, &bores).len() == bores.len()
}

/// Cuts the holes that lie free in the panel.
pub(super) fn add(surface: &mut Surface, panel: &Panel, chord: f64) {
    let bores = bores(panel);
    for k in fitting(surface, panel, &bores) {
        cut(surface, panel, &bores[k], chord);
    }
}

/// From the shallowest on, so that floors are there before what is cut into them.
fn bores(panel: &Panel) -> Vec<Bore> {
    let cuts = panel.cuts();
    let mut bores: Vec<Bore> = cuts
        .iter()
        .zip(starts(&cuts))
        .enumerate()
        .map(|(hole, (cut, start))| Bore {
            hole,
            cut: *cut,
            start,
        })
        .collect();
    bores.sort_by(|a, b| a.cut.depth.total_cmp(&b.cut.depth));
    bores
}

/// The bores that lie within their panel's faces and edges and clear of those before them;
/// what would start in the floor of one left out is left out, too.
fn fitting(surface: &Surface, panel: &Panel, bores: &[Bore]) -> Vec<usize> {
    let mut kept: Vec<usize> = Vec::new();
    for (k, bore) in bores.iter().enumerate() {
        let clear = kept.iter().all(|other| {
            let other = &bores[*other].cut;
            bore.cut.sunk_in(other) || bore.cut.overlap(other) <= TOUCH
        });
        let floor = bore.start == 0.0
            || kept.iter().any(|other| {
                let other = &bores[*other].cut;
                bore.cut.sunk_in(other) && other.depth == bore.start
            });
        if clear && floor && lies_free(surface, panel, bore) {
            kept.push(k);
        }
    }
    kept
}

fn lies_free(surface: &Surface, panel: &Panel, bore: &Bore) -> bool {
    let through = bore.cut.depth >= panel.thickness - TOUCH;
    let opens =
        |depth: f64, facing: f64| face_at(surface, panel, &bore.cut, depth, facing).is_some();
    let within_edges = panel.edges.iter().all(|edge| {
        Line::left_of(edge.at_depth(panel.thickness, bore.cut.depth))
            .is_none_or(|line| line.over(bore.cut.at, &bore.cut.outline) < 0.0)
    });
    (bore.start > 0.0 || opens(0.0, 1.0))
        && (!through || opens(panel.thickness, -1.0))
        && (through || within_edges)
}

/// The face at a depth, facing out or in, in which a cut lies clear of all edges.
fn face_at(surface: &Surface, panel: &Panel, cut: &Cut, depth: f64, facing: f64) -> Option<usize> {
    let see = |corner: usize| panel.frame.flat(surface.vertices[corner]);
    surface.faces.iter().position(|face| {
        let first = surface.vertices[face.loops[0][0]];
        dot(face.plane.normal, panel.frame.out) * facing > 1.0 - TOUCH
            && (panel.frame.height(first) + depth).abs() < 1e-7
            && loops::holds(&see, &face.loops[0], cut.at)
            && face.loops[1..]
                .iter()
                .all(|ring| !loops::holds(&see, ring, cut.at))
            && face.loops.iter().all(|ring| {
                let mut pairs = ring.iter().zip(ring.iter().cycle().skip(1));
                pairs.all(|(a, b)| run_into(cut.at, &cut.outline, &[see(*a), see(*b)]).is_none())
            })
    })
}

fn cut(surface: &mut Surface, panel: &Panel, bore: &Bore, chord: f64) {
    let through = bore.cut.depth >= panel.thickness - TOUCH;
    let Some(top) = face_at(surface, panel, &bore.cut, bore.start, 1.0) else {
        return;
    };
    let bottom = face_at(surface, panel, &bore.cut, panel.thickness, -1.0);
    if through && bottom.is_none() {
        return;
    }
    let outline = polygon(&bore.cut, chord);
    let [upper, lower] =
        [bore.start, bore.cut.depth].map(|depth| ring(surface, panel, &outline, depth));
    let faces = &mut surface.faces;
    faces[top].loops.push(upper.iter().rev().copied().collect());
    match bottom {
        Some(bottom) if through => faces[bottom].loops.push(lower.clone()),
        _ => faces.push(SurfaceFace {
            plane: Plane::through(surface.vertices[lower[0]], panel.frame.out),
            loops: vec![lower.clone()],
            side_of: None,
        }),
    }
    let count = upper.len();
    for k in 0..count {
        let next = (k + 1) % count;
        let corners = vec![upper[k], upper[next], lower[next], lower[k]];
        let [a, b] = [upper[k], upper[next]].map(|corner| surface.vertices[corner]);
        surface.faces.push(SurfaceFace {
            plane: Plane::through(a, cross(panel.frame.out, sub(b, a))),
            loops: vec![corners],
            side_of: Some(bore.hole),
        });
    }
}

/// New corners of an outline at a depth.
fn ring(surface: &mut Surface, panel: &Panel, outline: &[Flat], depth: f64) -> Vec<usize> {
    let from = surface.vertices.len();
    let points = outline.iter().map(|at| panel.frame.point(*at, -depth));
    surface.vertices.extend(points);
    (from..surface.vertices.len()).collect()
}

/// Corners on an outline, counter-clockwise as seen from outside, with chords that stand at
/// most so far within it.
fn polygon(cut: &Cut, chord: f64) -> Vec<Flat> {
    let (core, radius) = (cut.outline.core(), cut.outline.corner());
    let quarter = chords(radius, chord);
    let signs = [[1.0, 1.0], [-1.0, 1.0], [-1.0, -1.0], [1.0, -1.0]];
    let mut corners: Vec<Flat> = signs
        .iter()
        .enumerate()
        .flat_map(|(k, sign): (usize, &Flat)| {
            let middle = [0, 1].map(|axis| cut.at[axis] + sign[axis] * core[axis]);
            (0..=quarter).map(move |step| {
                let turn =
                    (k as f64 + step as f64 / quarter.max(1) as f64) * core::f64::consts::FRAC_PI_2;
                [
                    middle[0] + radius * math::cos(turn),
                    middle[1] + radius * math::sin(turn),
                ]
            })
        })
        .collect();
    corners.dedup_by(|a, b| near(*a, *b));
    if corners.len() > 1 && near(corners[0], corners[corners.len() - 1]) {
        corners.pop();
    }
    corners
}

fn near(a: Flat, b: Flat) -> bool {
    (a[0] - b[0]).abs() < 1e-8 && (a[1] - b[1]).abs() < 1e-8
}

/// Chords to a quarter circle; none for a sharp corner.
fn chords(radius: f64, chord: f64) -> usize {
    if radius < 1e-8 {
        return 0;
    }
    let half = math::acos((1.0 - chord / radius).max(0.5));
    let count = math::ceil(core::f64::consts::FRAC_PI_4 / half);
    // A quarter circle of a box has thousands of chords at most.
    (count as usize).clamp(2, 4096)
}
