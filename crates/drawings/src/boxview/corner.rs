//! Corners at full size: a section square to the edge, cut out of the panels'
//! own solids.

use super::scale::mm;
use crate::geometry::{Point, Rect};
use crate::layout::SMALL;
use crate::math;
use crate::path::Path;
use crate::role::Role;
use crate::sheet::{Drawing, Group, Stroke, Style, Text, pen};
use crate::view::{Eye, Flat, Look, Place, Scene, hatch};
use wood::vector::{Vector, add, cross, dot, scale, sub, unit};
use wood::{Body, Edge, EdgeForm, Joint, PanelId, Plane, Wall};

/// One kind of corner.
pub(crate) struct Corner {
    /// Edges that are made like this.
    pub(crate) edges: Vec<Edge>,
    /// What is done to its outer edge.
    pub(crate) form: Option<EdgeForm>,
    /// How it is joined.
    pub(crate) joint: Joint,
    /// Thicknesses of both panels in m.
    pub(crate) thick: [f64; 2],
    /// Length of wood on wood across the joint, in m.
    pub(crate) glue_line: f64,
    sections: [Vec<Vec<Flat>>; 2],
}

/// Every kind of corner of a box once.
pub(crate) fn corners(body: &Body) -> Vec<Corner> {
    let mut out: Vec<Corner> = Vec::new();
    for (edge, joint) in Edge::ALL.into_iter().zip(body.plan.joints) {
        let form = body.plan.edges.iter().find(|(e, _)| *e == edge);
        let Some(found) = corner(body, edge, joint, form.map(|f| f.1)) else {
            continue;
        };
        match out.iter_mut().find(|c| alike(c, &found)) {
            Some(known) => known.edges.push(edge),
            None => out.push(found),
        }
    }
    out
}

/// Whether two corners look the same to the hundredth of a millimetre and the square
/// millimetre, if need be turned over.
fn alike(a: &Corner, b: &Corner) -> bool {
    let same_form = a.form == b.form;
    let size = |c: &Corner, i: usize| c.sections[i].iter().map(|l| area(l)).sum::<f64>();
    let as_large = |x: f64, y: f64| math::abs(x - y) < 1e-6;
    let close = |x: f64, y: f64| math::abs(x - y) < 1e-5;
    let kind = core::mem::discriminant(&a.joint) == core::mem::discriminant(&b.joint);
    let (ta, tb) = (a.thick, b.thick);
    let straight = close(ta[0], tb[0]) && close(ta[1], tb[1]) && as_large(size(a, 0), size(b, 0));
    let over = close(ta[0], tb[1]) && close(ta[1], tb[0]) && as_large(size(a, 0), size(b, 1));
    same_form && kind && close(a.glue_line, b.glue_line) && (straight || over)
}

fn area(l: &[Flat]) -> f64 {
    let n = l.len();
    let twice: f64 = (0..n)
        .map(|i| l[i][0] * l[(i + 1) % n][1] - l[i][1] * l[(i + 1) % n][0])
        .sum();
    math::abs(twice) / 2.0
}

/// So much of each panel is shown, in m.
const SHOWN: f64 = 0.050;

fn corner(body: &Body, edge: Edge, joint: Joint, form: Option<EdgeForm>) -> Option<Corner> {
    let block = &body.plan.block;
    let (a, b) = (block.plane(edge.first), block.plane(edge.second));
    let along = unit(cross(a.normal, b.normal));
    let middle = scale(
        body.room
            .vertices
            .iter()
            .fold([0.0; 3], |sum, p| add(sum, *p)),
        1.0 / body.room.vertices.len().max(1) as f64,
    );
    let across = Plane {
        normal: along,
        offset: dot(along, middle),
    };
    let tip = Plane::meet(&a, &b, &across)?;
    let eye = eye(&a, &b, along);
    let sections = [edge.first, edge.second].map(|wall| section(body, wall, tip, &eye));
    let thick = [edge.first, edge.second].map(|w| body.wall(w).thickness);
    let glue_line = touching(&sections[0], &sections[1]);
    Some(Corner {
        edges: vec![edge],
        form,
        joint,
        thick,
        glue_line,
        sections,
    })
}

/// Looking along the edge, the first panel to the right and the second hanging down.
fn eye(a: &Plane, b: &Plane, along: Vector) -> Eye {
    let in_a = cross(a.normal, along);
    let right = if dot(in_a, b.normal) < 0.0 {
        in_a
    } else {
        scale(in_a, -1.0)
    };
    let up = a.normal;
    Eye {
        right,
        up,
        near: cross(right, up),
    }
}

/// Outlines of a panel cut square to the edge, about its outer corner; one for each
/// of the pieces it is made of.
fn section(body: &Body, wall: Wall, tip: Vector, eye: &Eye) -> Vec<Vec<Flat>> {
    let Some(panel) = body.panel(PanelId::Wall(wall)) else {
        return Vec::new();
    };
    let mut scene = Scene::default();
    for piece in &panel.pieces {
        let thing = scene.thing(Look::Wood, pen::MEDIUM);
        let corners = |f: &wood::Face| f.corners.iter().map(|i| piece.vertices[*i]).collect();
        scene.closed(thing, piece.faces.iter().map(corners).collect());
    }
    let cut = scene.cut(tip, eye.near);
    let caps = cut.facets.iter().filter(|f| f.cut);
    let own = |p: &Vector| {
        let arm = sub(*p, tip);
        [dot(arm, eye.right), dot(arm, eye.up)]
    };
    caps.flat_map(|f| &f.loops)
        .map(|l| kept_near(&l.iter().map(own).collect::<Vec<Flat>>()))
        .filter(|l| l.len() > 2)
        .collect()
}

/// Sides of outlines.
fn sides(loops: &[Vec<Flat>]) -> impl Iterator<Item = (usize, Flat, Flat)> + '_ {
    loops
        .iter()
        .enumerate()
        .flat_map(|(k, l)| (0..l.len()).map(move |i| (k, l[i], l[(i + 1) % l.len()])))
}

/// Where the stretch from `c` to `d` runs along that from `a` to `b`, as shares of the
/// latter; within a hundredth of a millimetre.
fn shared(a: Flat, b: Flat, c: Flat, d: Flat) -> Option<[f64; 2]> {
    let ab = [b[0] - a[0], b[1] - a[1]];
    let long = math::hypot(ab[0], ab[1]);
    if long < 1e-7 {
        return None;
    }
    let off = |p: Flat| ((p[0] - a[0]) * ab[1] - (p[1] - a[1]) * ab[0]) / long;
    if math::abs(off(c)) > 1e-5 || math::abs(off(d)) > 1e-5 {
        return None;
    }
    let at = |p: Flat| ((p[0] - a[0]) * ab[0] + (p[1] - a[1]) * ab[1]) / (long * long);
    let (s, t) = (at(c), at(d));
    let (low, high) = (s.min(t).max(0.0), s.max(t).min(1.0));
    ((high - low) * long > 1e-5).then_some([low, high])
}

/// Length over which two sets of outlines run along one another.
fn touching(a: &[Vec<Flat>], b: &[Vec<Flat>]) -> f64 {
    contacts(a, b)
        .iter()
        .map(|[p, q]| math::hypot(q[0] - p[0], q[1] - p[1]))
        .sum()
}

fn contacts(a: &[Vec<Flat>], b: &[Vec<Flat>]) -> Vec<[Flat; 2]> {
    let mut out = Vec::new();
    for (_, p, q) in sides(a) {
        for (_, r, s) in sides(b) {
            if let Some([low, high]) = shared(p, q, r, s) {
                let at = |t: f64| [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t];
                out.push([at(low), at(high)]);
            }
        }
    }
    out
}

/// A panel's outline without the lines between its own pieces.
fn outline(loops: &[Vec<Flat>]) -> Vec<[Flat; 2]> {
    let mut out = Vec::new();
    for (k, p, q) in sides(loops) {
        let mut inner: Vec<[f64; 2]> = sides(loops)
            .filter(|(other, _, _)| *other != k)
            .filter_map(|(_, r, s)| shared(p, q, r, s))
            .collect();
        inner.sort_by(|x, y| x[0].total_cmp(&y[0]));
        let at = |t: f64| [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t];
        let mut from = 0.0;
        for [low, high] in inner {
            if low > from + 1e-6 {
                out.push([at(from), at(low)]);
            }
            from = from.max(high);
        }
        if from < 1.0 - 1e-6 {
            out.push([at(from), at(1.0)]);
        }
    }
    out
}

impl Corner {
    /// Width and height of the drawing in mm.
    pub(crate) const SIZE: (f64, f64) = (1000.0 * SHOWN + 10.0, 1000.0 * SHOWN + 10.0);

    /// Draws it at full size, its outer corner near the top left of the area.
    pub(crate) fn draw(&self, at: Point, out: &mut Drawing) {
        let place = Place {
            origin: at.moved(8.0, 8.0),
            scale: 1000.0,
        };
        let window = Rect::new(at.x, at.y, Self::SIZE.0, Self::SIZE.1).inset(1.0);
        let mut inner = Drawing::default();
        for (i, loops) in self.sections.iter().enumerate() {
            let role = [Role::Wood, Role::WoodShade][i];
            for l in loops {
                let points: Vec<Point> = l.iter().map(|p| place.at(*p)).collect();
                inner.path(Path::polygon(&points), Style::filled(role));
            }
            let angle = [0.25, 0.75][i] * core::f64::consts::PI;
            let fine = Stroke::new(Role::Muted, pen::HAIR);
            for [a, b] in hatch(loops, angle, 0.0018) {
                inner.line(place.at(a), place.at(b), fine);
            }
        }
        for loops in &self.sections {
            for [a, b] in outline(loops) {
                let edge = Stroke::new(Role::Ink, pen::BOLD);
                inner.line(place.at(a), place.at(b), edge);
            }
        }
        let glue = Stroke::new(Role::Accent, pen::FRAME);
        for [a, b] in contacts(&self.sections[0], &self.sections[1]) {
            inner.line(place.at(a), place.at(b), glue);
        }
        out.group(Group::Clip(window), inner);
        self.thicknesses(&place, out);
    }

    /// The thickness of either panel, written beside it.
    fn thicknesses(&self, place: &Place, out: &mut Drawing) {
        let [first, second] = self.thick.map(|t| format!("{} mm", mm(t)));
        let under = crossings(&self.sections[0], 0, 0.030).fold(0.0, f64::min);
        let beside = crossings(&self.sections[1], 1, -0.040).fold(0.0, f64::max);
        let width = SMALL.width(&first) / 1000.0;
        let lowest = crossings(&self.sections[0], 0, 0.030 + width).fold(under, f64::min);
        let at = place
            .at([0.030, lowest])
            .moved(0.0, 1.6 + SMALL.cap_height());
        out.text(Text::new(at, &first, SMALL));
        let lower = crossings(&self.sections[1], 1, -0.038).fold(beside, f64::max);
        let at = place.at([lower, -0.040]).moved(1.6, 0.0);
        out.text(Text::new(at, &second, SMALL));
    }
}

/// Where outlines cross a straight line along which coordinate `axis` is `at`: the other
/// coordinate.
fn crossings(loops: &[Vec<Flat>], axis: usize, at: f64) -> impl Iterator<Item = f64> + '_ {
    let other = 1 - axis;
    sides(loops)
        .filter(move |(_, a, b)| (a[axis] > at) != (b[axis] > at))
        .map(move |(_, a, b)| {
            a[other] + (at - a[axis]) / (b[axis] - a[axis]) * (b[other] - a[other])
        })
}

/// What of an outline lies near the corner, a little more than is shown: how far the
/// panels go on makes no other kind of corner.
fn kept_near(l: &[Flat]) -> Vec<Flat> {
    let far = 1.2 * SHOWN;
    let mut points = l.to_vec();
    for (axis, sign) in [(0, 1.0), (0, -1.0), (1, 1.0), (1, -1.0)] {
        let mut kept = Vec::new();
        for i in 0..points.len() {
            let (a, b) = (points[i], points[(i + 1) % points.len()]);
            let (ha, hb) = (far - sign * a[axis], far - sign * b[axis]);
            if ha >= 0.0 {
                kept.push(a);
            }
            if (ha < 0.0) != (hb < 0.0) {
                let t = ha / (ha - hb);
                kept.push([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
            }
        }
        points = kept;
    }
    points
}
