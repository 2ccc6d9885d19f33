//! What must stay bare, and how.

use super::model::Mask;
use crate::carpentry::Carpentry;
use crate::words;
use design::{Closing, Design};
use wood::{Purpose, Wall};

/// What to mask, side by side; then what is no hole.
pub(super) fn list(design: &Design, carpentry: &Carpentry) -> Vec<Mask> {
    let mut masks: Vec<Mask> = Wall::ALL
        .into_iter()
        .flat_map(|wall| holes(carpentry, wall))
        .collect();
    let said = &design.enclosure.carpentry;
    let last = crate::carpentry::wall(said.last.value);
    let name = words::wall(last);
    match said.last_with.value {
        Closing::Screws => masks.push(Mask {
            wall: Some(last),
            what: format!("rim of the {name} and what it lies on"),
            how: "tape; the sealing strip sticks to bare wood, and lacquer there creaks".into(),
        }),
        Closing::Glue => masks.push(Mask {
            wall: Some(last),
            what: format!("every glue line of the {name}"),
            how: "glue it on before the first coat; glue does not hold on a finish".into(),
        }),
    }
    masks
}

fn holes(carpentry: &Carpentry, wall: Wall) -> Vec<Mask> {
    let panel = carpentry.body.wall(wall);
    let of = |purpose: Purpose| {
        let own = panel.holes.iter();
        own.filter(|hole| hole.purpose == Some(purpose) && hole.pocket.is_none())
            .count()
    };
    let rebated = |purpose: Purpose| {
        let mut own = panel.holes.iter();
        own.any(|hole| hole.purpose == Some(purpose) && hole.pocket.is_some())
    };
    let mut out = Vec::new();
    let mut add = |purpose: Purpose, one: &str, more: &str, how: &str| {
        let what = match of(purpose) {
            0 => return,
            1 => one.to_owned(),
            count => format!("{count} {more}"),
        };
        out.push(Mask {
            wall: Some(wall),
            what,
            how: how.to_owned(),
        });
    };
    let seat = if rebated(Purpose::Driver) {
        "card pressed into each rebate, tape to its rim: a thick coat makes the frame stand proud \
and its gasket stick"
    } else {
        "card behind each, tape to where the frame will end: the gasket sits on bare wood"
    };
    add(
        Purpose::Driver,
        "a driver's hole",
        "drivers' holes with their seats",
        seat,
    );
    add(
        Purpose::Radiator,
        "the radiator's hole",
        "radiators' holes",
        "card behind, tape to where the frame will end",
    );
    add(
        Purpose::Vent,
        "the vent's mouth",
        "mouths of the vents",
        "a ball of paper; a run inside whistles",
    );
    add(
        Purpose::Control,
        "the opening of the control panel and its ledge",
        "openings of the control panel",
        "tape on the ledge: the plate lies there, and its screws bite there",
    );
    add(
        Purpose::Bay,
        "a hole of the battery's bay",
        "holes of the battery's bay",
        "toothpicks or rolled paper: they must stay open",
    );
    let screws = of(Purpose::Fastening) + of(Purpose::Closing);
    if screws > 0 {
        out.push(Mask {
            wall: Some(wall),
            what: match screws {
                1 => "a hole of a bolt or screw".to_owned(),
                count => format!("{count} holes of bolts and screws"),
            },
            how: "a matchstick in each; clear them with the drill by hand afterwards".to_owned(),
        });
    }
    out
}
