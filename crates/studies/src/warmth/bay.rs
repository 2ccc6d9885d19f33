//! A battery in a bay of its own: the air of the box does not reach it.

use super::room::{BATTERY_SIDES, face, sides};
use crate::carpentry::{Hull, Thicknesses};
use crate::subject::Subject;
use physics::warmth::wood_conductivity;
use wood::Wall;

/// Between the battery and the walls of a bay that nobody drew, in m.
const LOOSE: f64 = 0.01;

/// A face of the bay nearer to a wall of the box than this, in m, is that wall:
/// thinner boards are not made into partitions.
const NEAR: f64 = 0.005;

/// Film on each side of a partition in W/(m²·K), convection and radiation
/// together: common practice, no source.
const FILM: f64 = 8.0;

/// The battery's bay, closed but for small holes, whose draught is not counted.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bay {
    /// Width, height and depth of its room in m.
    size: [f64; 3],
    /// Walls of the box that are its own.
    shared: [bool; 6],
    /// W/(m²·K) through its other walls, films included.
    partition: f64,
}

impl Bay {
    /// The bay of a design; `None` where the battery stands in the box's own air.
    pub(super) fn of(subject: &Subject, hull: &Hull, thick: &Thicknesses) -> Option<Self> {
        let design = &subject.project.design;
        if !design.battery.vented_bay.value {
            return None;
        }
        let inside = hull.inside_size();
        let (size, shared) = match &design.bay {
            Some(bay) => {
                let size = [bay.size.width, bay.size.height, bay.size.depth].map(|side| side.si);
                let at = [bay.at[0].si, bay.at[1].si, bay.at[2].si];
                (
                    size,
                    Wall::ALL.map(|wall| gap(wall, at, size, inside) < NEAR),
                )
            }
            None => {
                let battery = sides(design.battery.part.size, BATTERY_SIDES);
                let corner = [Wall::Left, Wall::Bottom, Wall::Back];
                (
                    battery.map(|side| side + 2.0 * LOOSE),
                    Wall::ALL.map(|wall| corner.contains(&wall)),
                )
            }
        };
        let board = thick.walls[Wall::Bottom.index()];
        let conductivity = wood_conductivity(BOARD_GRAVITY, MOISTURE);
        Some(Self {
            size,
            shared,
            partition: 1.0 / (2.0 / FILM + board / conductivity),
        })
    }

    /// Volume of its air in m³.
    pub(super) fn volume(&self) -> f64 {
        self.size.iter().product()
    }

    /// Area in m² of a wall of the box that lies in the bay.
    pub(super) fn on(&self, wall: Wall) -> f64 {
        let own = Wall::ALL.iter().position(|each| *each == wall);
        own.filter(|at| self.shared[*at])
            .map_or(0.0, |_| self.area(wall))
    }

    /// W/K from its air to that of the box, through the walls it has for itself.
    pub(super) fn to_box(self) -> f64 {
        let own = Wall::ALL.iter().zip(self.shared);
        let area: f64 = own
            .filter(|(_, shared)| !shared)
            .map(|(wall, _)| self.area(*wall))
            .sum();
        self.partition * area
    }

    fn area(&self, wall: Wall) -> f64 {
        let [across, up] = face(self.size, wall);
        across * up
    }
}

/// Specific gravity of plywood and its moisture in %: `wood-handbook`, from memory.
const BOARD_GRAVITY: f64 = 0.6;
const MOISTURE: f64 = 10.0;

/// Between a face of the bay and the wall of the box it looks at, in m.
const fn gap(wall: Wall, at: [f64; 3], size: [f64; 3], inside: [f64; 3]) -> f64 {
    match wall {
        Wall::Left => at[0],
        Wall::Right => inside[0] - at[0] - size[0],
        Wall::Bottom => at[1],
        Wall::Top => inside[1] - at[1] - size[1],
        Wall::Front => at[2],
        Wall::Back => inside[2] - at[2] - size[2],
    }
}
