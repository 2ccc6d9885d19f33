//! What the sheets are of, and how evenly it takes colour.

use super::model::Wood;
use crate::carpentry::{Sheets, wall};
use design::{Design, Species};
use wood::Wall;

/// How evenly a wood takes a stain, or an oil with pigment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Takes {
    /// Evenly.
    Evenly,
    /// In blotches: pores and resin differ from place to place.
    Blotches,
    /// Hardly: a stain shows every glue spot and every cut edge.
    Poorly,
}

/// How evenly a wood takes colour: common practice, no source.
pub(crate) const fn takes_colour(species: Species) -> Takes {
    match species {
        Species::Ash | Species::Oak | Species::Walnut | Species::Gaboon => Takes::Evenly,
        Species::Beech
        | Species::Birch
        | Species::Cherry
        | Species::Maple
        | Species::Pine
        | Species::Poplar
        | Species::Spruce => Takes::Blotches,
        Species::Fibreboard | Species::Chipboard => Takes::Poorly,
    }
}

/// A species in words.
#[must_use]
pub const fn named(species: Species) -> &'static str {
    match species {
        Species::Ash => "ash",
        Species::Beech => "beech",
        Species::Birch => "birch",
        Species::Cherry => "cherry",
        Species::Maple => "maple",
        Species::Oak => "oak",
        Species::Gaboon => "gaboon",
        Species::Pine => "pine",
        Species::Poplar => "poplar",
        Species::Spruce => "spruce",
        Species::Walnut => "walnut",
        Species::Fibreboard => "fibreboard",
        Species::Chipboard => "chipboard",
    }
}

/// What the walls are of, each sheet once.
pub(super) fn woods(design: &Design, sheets: &Sheets) -> Vec<Wood> {
    let said = &design.enclosure.carpentry.walls;
    let mut woods: Vec<Wood> = Vec::new();
    for side in Wall::ALL {
        let own = said.iter().find(|own| wall(own.side) == side);
        let named = own.and_then(|own| own.sheet.as_ref());
        let part = named.map_or_else(|| sheets.part(sheets.of_wall(side)), |(part, _)| part);
        let name = &part.common.name.text;
        match woods.iter_mut().find(|wood| wood.sheet == *name) {
            Some(wood) => wood.walls.push(side),
            None => woods.push(Wood {
                sheet: name.clone(),
                walls: vec![side],
                species: part.species.map(|species| species.value),
            }),
        }
    }
    woods
}
