//! Where drivers and openings sit on the front: a first layout in one row,
//! used for the baffle, the distance between the sides, and the picture.

use super::EnclosureSubject;
use crate::vary::Draw;
use design::{Design, EnclosureKind, Side};

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
    /// Height in m.
    pub height: f64,
    /// What sits on it.
    pub spots: Vec<Spot>,
    /// Whether everything found room side by side within the front.
    pub fits: bool,
}

fn driver_spot(design: &Design, group: usize) -> Spot {
    let part = &design.drivers[group].part;
    let size = part.size.map_or(0.1, |value| value.si);
    let frame = part.frame.map_or(1.05 * size, |value| value.si);
    let cutout = part.cutout.map_or(0.88 * frame, |value| value.si);
    Spot {
        kind: SpotKind::Driver(group),
        x: 0.0,
        y: 0.0,
        diameter: frame,
        cutout,
    }
}

fn outlet_spots(design: &Design) -> Vec<Spot> {
    match &design.enclosure.kind {
        EnclosureKind::Sealed => Vec::new(),
        EnclosureKind::Vented(vent) => {
            let cutout = vent.diameter.si;
            let spot = Spot {
                kind: SpotKind::Vent,
                x: 0.0,
                y: 0.0,
                diameter: cutout + 0.006,
                cutout,
            };
            vec![spot; vent.count as usize]
        }
        EnclosureKind::PassiveRadiator(used) => {
            let frame = used.part.frame.map_or(0.1, |value| value.si);
            let spot = Spot {
                kind: SpotKind::Radiator,
                x: 0.0,
                y: 0.0,
                diameter: frame,
                cutout: 0.88 * frame,
            };
            vec![spot; used.count as usize]
        }
    }
}

impl Front {
    pub(super) fn new(design: &Design, enclosure: &EnclosureSubject) -> Self {
        let [width, height, _] = enclosure.at(&Draw::Nominal).outside;
        // Left drivers, then openings, then right ones, in one row along the longer side.
        let (mut left, mut right) = (Vec::new(), Vec::new());
        for (index, group) in design.drivers.iter().enumerate() {
            let spot = driver_spot(design, index);
            let count = group.count as usize;
            let (to_left, to_right) = match group.side.value {
                Side::Both => (count / 2, count - count / 2),
                Side::Left | Side::Mono => (count, 0),
                Side::Right => (0, count),
            };
            left.extend(vec![spot.clone(); to_left]);
            right.extend(vec![spot; to_right]);
        }
        let mut spots = left;
        spots.extend(outlet_spots(design));
        right.reverse();
        spots.extend(right);
        let along = width.max(height);
        let across = width.min(height);
        let taken: f64 = spots.iter().map(|spot| spot.diameter).sum();
        let gap = (along - taken) / (spots.len() as f64 + 1.0);
        let mut at = -along / 2.0;
        for spot in &mut spots {
            at += gap + spot.diameter / 2.0;
            (spot.x, spot.y) = if width >= height {
                (at, 0.0)
            } else {
                (0.0, -at)
            };
            at += spot.diameter / 2.0;
        }
        let fits = gap > 0.0 && spots.iter().all(|spot| spot.diameter < across);
        Self {
            width,
            height,
            spots,
            fits,
        }
    }

    /// Distance between the middles of the two sides' drivers in m; 0 for a mono box.
    #[must_use]
    pub fn spacing(&self) -> f64 {
        let drivers = || {
            self.spots
                .iter()
                .filter(|spot| matches!(spot.kind, SpotKind::Driver(_)))
        };
        let (Some(first), Some(last)) = (drivers().next(), drivers().next_back()) else {
            return 0.0;
        };
        (first.x - last.x).abs().max((first.y - last.y).abs())
    }
}
