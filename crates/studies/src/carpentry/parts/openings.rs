//! Openings through which parts come out.

use super::super::model::{PartKind, PlacedPart};
use super::super::plan::wall;
use crate::words;
use design::{Closing, Design};
use wood::{Body, Opening, PanelId, Purpose, Wall};

/// Holes smaller than this let nothing through that is worth a try, in m.
const SMALLEST: f64 = 0.03;

/// A wall that is off, and the parts that go with it.
pub(crate) fn whole(off: Wall, body: &Body, parts: &[PlacedPart]) -> Opening {
    let panel = body.wall(off);
    Opening {
        panel: PanelId::Wall(off),
        hole: None,
        taken_out: indices(parts, |part| {
            part.part.sits_in == Some(off) || part.part.is_screwed_to(panel)
        }),
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
        openings.push(whole(wall(said.last.value), body, parts));
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
            let mut taken_out = match hole.purpose {
                Some(Purpose::Driver | Purpose::Radiator) => indices(parts, sits),
                Some(Purpose::Control) => indices(parts, |part| part.kind == PartKind::Control),
                _ => continue,
            };
            taken_out.extend(grille(parts, on));
            openings.push(Opening {
                panel: PanelId::Wall(on),
                hole: Some(index),
                taken_out,
            });
        }
    }
    openings
}

/// A grille that lies over a wall.
fn grille(parts: &[PlacedPart], on: Wall) -> Vec<usize> {
    indices(parts, |part| {
        part.kind == PartKind::Grille && part.part.sits_in == Some(on)
    })
}

/// The hole that a part sits in, where there is one.
pub(crate) fn own(body: &Body, parts: &[PlacedPart], index: usize) -> Option<Opening> {
    let part = &parts[index].part;
    let on = part.sits_in?;
    let panel = body.wall(on);
    let at = panel.frame.flat(part.pose.at);
    let near = |hole: &wood::PanelHole| {
        let apart = [0, 1].map(|axis| hole.at[axis] - at[axis]);
        hole.pocket.is_none() && apart[0].abs().max(apart[1].abs()) < 1e-3
    };
    Some(Opening {
        panel: PanelId::Wall(on),
        hole: Some(panel.holes.iter().position(near)?),
        taken_out: grille(parts, on),
    })
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
