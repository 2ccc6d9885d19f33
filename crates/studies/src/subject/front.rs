//! The face the sound comes from: for the baffle, the distance between the
//! sides, and the picture.

use super::EnclosureSubject;
use crate::carpentry::{Opening, TUBE_WALL, extent, fit, middle};
use crate::vary::Draw;
use wood::Wall;
use wood::vector::Vector;

/// Something on the front.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// What it is.
    pub kind: SpotKind,
    /// From the middle of the front, to the right, in m.
    pub x: f64,
    /// From the middle of the front, upwards, in m.
    pub y: f64,
    /// Outside diameter in m.
    pub diameter: f64,
    /// Diameter of the hole in m.
    pub cutout: f64,
}

/// Kind of thing on the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpotKind {
    /// A driver of this group.
    Driver(usize),
    /// A passive radiator.
    Radiator,
    /// A vent.
    Vent,
}

/// The front of the box.
#[derive(Clone, Debug, PartialEq)]
pub struct Front {
    /// Width in m.
    pub width: f64,
    /// Height in m; along the slope where it leans.
    pub height: f64,
    /// Which wall it is: the front, unless all drivers are elsewhere.
    pub wall: Wall,
    /// What sits on it.
    pub spots: Vec<Spot>,
    /// Whether all openings found room side by side within their walls.
    pub fits: bool,
    spacing: f64,
}

impl Front {
    pub(super) fn new(enclosure: &EnclosureSubject) -> Self {
        let plan = &enclosure.plan;
        let block = plan.hull(&Draw::Nominal).block;
        let wall = sounding(&plan.openings);
        let [width, height] = extent(&block, wall);
        let centre = middle(&block, wall);
        let spot = |opening: &Opening| Spot {
            kind: opening.kind,
            x: opening.at[0] - centre[0],
            y: opening.at[1] - centre[1],
            diameter: opening.diameter,
            cutout: match opening.kind {
                SpotKind::Vent => opening.cutout - 2.0 * TUBE_WALL,
                SpotKind::Driver(_) | SpotKind::Radiator => opening.cutout,
            },
        };
        let drivers = plan.openings.iter().filter(|opening| is_driver(opening));
        Self {
            width,
            height,
            wall,
            spots: plan
                .openings
                .iter()
                .filter(|opening| opening.wall == wall)
                .map(spot)
                .collect(),
            fits: Wall::ALL
                .into_iter()
                .all(|wall| fit(&plan.openings, &block, wall)),
            spacing: spacing(
                drivers.map(|opening| block.frame(opening.wall).point(opening.at, 0.0)),
            ),
        }
    }

    /// Distance between the middles of the two sides' drivers in m; 0 for a mono box.
    #[must_use]
    pub const fn spacing(&self) -> f64 {
        self.spacing
    }
}

const fn is_driver(opening: &Opening) -> bool {
    matches!(opening.kind, SpotKind::Driver(_))
}

/// The wall the sound comes from: the front where any driver is on it, else that of the first.
fn sounding(openings: &[Opening]) -> Wall {
    let mut drivers = openings.iter().filter(|opening| is_driver(opening));
    let on_front = drivers.clone().any(|driver| driver.wall == Wall::Front);
    let first = drivers.next().map(|driver| driver.wall);
    if on_front {
        Wall::Front
    } else {
        first.unwrap_or(Wall::Front)
    }
}

/// Between the first and the last, along the axis they are furthest apart on.
fn spacing(mut drivers: impl Iterator<Item = Vector>) -> f64 {
    let Some(first) = drivers.next() else {
        return 0.0;
    };
    let last = drivers.last().unwrap_or(first);
    let apart = (0..3).map(|axis| (first[axis] - last[axis]).abs());
    apart.fold(0.0, f64::max)
}
