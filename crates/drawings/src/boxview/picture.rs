//! The box for a page to work on: seen one of five ways, with what can be taken hold of.

use super::lifted::{closed, lid_off};
use super::model::Model;
use super::motion::long;
use super::views::{self, View};
use crate::geometry::{Point, Rect};
use crate::sheet::Drawing;
use crate::view::{Eye, Flat, Place};
use studies::carpentry::{Carpentry, PartKind};
use wood::Wall;
use wood::vector::Vector;

/// How the box is looked at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Look {
    /// From the right, the front and above, the lid lifted.
    #[default]
    LidOff,
    /// The same with the lid on.
    Closed,
    /// As the listener sees it.
    Front,
    /// Cut through the depth, seen from the right.
    Section,
    /// From above, the top taken off.
    Above,
}

/// The box, drawn.
#[derive(Clone, Debug)]
pub struct Picture {
    /// What is drawn.
    pub drawing: Drawing,
    /// The parts that can be seen, far ones first.
    pub grips: Vec<Grip>,
    /// Width, height and depth over the walls, as far as they are seen.
    pub measures: Vec<Measure>,
}

/// A part as it can be taken hold of.
#[derive(Clone, Debug, PartialEq)]
pub struct Grip {
    /// Its index in the list of parts.
    pub part: usize,
    /// A convex outline around it.
    pub outline: Vec<Point>,
    /// Which of equal parts of its table it is, from 0.
    pub index: usize,
    /// How the design says where it is.
    pub said: Said,
    /// All lengths of its place, in m, in the order of the design file.
    pub at: Vec<f64>,
    /// Which of them can be moved here, and how.
    pub runs: Vec<Motion>,
}

/// How a design says where the parts of a table are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Said {
    /// One place for each of equal parts, in a list.
    Each,
    /// One place; equal parts follow it.
    Once,
    /// By how far it is from the edges.
    Inset,
}

/// One length of a place that can be moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motion {
    /// Which of the lengths.
    pub length: usize,
    /// How far a point runs on the drawing, to the right and down, in mm for each m.
    pub run: (f64, f64),
    /// Least and greatest value in m that keep the part within the box.
    pub within: (f64, f64),
}

/// A dimension over the walls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measure {
    /// Width, height or depth: 0, 1 or 2.
    pub length: usize,
    /// Where its far end is drawn.
    pub end: Point,
    /// How far that end runs on the drawing, to the right and down, in mm for each m.
    pub run: (f64, f64),
    /// Its value in m.
    pub value: f64,
}

/// Draws the box within `area`.
#[must_use]
pub fn pictured(carpentry: &Carpentry, look: Look, area: Rect) -> Picture {
    match look {
        Look::LidOff | Look::Closed => {
            let (model, seen) = if look == Look::LidOff {
                lid_off(carpentry, area)
            } else {
                closed(carpentry, area)
            };
            let hold = Hold {
                carpentry,
                model: &model,
                eye: seen.eye,
                place: seen.place,
            };
            hold.picture(seen.drawing, look == Look::LidOff)
        }
        Look::Front | Look::Section | Look::Above => {
            let View {
                drawing,
                model,
                eye,
                place,
            } = match look {
                Look::Front => views::front(carpentry, area),
                Look::Section => views::section(carpentry, area),
                _ => views::above(carpentry, area),
            };
            let hold = Hold {
                carpentry,
                model: &model,
                eye,
                place,
            };
            hold.picture(drawing, look != Look::Front)
        }
    }
}

/// What is needed to find where things are seen.
pub(super) struct Hold<'a> {
    pub(super) carpentry: &'a Carpentry,
    model: &'a Model,
    eye: Eye,
    place: Place,
}

impl Hold<'_> {
    /// What is drawn, and what of it can be taken hold of; the inside too where it shows.
    fn picture(&self, drawing: Drawing, open: bool) -> Picture {
        let mut grips: Vec<(f64, Grip)> = (0..self.carpentry.parts.len())
            .filter_map(|part| self.grip(part, open))
            .collect();
        grips.sort_by(|a, b| a.0.total_cmp(&b.0));
        Picture {
            drawing,
            grips: grips.into_iter().map(|(_, grip)| grip).collect(),
            measures: self.measures(),
        }
    }

    /// A part, and how near it is.
    fn grip(&self, part: usize, open: bool) -> Option<(f64, Grip)> {
        let placed = &self.carpentry.parts[part];
        let wall = placed.part.sits_in;
        if wall.is_none() && !open && !matches!(placed.kind, PartKind::Handle | PartKind::Foot) {
            return None;
        }
        let stands_out = matches!(placed.kind, PartKind::Foot);
        if wall.is_some_and(|wall| self.faces_away(wall)) && !open && !stands_out {
            return None;
        }
        let (low, high) = self.model.extent(part)?;
        let outline = hull(&self.corners(part));
        let same = self.carpentry.parts[..part].iter();
        let index = same.filter(|other| other.table == placed.table).count();
        let near = self
            .eye
            .see(core::array::from_fn(|i| (low[i] + high[i]) / 2.0))[2];
        let said = match placed.kind {
            PartKind::Driver | PartKind::Radiator | PartKind::Vent => Said::Each,
            PartKind::Foot => Said::Inset,
            _ => Said::Once,
        };
        let (at, runs) = match wall {
            Some(wall) => self.on_wall(wall, placed, index),
            None => self.in_box(low, high),
        };
        let grip = Grip {
            part,
            outline,
            index,
            said,
            at,
            runs,
        };
        Some((near, grip))
    }

    pub(super) fn faces_away(&self, wall: Wall) -> bool {
        let out = self.carpentry.body.wall(wall).frame.out;
        wood::vector::dot(out, self.eye.near) < 1e-6
    }

    /// The points of a part on the drawing.
    fn corners(&self, part: usize) -> Vec<Point> {
        let things = &self.model.parts[part];
        let facets = self.model.scene.facets.iter();
        let own = facets.filter(|facet| things.contains(&facet.thing));
        own.flat_map(|facet| facet.loops.iter().flatten())
            .map(|point| self.at(*point))
            .collect()
    }

    fn at(&self, point: Vector) -> Point {
        let [x, y, _] = self.eye.see(point);
        let flat: Flat = [x, y];
        self.place.at(flat)
    }

    /// How far a point runs on the drawing that moves along a direction, in mm for each m.
    pub(super) fn run(&self, along: Vector) -> (f64, f64) {
        let (from, to) = (self.at([0.0; 3]), self.at(along));
        (to.x - from.x, to.y - from.y)
    }

    /// Ends of the outside dimensions.
    fn measures(&self) -> Vec<Measure> {
        let block = &self.carpentry.body.plan.block;
        let [w, h, d] = [block.width, block.height, block.depth];
        let ends = [
            (w, [w, 0.0, 0.0], [1.0, 0.0, 0.0]),
            (h, [0.0, 0.0, h], [0.0, 0.0, 1.0]),
            (d, [w, d, 0.0], [0.0, 1.0, 0.0]),
        ];
        let measures = ends.into_iter().enumerate();
        measures
            .map(|(length, (value, end, along))| Measure {
                length,
                end: self.at(end),
                run: self.run(along),
                value,
            })
            .filter(|measure| long(measure.run))
            .collect()
    }
}

/// The convex outline around points, clockwise as seen (Andrew's monotone chain).
fn hull(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let chain = |points: &mut dyn Iterator<Item = Point>| {
        let mut out: Vec<Point> = Vec::new();
        for point in points {
            while let [.., a, b] = out[..]
                && (b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x) <= 1e-9
            {
                out.pop();
            }
            out.push(point);
        }
        out.pop();
        out
    };
    let mut out = chain(&mut sorted.iter().copied());
    out.extend(chain(&mut sorted.iter().rev().copied()));
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hull_leaves_out_what_lies_within() {
        let points = [
            (0.0, 0.0),
            (4.0, 0.0),
            (2.0, 1.0),
            (4.0, 3.0),
            (0.0, 3.0),
            (2.0, 3.0),
        ];
        let points = points.map(|(x, y)| Point::new(x, y));
        let outline = hull(&points);
        assert_eq!(outline.len(), 4, "{outline:?}");
        assert!(!outline.contains(&points[2]));
    }
}
