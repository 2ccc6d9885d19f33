//! What the design names, and the sheets it is cut from.

use super::list::{Amount, List, Need};
use super::model::Kind;
use crate::carpentry::SheetPlan;
use design::{Common, EnclosureKind, Project, Thing};

/// Everything that the design names by itself, kind by kind.
pub(crate) fn named(project: &Project, sheets: &[SheetPlan]) -> Vec<Need> {
    let design = &project.design;
    let mut list = List::new(&design.brief.currency);
    for group in &design.drivers {
        let amount = Amount::pieces(group.count);
        list.pieces(
            Kind::Sound,
            &group.part.common,
            amount,
            Some(group.place),
            "driver",
        );
    }
    if let EnclosureKind::PassiveRadiator(used) = &design.enclosure.kind {
        let amount = Amount::pieces(used.count);
        let about = "passive radiator";
        list.pieces(
            Kind::Sound,
            &used.part.common,
            amount,
            Some(used.place),
            about,
        );
    }
    let one = Amount::pieces(1);
    let (amplifier, battery) = (&design.amplifier, &design.battery);
    let place = Some(amplifier.place);
    list.pieces(Kind::Power, &amplifier.part.common, one, place, "amplifier");
    let amount = Amount::pieces(battery.count);
    let place = Some(battery.place);
    list.pieces(Kind::Power, &battery.part.common, amount, place, "battery");
    for plan in sheets {
        let place = (plan.sheet == design.enclosure.wall.common.name.text)
            .then_some(design.enclosure.wall_place);
        list.pieces(Kind::Wood, &plan.part.common, sheet(plan), place, "");
    }
    let control = design.control.iter().flat_map(|control| &control.parts);
    for used in control {
        list.pieces(Kind::Control, &used.part.common, one, Some(used.place), "");
    }
    for used in &design.modules {
        list.pieces(Kind::Electric, &used.part.common, one, Some(used.place), "");
    }
    for (fuse, place) in design.fuses() {
        list.pieces(Kind::Electric, &fuse.common, one, Some(*place), "fuse");
    }
    for thing in design.inside.iter().filter(|thing| thing.price.is_some()) {
        let amount = Amount::pieces(thing.count);
        list.pieces(
            Kind::Other,
            &bought(thing),
            amount,
            Some(thing.name.place),
            "",
        );
    }
    list.done()
}

/// Whole sheets cut into, and the share of one that ends up in the box, offcuts counted.
fn sheet(plan: &SheetPlan) -> Amount {
    let whole = plan.part.length.si * plan.part.width.si;
    Amount {
        uses: super::sheets::pieces(plan) / whole,
        needed: crate::carpentry::whole_sheets(plan) as f64,
    }
}

/// A thing in the box as a part that has to be bought.
fn bought(thing: &Thing) -> Common {
    Common {
        name: thing.name.clone(),
        about: None,
        generic: false,
        price: thing.price.clone(),
        on_hand: 0,
        weight: None,
    }
}
