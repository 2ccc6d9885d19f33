//! The wires as they lie in the box: seen from above without the lid, and from the
//! front without the front.

use super::model::Model;
use super::scale::{round, said};
use crate::geometry::{Point, Rect};
use crate::layout::{SMALL, STRONG};
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Stroke, Style, Text};
use crate::text::Lettering;
use crate::view::{Eye, Place, Scene};
use studies::carpentry::Carpentry;
use wood::Wall;
use wood::vector::Vector;

/// A wire in the box.
pub(crate) struct Run {
    /// What is written on it.
    pub(crate) label: String,
    /// Its corners, m.
    pub(crate) corners: Vec<Vector>,
    /// How it is drawn.
    pub(crate) stroke: Stroke,
}

/// Both views.
pub(crate) struct Wired {
    pub(crate) drawing: Drawing,
    pub(crate) scale: String,
    /// Wires that found no room for their label in either view.
    pub(crate) unlabelled: Vec<String>,
}

/// The views, and what is missing in each.
const ABOVE: [&str; 2] = ["From above", "top taken off, the front below"];
const FRONT: [&str; 2] = ["From the front", "front taken off"];
/// Above a view, for its name.
const CAPTION: f64 = 7.0;
/// Between the views, and between their names.
const GUTTER: f64 = 12.0;
const BETWEEN: f64 = 2.0;
/// Wires that lie on one another are drawn so far apart, mm, over so many lanes.
pub(super) const LANE: f64 = 0.75;
pub(super) const LANES: usize = 9;
const LABEL: Lettering = Lettering::regular(2.1);

/// Draws the wires in their box, to one scale.
pub(crate) fn wired(carpentry: &Carpentry, runs: &[Run], area: Rect) -> Wired {
    let block = &carpentry.body.plan.block;
    let [w, h, d] = [block.width, block.height, block.depth].map(|m| 1000.0 * m);
    let aside = round((2.0 * w, d.max(h)), (area.w - GUTTER, area.h - CAPTION));
    let stacked = round((w, d + h), (area.w, area.h - 2.0 * CAPTION - GUTTER));
    let beside = aside <= stacked;
    let scale = aside.min(stacked);
    let [w, h, d] = [w, h, d].map(|mm| mm / scale);
    // A name wider than its view pushes the other view aside.
    let gutter = GUTTER.max(named_width(ABOVE) + 0.5 * GUTTER - w);
    let (across, down) = match beside {
        true => (2.0 * w + gutter, CAPTION + d.max(h)),
        false => (w, 2.0 * CAPTION + GUTTER + d + h),
    };
    let x = area.x + (area.w - across).max(0.0) / 2.0;
    let y = area.y + (area.h - down).max(0.0) / 2.0 + CAPTION;
    let above = Rect::new(x, y, w, d);
    let front = match beside {
        true => Rect::new(x + w + gutter, y, w, h),
        false => Rect::new(x, y + d + GUTTER + CAPTION, w, h),
    };
    let mut drawing = Drawing::default();
    let lid = carpentry.body.wall(Wall::Top);
    let level = lid.frame.point([0.0; 2], -lid.thickness)[2] - 1e-3;
    let face = carpentry.body.wall(Wall::Front);
    let behind = face.frame.point([0.0; 2], -face.thickness)[1] + 1e-3;
    let scene = Model::new(carpentry, &[]).scene;
    let mut missing: Vec<bool> = vec![true; runs.len()];
    let views = [
        (
            ABOVE,
            above,
            Eye::TOP,
            scene.cut([0.0, 0.0, level], [0.0, 0.0, 1.0]),
        ),
        (
            FRONT,
            front,
            Eye::FRONT,
            scene.cut([0.0, behind, 0.0], [0.0, -1.0, 0.0]),
        ),
    ];
    let place = |rect: &Rect| Place {
        origin: Point::new(rect.x, rect.bottom()),
        scale: 1000.0 / scale,
    };
    // What sticks out of one view may reach into the other: both boxes first.
    for (_, rect, eye, cut) in &views {
        pale(cut, eye, &place(rect), &mut drawing);
    }
    for ([name, remark], rect, eye, _) in &views {
        let at = Point::new(rect.x, rect.y - 2.6);
        let beside = at.moved(STRONG.width(name) + BETWEEN, 0.0);
        let remark = Text::new(beside, remark, SMALL).coloured(Role::Muted);
        for i in lay(runs, eye, &place(rect), &mut drawing) {
            missing[i] = false;
        }
        // What stands on the box reaches up here: the caption is written over it.
        for text in [Text::new(at, name, STRONG), remark] {
            let patch = text.upright_box().inset(-0.4);
            drawing.rect(patch, Style::filled(Role::Paper));
            drawing.text(text);
        }
    }
    let unlabelled = runs.iter().zip(missing).filter(|(_, missing)| *missing);
    Wired {
        drawing,
        scale: said(scale),
        unlabelled: unlabelled.map(|(run, _)| run.label.clone()).collect(),
    }
}

/// Width of a view's name with the remark beside it.
fn named_width([name, remark]: [&str; 2]) -> f64 {
    STRONG.width(name) + BETWEEN + SMALL.width(remark)
}

/// The box under a veil of paper, so that the wires stand out.
fn pale(cut: &Scene, eye: &Eye, place: &Place, out: &mut Drawing) {
    cut.seen(eye).draw(cut, place, out);
    if let Some(bounds) = cut.bounds(eye) {
        let corners = [bounds.low, bounds.high].map(|p| place.at(p));
        if let Some(veil) = Rect::around(&corners) {
            out.rect(veil.inset(-0.2), Style::washed(Role::Paper, 0.62));
        }
    }
}

/// Draws the wires side by side, then their labels; gives the wires that bear one.
fn lay(runs: &[Run], eye: &Eye, place: &Place, out: &mut Drawing) -> Vec<usize> {
    let lines: Vec<Vec<Point>> = (runs.iter().enumerate())
        .map(|(i, run)| {
            let lane = (i % LANES) as f64 - (LANES / 2) as f64;
            let flat = run.corners.iter().map(|p| {
                let [x, y, _] = eye.see(*p);
                place.at([x, y]).moved(lane * LANE, lane * LANE)
            });
            let mut line: Vec<Point> = flat.collect();
            line.dedup_by(|a, b| a.distance(*b) < 1e-6);
            line
        })
        .collect();
    for (line, run) in lines.iter().zip(runs) {
        if line.len() > 1 {
            out.polyline(line, run.stroke);
        }
        for end in [line.first(), line.last()].into_iter().flatten() {
            out.circle(*end, 0.6, Style::filled(run.stroke.role));
        }
    }
    let mut taken: Vec<Rect> = Vec::new();
    let mut named = Vec::new();
    for (i, (line, run)) in lines.iter().zip(runs).enumerate() {
        let free = spots(line).into_iter().find_map(|at| {
            let text = Text::new(at, &run.label, LABEL);
            let text = text.anchored(Anchor::Middle).centred();
            let patch = text.upright_box().inset(-0.35);
            (!taken.iter().any(|t| t.overlaps(&patch))).then_some((text, patch))
        });
        if let Some((text, patch)) = free {
            out.rect(patch, Style::filled(Role::Paper));
            out.text(text.coloured(run.stroke.role));
            taken.push(patch);
            named.push(i);
        }
    }
    named
}

/// Where a label may stand on a line: its middles first, then every few mm.
pub(super) fn spots(line: &[Point]) -> Vec<Point> {
    const PITCH: f64 = 2.5;
    let mut stretches: Vec<(Point, Point)> = line.windows(2).map(|w| (w[0], w[1])).collect();
    stretches.sort_by(|a, b| b.0.distance(b.1).total_cmp(&a.0.distance(a.1)));
    let middles = stretches.iter().map(|(a, b)| a.towards(*b, 0.5));
    let steps = stretches.iter().flat_map(|(a, b)| {
        let count = (a.distance(*b) / PITCH) as usize;
        (1..count).map(move |i| a.towards(*b, i as f64 / count as f64))
    });
    middles.chain(steps).collect()
}
