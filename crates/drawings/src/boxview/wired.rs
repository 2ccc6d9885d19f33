//! The wires as they lie in the box: seen from above without the lid, and from the
//! front without the front.

use super::callout::{self, Callout, Columns};
use super::model::Model;
use super::scale::{round, said};
use crate::geometry::{Point, Rect};
use crate::layout::{SMALL, STRONG};
use crate::role::Role;
use crate::sheet::{Anchor, Drawing, Stroke, Style, Text, pen};
use crate::text::{Lettering, capital};
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

/// A view of the box with its wires.
pub(crate) struct Wired {
    pub(crate) drawing: Drawing,
    pub(crate) scale: String,
    /// Where it is seen from.
    pub(crate) name: &'static str,
}

/// Above a view, for its name.
const CAPTION: f64 = 7.0;
/// Between the view and the labels beside it, and between name and remark.
const FAN: f64 = 9.0;
const BETWEEN: f64 = 2.0;
/// Wires that lie on one another are drawn so far apart, mm, over so many lanes.
pub(super) const LANE: f64 = 0.75;
pub(super) const LANES: usize = 9;
const LABEL: Lettering = Lettering::regular(2.1);
/// Lines nearer than this to a spot crowd it, mm.
const CROWD: f64 = 1.6;

/// The wires seen from above without the top, and from the front without the front.
pub(crate) fn wired(carpentry: &Carpentry, runs: &[Run], area: Rect) -> [Wired; 2] {
    let lid = carpentry.body.wall(Wall::Top);
    let level = lid.frame.point([0.0; 2], -lid.thickness)[2] - 1e-3;
    let face = carpentry.body.wall(Wall::Front);
    let behind = face.frame.point([0.0; 2], -face.thickness)[1] + 1e-3;
    let scene = Model::new(carpentry, &[]).scene;
    let above = scene.cut([0.0, 0.0, level], [0.0, 0.0, 1.0]);
    let front = scene.cut([0.0, behind, 0.0], [0.0, -1.0, 0.0]);
    let views = [
        (
            "from above",
            "top taken off, the front below",
            Eye::TOP,
            above,
        ),
        ("from the front", "front taken off", Eye::FRONT, front),
    ];
    views.map(|(name, remark, eye, cut)| {
        let (drawing, scale) = view(&cut, &eye, runs, area, [name, remark]);
        Wired {
            drawing,
            scale,
            name,
        }
    })
}

fn view(
    cut: &Scene,
    eye: &Eye,
    runs: &[Run],
    area: Rect,
    [name, remark]: [&str; 2],
) -> (Drawing, String) {
    let mut out = Drawing::default();
    let Some(bounds) = cut.bounds(eye) else {
        return (out, String::new());
    };
    let column = callout::width_wanted(runs.iter().map(|r| r.label.as_str()));
    let size = [0, 1].map(|i| 1000.0 * (bounds.high[i] - bounds.low[i]));
    let beside = 2.0 * (column + FAN);
    let scale = round((size[0], size[1]), (area.w - beside, area.h - CAPTION));
    let [w, h] = size.map(|mm| mm / scale);
    let spare = (area.h - CAPTION - h).max(0.0) / 2.0;
    let rect = Rect::new(area.centre().x - w / 2.0, area.y + CAPTION + spare, w, h);
    let mm = 1000.0 / scale;
    let place = Place {
        origin: Point::new(
            rect.x - mm * bounds.low[0],
            rect.bottom() + mm * bounds.low[1],
        ),
        scale: mm,
    };
    pale(cut, eye, &place, &mut out);
    let columns = Columns {
        left: rect.x - FAN,
        right: rect.right() + FAN,
        wide: column,
        top: area.y + CAPTION,
        bottom: area.bottom(),
    };
    lay(runs, eye, &place, columns, &mut out);
    let at = Point::new(area.x, area.y + STRONG.cap_height());
    let said = capital(&format!("{name}, at {}", said(scale)));
    let next = at.moved(STRONG.width(&said) + BETWEEN, 0.0);
    out.text(Text::new(at, &said, STRONG));
    out.text(Text::new(next, remark, SMALL).coloured(Role::Muted));
    (out, super::scale::said(scale))
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

/// Draws the wires side by side, then their labels: on a line where no other is near,
/// else beside the view, led to the clearest spot of the wire.
fn lay(runs: &[Run], eye: &Eye, place: &Place, columns: Columns, out: &mut Drawing) {
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
    let mut written: Vec<(Text, Rect, Role)> = Vec::new();
    let mut led = Vec::new();
    for (i, (line, run)) in lines.iter().zip(runs).enumerate() {
        let crowd = |at: &Point| {
            let others = lines.iter().enumerate().filter(|(other, _)| *other != i);
            others.filter(|(_, other)| passes(other, *at)).count()
        };
        let mut spots = spots(line);
        if spots.is_empty() {
            spots.extend(line.first());
        }
        let free = spots.iter().filter(|at| crowd(at) == 0).find_map(|at| {
            let text = Text::new(*at, &run.label, LABEL);
            let text = text.anchored(Anchor::Middle).centred();
            let patch = text.upright_box().inset(-0.35);
            let apart = |(_, other, _): &(Text, Rect, Role)| !other.overlaps(&patch);
            (clear(&lines, i, &patch) && written.iter().all(apart)).then_some((text, patch))
        });
        let role = run.stroke.role;
        if let Some((text, patch)) = free {
            written.push((text, patch, role));
        } else if let Some(at) = spots.iter().min_by_key(|at| crowd(at)) {
            led.push(Callout {
                at: *at,
                text: run.label.clone(),
                role,
            });
        }
    }
    callout::draw(&led, columns, out);
    for callout in &led {
        let edge = Stroke::new(Role::Ink, pen::FINE);
        out.circle(callout.at, 0.5, Style::filled(callout.role).edged(edge));
    }
    for (text, patch, role) in written {
        let edge = Stroke::new(role, pen::FINE);
        out.rect(patch, Style::filled(Role::Paper).edged(edge));
        out.text(text);
    }
}

/// Whether a line passes near a point.
fn passes(line: &[Point], at: Point) -> bool {
    let near = Rect::new(at.x - CROWD, at.y - CROWD, 2.0 * CROWD, 2.0 * CROWD);
    line.windows(2).any(|w| near.clip(w[0], w[1]).is_some())
}

/// Whether no other line runs below a patch.
fn clear(lines: &[Vec<Point>], own: usize, patch: &Rect) -> bool {
    let others = lines.iter().enumerate().filter(|(i, _)| *i != own);
    let mut stretches = others.flat_map(|(_, line)| line.windows(2));
    !stretches.any(|w| patch.clip(w[0], w[1]).is_some())
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
