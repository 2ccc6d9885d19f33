//! Openings through which parts come out.

use super::super::model::{PartKind, PlacedPart};
use super::super::plan::wall;
use crate::words;
use design::{Closing, Design};
use wood::{Body, Opening, PanelId, Purpose, Wall};

/// Holes smaller than this let nothing through that is worth a try, in m.
const SMALLEST: f64 = 0.03;

/// A wall that is off, and the parts that go with it.
pub(crate) fn whole(off: Wall, parts: &[PlacedPart]) -> Opening {
    Opening {
        panel: PanelId::Wall(off),
        hole: None,
        taken_out: indices(parts, |part| part.part.sits_in == Some(off)),
    }
}

fn indices(parts: &[PlacedPart], takes: impl Fn(&PlacedPart) -> bool) -> Vec<usize> {
    let parts = parts.iter().enumerate();
    parts
        .filter(|(_, part)| takes(part))
        .map(|(index, _)| index)
        .collect()
}

/// The openings of the finished box: its last wall where that is screwed on, and the holes of
/// drivers, radiators and the control panel.
pub(crate) fn closed(design: &Design, body: &Body, parts: &[PlacedPart]) -> Vec<Opening> {
    let said = &design.enclosure.carpentry;
    let mut openings = Vec::new();
    if said.last_with.value == Closing::Screws {
        openings.push(whole(wall(said.last.value), parts));
    }
    for on in Wall::ALL {
        let panel = body.wall(on);
        for (index, hole) in panel.holes.iter().enumerate() {
            let half = hole.outline.half();
            if hole.pocket.is_some() || 2.0 * half[0].min(half[1]) < SMALLEST {
                continue;
            }
            let middle = panel.frame.point(hole.at, 0.0);
            let sits = |part: &PlacedPart| {
                let apart = wood::vector::sub(part.part.pose.at, middle);
                wood::vector::length(apart) < 1e-3
            };
            let taken_out = match hole.purpose {
                Some(Purpose::Driver | Purpose::Radiator) => indices(parts, sits),
                Some(Purpose::Control) => indices(parts, |part| part.kind == PartKind::Control),
                _ => continue,
            };
            openings.push(Opening {
                panel: PanelId::Wall(on),
                hole: Some(index),
                taken_out,
            });
        }
    }
    openings
}

/// An opening in words.
pub(crate) fn words(opening: &Opening, body: &Body) -> String {
    let PanelId::Wall(on) = opening.panel else {
        return "a board".into();
    };
    let name = words::wall(on);
    let Some(hole) = opening.hole else {
        return format!("the {name}, taken off");
    };
    match body.wall(on).holes[hole].purpose {
        Some(Purpose::Driver) => format!("a driver's hole in the {name}"),
        Some(Purpose::Radiator) => format!("a radiator's hole in the {name}"),
        _ => format!("the opening of the control panel in the {name}"),
    }
}
