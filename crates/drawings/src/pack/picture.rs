//! The picture of the box from its design.
//!
//! The design does not yet say where battery and board sit inside: they are
//! shown standing at the back wall, which the sheet says is only an example.

use super::say::times;
use crate::boxview::{BoxPicture, PicturePart, PictureShape, Stuff};
use design::{DriverPart, EnclosureKind, Project, RadiatorPart, Size};
use studies::report::Accounts;
use studies::{Spot, SpotKind};

/// Between blocks, and from them to the walls, in m.
const CLEAR: f64 = 0.008;

/// What the box looks like, parts numbered.
#[must_use]
pub fn box_picture(project: &Project, accounts: &Accounts) -> BoxPicture {
    let design = &project.design;
    let mut parts = Vec::new();
    for (group, used) in design.drivers.iter().enumerate() {
        let label = times(used.count, &used.part.common.name.text);
        let spots = spots(accounts, SpotKind::Driver(group));
        parts.extend(spots.map(|s| part(group + 1, &label, driver(&used.part, s))));
    }
    let mut number = design.drivers.len() + 1;
    match &design.enclosure.kind {
        EnclosureKind::Sealed => {}
        EnclosureKind::Vented(vent) => {
            let size = format!(
                "vent, ⌀ {} inside, {} long",
                crate::text::number(1000.0 * vent.diameter.si, 0),
                crate::text::number(1000.0 * vent.length.si, 0)
            );
            let label = times(vent.count, &size);
            let shape = |s: &Spot| PictureShape::Vent {
                centre: [s.x, s.y],
                diameter: vent.diameter.si,
                cutout: s.diameter,
                length: vent.length.si,
            };
            parts.extend(spots(accounts, SpotKind::Vent).map(|s| part(number, &label, shape(s))));
            number += 1;
        }
        EnclosureKind::PassiveRadiator(used) => {
            let label = times(used.count, &used.part.common.name.text);
            let spots = spots(accounts, SpotKind::Radiator);
            parts.extend(spots.map(|s| part(number, &label, radiator(&used.part, s))));
            number += 1;
        }
    }
    parts.extend(blocks(project, accounts, number));
    BoxPicture {
        outside: accounts.outside,
        wall: accounts.thickness,
        parts,
    }
}

fn spots(accounts: &Accounts, kind: SpotKind) -> impl Iterator<Item = &Spot> {
    let all = accounts.front.spots.iter();
    all.filter(move |s| s.kind == kind)
}

fn part(number: usize, label: &str, shape: PictureShape) -> PicturePart {
    PicturePart {
        number,
        label: label.to_owned(),
        shape,
    }
}

/// Unstated depth and magnet are drawn in usual proportion to the hole.
fn driver(part: &DriverPart, spot: &Spot) -> PictureShape {
    PictureShape::Driver {
        centre: [spot.x, spot.y],
        frame: spot.diameter,
        cutout: spot.cutout,
        magnet: part.magnet.map_or(0.6 * spot.cutout, |v| v.si),
        depth: part.depth.map_or(0.5 * spot.cutout, |v| v.si),
    }
}

fn radiator(part: &RadiatorPart, spot: &Spot) -> PictureShape {
    PictureShape::Radiator {
        centre: [spot.x, spot.y],
        frame: spot.diameter,
        cutout: spot.cutout,
        depth: part.depth.map_or(0.25 * spot.cutout, |v| v.si),
    }
}

/// Batteries side by side on the floor at the back, the board above them, or
/// beside them where there is no room above.
fn blocks(project: &Project, accounts: &Accounts, mut number: usize) -> Vec<PicturePart> {
    let design = &project.design;
    let inside = accounts.inside;
    let floor = -inside[1] / 2.0;
    let back = accounts.outside[2] - accounts.thickness;
    let mut out = Vec::new();
    let (mut top, mut right) = (floor, 0.0);
    if let Some(size) = design.battery.part.size {
        let size = turned_to_fit(&size, inside);
        let label = times(design.battery.count, &design.battery.part.common.name.text);
        let count = design.battery.count;
        let pitch = size[0] + CLEAR;
        for i in 0..count {
            let x = (f64::from(i) - f64::from(count - 1) / 2.0) * pitch;
            let centre = [x, floor + size[1] / 2.0, back - size[2] / 2.0];
            out.push(block(number, &label, size, centre, Stuff::Cell));
        }
        top = floor + size[1];
        right = pitch * f64::from(count) / 2.0;
        number += 1;
    }
    if let Some(size) = design.amplifier.part.size {
        let size = turned_to_fit(&size, inside);
        let label = &design.amplifier.part.common.name.text;
        let above = top + CLEAR + size[1] <= inside[1] / 2.0;
        let (x, low) = if above {
            (0.0, top + if top > floor { CLEAR } else { 0.0 })
        } else {
            (right + size[0] / 2.0, floor)
        };
        let centre = [x, low + size[1] / 2.0, back - size[2] / 2.0];
        out.push(block(number, label, size, centre, Stuff::Board));
    }
    out
}

fn block(
    number: usize,
    label: &str,
    size: [f64; 3],
    centre: [f64; 3],
    stuff: Stuff,
) -> PicturePart {
    let shape = PictureShape::Block {
        size,
        centre,
        stuff,
    };
    part(number, label, shape)
}

/// Longest side across, shortest in depth where the box is deeper than that.
fn turned_to_fit(size: &Size, inside: [f64; 3]) -> [f64; 3] {
    let stated = [size.width.si, size.height.si, size.depth.si];
    let fits = |s: &[f64; 3]| s.iter().zip(inside).all(|(a, b)| *a <= b);
    let [w, h, d] = stated;
    [
        stated,
        [w, d, h],
        [d, h, w],
        [h, w, d],
        [h, d, w],
        [d, w, h],
    ]
    .into_iter()
    .find(fits)
    .unwrap_or(stated)
}
