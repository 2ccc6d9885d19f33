//! Corners at full size, each kind once: a section square to the edge, cut out of the
//! panels' own solids.

mod drawn;
mod section;

use crate::math;
use crate::view::{Eye, Flat};
use section::{Section, outline, section, touching};
use wood::vector::{Vector, add, cross, dot, length, scale, unit};
use wood::{BoardKind, Body, Edge, EdgeForm, Joint, PanelId, Plane, Wall};

/// One kind of corner.
pub(crate) struct Corner {
    /// Edges that are made like this; the first is the one that is drawn.
    pub(crate) edges: Vec<Edge>,
    /// What is done to its outer edge.
    pub(crate) form: Option<EdgeForm>,
    /// How it is joined.
    pub(crate) joint: Joint,
    /// The wall that is screwed on and comes off again, so that no glue goes here.
    pub(crate) loose: Option<Wall>,
    /// Angle between both panels inside, in rad.
    pub(crate) angle: f64,
    /// Thicknesses of both panels in m.
    pub(crate) thick: [f64; 2],
    /// How far the outer faces of both lie behind the faces of the block, in m.
    pub(crate) setback: [f64; 2],
    /// Length of wood on wood across the joint, in m.
    pub(crate) glue_line: f64,
    /// Both panels cut through.
    sections: [Section; 2],
    /// Cleats in the corner cut through.
    cleats: Section,
}

/// Every kind of corner of a box once; `loose` is a wall that is screwed on.
pub(crate) fn corners(body: &Body, loose: Option<Wall>) -> Vec<Corner> {
    let mut out: Vec<Corner> = Vec::new();
    for (edge, joint) in Edge::ALL.into_iter().zip(body.plan.joints) {
        let Some(found) = corner(body, edge, joint, loose) else {
            continue;
        };
        match out.iter_mut().find(|c| c.is_like(&found)) {
            Some(known) => known.edges.push(edge),
            None => out.push(found),
        }
    }
    out
}

fn corner(body: &Body, edge: Edge, joint: Joint, loose: Option<Wall>) -> Option<Corner> {
    let walls = [edge.first, edge.second];
    let planes = walls.map(|wall| body.plan.block.plane(wall));
    let turned = cross(planes[0].normal, planes[1].normal);
    let along = unit(turned);
    let facing = dot(planes[0].normal, planes[1].normal);
    let angle = core::f64::consts::PI - math::atan2(length(turned), facing);
    let across = Plane {
        normal: along,
        offset: dot(along, middle(body)),
    };
    let tip = Plane::meet(&planes[0], &planes[1], &across)?;
    let eye = eye(&planes[0], &planes[1], along);
    let sections = walls.map(|wall| section(body, PanelId::Wall(wall), tip, &eye, angle));
    let boards = body.plan.boards.iter().enumerate();
    let cleats = boards.filter(|(_, board)| board.kind == BoardKind::Cleat);
    Some(Corner {
        edges: vec![edge],
        form: (body.plan.edges.iter())
            .find(|(e, _)| *e == edge)
            .map(|f| f.1),
        joint,
        loose: loose.filter(|wall| walls.contains(wall)),
        angle,
        thick: walls.map(|wall| body.wall(wall).thickness),
        setback: walls.map(|wall| body.plan.walls[wall.index()].setback),
        glue_line: touching(&sections[0], &sections[1]),
        sections,
        cleats: cleats
            .flat_map(|(i, _)| section(body, PanelId::Board(i), tip, &eye, angle))
            .collect(),
    })
}

/// Middle of the inside: where an edge is cut.
fn middle(body: &Body) -> Vector {
    let corners = &body.room.vertices;
    let sum = corners.iter().fold([0.0; 3], |sum, p| add(sum, *p));
    scale(sum, 1.0 / corners.len().max(1) as f64)
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

impl Corner {
    /// Whether another is made in the same way and looks the same to the hundredth of a
    /// millimetre, if need be turned over.
    fn is_like(&self, other: &Self) -> bool {
        let kind = |c: &Self| core::mem::discriminant(&c.joint);
        let made = self.form == other.form
            && kind(self) == kind(other)
            && self.loose.is_some() == other.loose.is_some()
            && math::abs(self.angle - other.angle) < 1e-6;
        let mirrored = other.turned_over();
        made && (self.fits(&other.sections, &other.cleats) || self.fits(&mirrored.0, &mirrored.1))
    }

    fn fits(&self, sections: &[Section; 2], cleats: &Section) -> bool {
        let panels = self.sections.iter().zip(sections);
        panels.into_iter().all(|(a, b)| congruent(a, b)) && congruent(&self.cleats, cleats)
    }

    /// What it cuts, mirrored so that both panels change places.
    fn turned_over(&self) -> ([Section; 2], Section) {
        let (sin, cos) = (math::sin(self.angle), math::cos(self.angle));
        let over = |[x, y]: Flat| [x * cos - y * sin, -x * sin - y * cos];
        let section = |s: &Section| -> Section {
            s.iter()
                .map(|l| l.iter().copied().map(over).collect())
                .collect()
        };
        let [a, b] = self.sections.each_ref().map(section);
        ([b, a], section(&self.cleats))
    }
}

/// Outlines closer than this, in m, are the same.
const SAME: f64 = 1e-5;

/// Whether two sections have one outline, near the corner.
fn congruent(a: &Section, b: &Section) -> bool {
    let covers = |a: &Section, b: &Section| {
        let sides = outline(b);
        let mut ends = outline(a).into_iter().flatten();
        ends.all(|p| sides.iter().any(|[q, r]| distance(p, *q, *r) < SAME))
    };
    covers(a, b) && covers(b, a)
}

/// From a point to a stretch.
fn distance(p: Flat, a: Flat, b: Flat) -> f64 {
    let (along, to) = ([b[0] - a[0], b[1] - a[1]], [p[0] - a[0], p[1] - a[1]]);
    let long = along[0] * along[0] + along[1] * along[1];
    let t = (along[0] * to[0] + along[1] * to[1]) / long.max(1e-18);
    let t = t.clamp(0.0, 1.0);
    math::hypot(to[0] - t * along[0], to[1] - t * along[1])
}
