//! Where drivers, radiators and vents open: as stated, or in a first layout in
//! one row along the longer direction of their wall.

use super::hull::{extent, middle};
use super::wall;
use crate::subject::SpotKind;
use design::{Design, DriverPart, EnclosureKind, Mounting, RadiatorPart, Side};
use wood::{Block, Wall};

/// Wall of a vent tube in m: common practice, no source.
pub(crate) const TUBE_WALL: f64 = 0.003;

/// An opening for a driver, a radiator or a vent.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Opening {
    /// What sits in it.
    pub(crate) kind: SpotKind,
    /// Which of its kind it is, from 0.
    pub(crate) index: usize,
    /// The wall it is in.
    pub(crate) wall: Wall,
    /// Its middle, from the left and bottom edge of that side of the block, in m.
    pub(crate) at: [f64; 2],
    /// Diameter of what covers it, in m.
    pub(crate) diameter: f64,
    /// Diameter of the hole in m.
    pub(crate) cutout: f64,
    /// Whether the design states where it is.
    pub(crate) stated: bool,
}

/// Frame and cut-out of a driver in m, guessed from its size where not known.
fn driver_sizes(part: &DriverPart) -> (f64, f64) {
    let size = part.size.map_or(0.1, |value| value.si);
    let frame = part.frame.map_or(1.05 * size, |value| value.si);
    let cutout = part.cutout.map_or(0.88 * frame, |value| value.si);
    (frame, cutout)
}

/// The same of a passive radiator.
fn radiator_sizes(part: &RadiatorPart) -> (f64, f64) {
    let frame = part.frame.map_or(0.1, |value| value.si);
    let cutout = part.cutout.map_or(0.88 * frame, |value| value.si);
    (frame, cutout)
}

/// A number of equal openings.
fn openings<'a>(
    kind: SpotKind,
    count: u32,
    mounting: &'a Mounting,
    (diameter, cutout): (f64, f64),
) -> impl Iterator<Item = Opening> + 'a {
    (0..count as usize).map(move |index| {
        let stated = mounting.at.get(index);
        Opening {
            kind,
            index,
            wall: wall(mounting.on.value),
            at: stated.map_or([0.0; 2], |at| [at.across.si, at.up.si]),
            diameter,
            cutout,
            stated: stated.is_some(),
        }
    })
}

/// Every opening of a design, from left to right: drivers of the left channel, then
/// radiators and vents, then drivers of the right.
pub(crate) fn all(design: &Design, block: &Block) -> Vec<Opening> {
    let (mut left, mut right) = (Vec::new(), Vec::new());
    for (index, group) in design.drivers.iter().enumerate() {
        let sizes = driver_sizes(&group.part);
        let kind = SpotKind::Driver(index);
        let to_left = match group.side.value {
            Side::Both => group.count as usize / 2,
            Side::Left | Side::Mono => group.count as usize,
            Side::Right => 0,
        };
        for opening in openings(kind, group.count, &group.mounting, sizes) {
            if opening.index < to_left {
                left.push(opening);
            } else {
                right.push(opening);
            }
        }
    }
    match &design.enclosure.kind {
        EnclosureKind::Sealed => {}
        EnclosureKind::Vented(vent) => {
            let outer = vent.diameter.si + 2.0 * TUBE_WALL;
            let sizes = (outer, outer);
            left.extend(openings(SpotKind::Vent, vent.count, &vent.mounting, sizes));
        }
        EnclosureKind::PassiveRadiator(used) => {
            let sizes = radiator_sizes(&used.part);
            left.extend(openings(
                SpotKind::Radiator,
                used.count,
                &used.mounting,
                sizes,
            ));
        }
    }
    right.reverse();
    left.extend(right);
    for wall in Wall::ALL {
        lay_in_a_row(&mut left, block, wall);
    }
    left
}

/// Lays out those on a wall that nobody placed, with equal gaps along its longer direction.
fn lay_in_a_row(openings: &mut [Opening], block: &Block, wall: Wall) {
    let [width, height] = extent(block, wall);
    let centre = middle(block, wall);
    let mut row: Vec<&mut Opening> = openings
        .iter_mut()
        .filter(|opening| opening.wall == wall && !opening.stated)
        .collect();
    let taken: f64 = row.iter().map(|opening| opening.diameter).sum();
    let along = width.max(height);
    let gap = (along - taken) / (row.len() as f64 + 1.0);
    let mut at = -along / 2.0;
    for opening in &mut row {
        at += gap + opening.diameter / 2.0;
        let from_centre = if width >= height {
            [at, 0.0]
        } else {
            [0.0, -at]
        };
        opening.at = [centre[0] + from_centre[0], centre[1] + from_centre[1]];
        at += opening.diameter / 2.0;
    }
}

/// Whether all openings of a wall find room beside one another within it.
pub(crate) fn fit(openings: &[Opening], block: &Block, wall: Wall) -> bool {
    let [width, height] = extent(block, wall);
    let centre = middle(block, wall);
    let here: Vec<&Opening> = openings.iter().filter(|o| o.wall == wall).collect();
    let within = |o: &&Opening| {
        let off = [o.at[0] - centre[0], o.at[1] - centre[1]].map(f64::abs);
        off[0] + o.diameter / 2.0 < width / 2.0 && off[1] + o.diameter / 2.0 < height / 2.0
    };
    let apart = |a: &Opening, b: &Opening| {
        let (across, up) = (a.at[0] - b.at[0], a.at[1] - b.at[1]);
        let least = (a.diameter + b.diameter) / 2.0;
        across * across + up * up > least * least
    };
    here.iter().all(within)
        && (0..here.len()).all(|i| here[..i].iter().all(|other| apart(here[i], other)))
}
