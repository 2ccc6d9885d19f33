//! A seen scene set on a sheet.

use super::chain::{Chain, chains};
use super::cut::hatch;
use super::eye::Eye;
use super::flat::Flat;
use super::hide::stretches;
use super::paint::{Patch, Tone, painted};
use super::scene::{Look, Scene};
use crate::geometry::Point;
use crate::path::Path;
use crate::role::Role;
use crate::sheet::{Dash, Drawing, Stroke, Style, pen};
use core::f64::consts::FRAC_PI_4;

/// Where and how large something seen stands on a sheet.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Place {
    /// Where the origin of the plane of sight lies.
    pub(crate) origin: Point,
    /// Millimetres on the sheet to a metre.
    pub(crate) scale: f64,
}

impl Place {
    /// A point of the plane of sight on the sheet.
    pub(crate) fn at(&self, p: Flat) -> Point {
        self.origin.moved(self.scale * p[0], -self.scale * p[1])
    }
}

/// A scene as seen.
#[derive(Clone, Debug)]
pub(crate) struct Shown {
    /// Surfaces, far ones first; empty where no order was found.
    pub(crate) patches: Vec<Patch>,
    /// Lines.
    pub(crate) lines: Vec<Chain>,
}

impl Scene {
    /// The scene as seen by an eye: exact lines, and surfaces to paint under them.
    pub(crate) fn seen(&self, eye: &Eye) -> Shown {
        Shown {
            patches: painted(self, eye).unwrap_or_default(),
            lines: chains(stretches(self, eye)),
        }
    }
}

/// Between lines of a hatching, mm.
const HATCH: f64 = 1.6;

impl Shown {
    /// Surfaces, then hatching, then lines.
    pub(crate) fn draw(&self, scene: &Scene, place: &Place, out: &mut Drawing) {
        for run in self.patches.chunk_by(|a, b| a.tone == b.tone) {
            fill(run, place, out);
        }
        let wood = |p: &&Patch| p.cut && scene.things[p.thing].look == Look::Wood;
        for patch in self.patches.iter().filter(wood) {
            hatched(patch, place, out);
        }
        for line in self.lines.iter().filter(|l| !l.seen) {
            if scene.things[line.thing].dashed {
                let stroke = Stroke::new(Role::Muted, pen::FINE).dashed(Dash::Short);
                stretch(line, place, stroke, out);
            }
        }
        for line in self.lines.iter().filter(|l| l.seen) {
            let thing = &scene.things[line.thing];
            let stroke = Stroke::new(Role::Ink, thing.pen).dashed(thing.line);
            stretch(line, place, stroke, out);
        }
    }
}

fn stretch(line: &Chain, place: &Place, stroke: Stroke, out: &mut Drawing) {
    let points: Vec<Point> = line.points.iter().map(|p| place.at(*p)).collect();
    out.polyline(&points, stroke);
}

/// Surfaces of one tone as one outline, so that no seam shows between them.
fn fill(run: &[Patch], place: &Place, out: &mut Drawing) {
    let mut path = Path::default();
    for l in run.iter().flat_map(|p| &p.loops) {
        let points: Vec<Point> = l.iter().map(|p| place.at(*p)).collect();
        path.segments.extend(Path::polygon(&points).segments);
    }
    let Some(Tone { role, lit, opaque }) = run.first().map(|p| p.tone) else {
        return;
    };
    let share = f64::from(opaque) / 100.0;
    if lit == 0 {
        out.path(path, Style::washed(role, share));
    } else {
        out.path(path.clone(), Style::washed(role, share));
        out.path(path, Style::washed(Role::Paper, f64::from(lit) / 100.0));
    }
}

/// Cut wood is hatched, each thing next to another the other way.
fn hatched(patch: &Patch, place: &Place, out: &mut Drawing) {
    let angle = if patch.thing.is_multiple_of(2) {
        FRAC_PI_4
    } else {
        3.0 * FRAC_PI_4
    };
    let stroke = Stroke::new(Role::Muted, pen::HAIR);
    for [a, b] in hatch(&patch.loops, angle, HATCH / place.scale) {
        out.line(place.at(a), place.at(b), stroke);
    }
}
