//! The box for a page to work on: seen one of five ways, with what can be taken hold of.

use super::lifted::{closed, lid_off};
use super::model::Model;
use super::views::{self, View};
use crate::geometry::{Point, Rect};
use crate::sheet::Drawing;
use crate::view::{Eye, Flat, Place};
use studies::carpentry::{Carpentry, PartKind};
use wood::vector::Vector;
use wood::{Block, Purpose, Wall};

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
    /// Whether it is placed on a wall, not in the box.
    pub on_wall: bool,
    /// All lengths of its place, in m, in the order of the design file.
    pub at: Vec<f64>,
    /// Which of them can be moved here, and how.
    pub runs: Vec<Motion>,
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
struct Hold<'a> {
    carpentry: &'a Carpentry,
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
        if wall.is_some_and(|wall| self.faces_away(wall)) && !open {
            return None;
        }
        let (low, high) = self.model.extent(part)?;
        let outline = hull(&self.corners(part));
        let same = self.carpentry.parts[..part].iter();
        let index = same.filter(|other| other.table == placed.table).count();
        let near = self
            .eye
            .see(core::array::from_fn(|i| (low[i] + high[i]) / 2.0))[2];
        let (at, runs) = match wall {
            Some(wall) => self.on_wall(wall, &placed.table, index),
            None => self.in_box(low, high),
        };
        let runs = match placed.kind {
            PartKind::Control | PartKind::Handle | PartKind::Foot | PartKind::Grille => Vec::new(),
            _ => runs,
        };
        let grip = Grip {
            part,
            outline,
            index,
            on_wall: wall.is_some(),
            at,
            runs,
        };
        Some((near, grip))
    }

    fn faces_away(&self, wall: Wall) -> bool {
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
    fn run(&self, along: Vector) -> (f64, f64) {
        let (from, to) = (self.at([0.0; 3]), self.at(along));
        (to.x - from.x, to.y - from.y)
    }

    /// Of a part in a wall: across and up.
    fn on_wall(&self, wall: Wall, table: &str, index: usize) -> (Vec<f64>, Vec<Motion>) {
        let plan = &self.carpentry.body.plan;
        let mut holes = self.carpentry.holes.iter().zip(&plan.holes);
        let hole = holes.find(|(origin, hole)| {
            let own = origin.table == table && origin.index == index && hole.wall == wall;
            own && hole.purpose != Purpose::Fastening
        });
        let Some((_, hole)) = hole else {
            return (Vec::new(), Vec::new());
        };
        if self.faces_away(wall) && wall != Wall::Front {
            return (hole.at.to_vec(), Vec::new());
        }
        let frame = plan.block.frame(wall);
        let [wide, high] = sides(&plan.block, wall);
        let runs = [(0, frame.across, wide), (1, frame.up, high)];
        let runs = runs.map(|(length, along, most)| Motion {
            length,
            run: self.run(along),
            within: (0.0, most),
        });
        (hole.at.to_vec(), seen(runs))
    }

    /// Of a part in the box: across, up and back from the inner corner.
    fn in_box(&self, low: Vector, high: Vector) -> (Vec<f64>, Vec<Motion>) {
        let plan = &self.carpentry.body.plan;
        let walls = |wall: Wall| {
            let side = &plan.walls[wall.index()];
            side.setback + side.thickness
        };
        let inner = [walls(Wall::Left), walls(Wall::Front), walls(Wall::Bottom)];
        let outer = [
            plan.block.width - walls(Wall::Right),
            plan.block.depth - walls(Wall::Back),
            plan.block.height - walls(Wall::Top),
        ];
        // The file says width, height, depth; the box runs right, back, up.
        let axes = [0, 2, 1];
        let at = axes.map(|axis| low[axis] - inner[axis]);
        let runs: [Motion; 3] = core::array::from_fn(|length| {
            let axis = axes[length];
            let mut along = [0.0; 3];
            along[axis] = 1.0;
            Motion {
                length,
                run: self.run(along),
                within: (
                    0.0,
                    (outer[axis] - inner[axis] - (high[axis] - low[axis])).max(0.0),
                ),
            }
        });
        let mut runs = seen(runs);
        if runs.len() > 2 {
            // In a slanting view things are pushed about on the floor.
            runs.retain(|run| run.length != 1);
        }
        (at.to_vec(), runs)
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

/// Width and height of a side of the box, corners before they are rounded.
const fn sides(block: &Block, wall: Wall) -> [f64; 2] {
    match wall {
        Wall::Front | Wall::Back => [block.width, block.height],
        Wall::Left | Wall::Right => [block.depth, block.height],
        Wall::Top | Wall::Bottom => [block.width, block.depth],
    }
}

/// Those that run far enough on the drawing to be moved there.
fn seen<const N: usize>(runs: [Motion; N]) -> Vec<Motion> {
    runs.into_iter().filter(|run| long(run.run)).collect()
}

/// Whether something that runs so far, in mm for each m, can be seen to move.
fn long((x, y): (f64, f64)) -> bool {
    x.abs() + y.abs() > 20.0
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
