//! Everything in and on the box as solids in their places.

mod fixed;
mod loose;
pub(crate) mod openings;

pub(crate) use fixed::CONTROL_WEIGHT;
pub(crate) use loose::{BOARD_WEIGHT, MODULE_WEIGHT, Places};

use super::model::{PartKind, PlacedPart};
use super::plan::{Hull, PlanSubject, Thicknesses};
use design::{Common, Design, Place};
use wood::{Body, Part, Pose, Shape, Wall};

/// The list of parts as it grows: equal parts share a number.
struct List {
    parts: Vec<PlacedPart>,
    number: usize,
}

/// What equal parts share.
struct Kind<'a> {
    kind: PartKind,
    label: &'a str,
    weight: f64,
    /// By how much its own width, depth and height may differ either way, in m.
    size_within: [f64; 3],
    place: Place,
    table: String,
}

impl List {
    /// The next number of the list of parts.
    const fn next(&mut self) {
        self.number += 1;
    }

    fn add(&mut self, of: &Kind<'_>, shape: Shape, pose: Pose, sits_in: Option<Wall>, found: bool) {
        self.parts.push(PlacedPart {
            number: self.number,
            label: of.label.into(),
            kind: of.kind,
            part: Part {
                name: of.label.into(),
                shape,
                pose,
                sits_in,
            },
            size_within: of.size_within,
            weight: of.weight,
            found,
            place: of.place,
            table: of.table.clone(),
        });
    }
}

/// Weight of a part in kg, as stated or guessed.
fn weight(common: &Common, guess: f64) -> f64 {
    common.weight.map_or(guess, |weight| weight.si)
}

/// What parts are placed into.
pub(super) struct Room<'a> {
    pub(super) design: &'a Design,
    pub(super) plan: &'a PlanSubject,
    pub(super) hull: Hull,
    pub(super) thick: Thicknesses,
    pub(super) body: &'a Body,
    /// Places found before.
    pub(super) places: &'a Places,
}

/// All parts in the order of their list, and the places of those nobody placed found.
pub(super) fn all(room: &Room<'_>) -> Vec<PlacedPart> {
    let mut list = List {
        parts: Vec::new(),
        number: 0,
    };
    fixed::drivers(&mut list, room);
    fixed::outlets(&mut list, room);
    let mut waiting = Vec::new();
    loose::battery_and_board(&mut list, room, &mut waiting);
    fixed::controls(&mut list, room);
    loose::modules(&mut list, room, &mut waiting);
    loose::things(&mut list, room, &mut waiting);
    fixed::handle(&mut list, room);
    fixed::feet(&mut list, room);
    fixed::grille(&mut list, room);
    loose::find(&mut list, room, &waiting);
    list.parts
}
