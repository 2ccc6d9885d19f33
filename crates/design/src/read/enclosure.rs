//! The box.

use super::carpentry::{self, WALL};
use super::fields::Fields;
use super::placement::mounting;
use super::sense;
use super::shelf::ReadShelf;
use super::values::Bounds::{NotNegative, Positive, Within};
use super::words::{BOX_KINDS, BoxKind, CHAMBERS, LEAKS, word_of};
use crate::diagnostic::Log;
use crate::fault::DesignFault;
use crate::quantity::Dimension as D;
use crate::{
    Chambers, Choice, Enclosure, EnclosureKind, EnclosureSize, Leak, Place, RadiatorUse, SheetPart,
    Value, VentUse,
};

/// Most vents or radiators of one box.
const MOST_OPENINGS: u32 = 16;

pub(crate) fn enclosure(fields: Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<Enclosure> {
    let size = size(&fields, log);
    let wall = shelf.part::<SheetPart>(&fields, "wall", log);
    let thickness = fields.value("thickness", D::Length, Within(WALL.0, WALL.1), log);
    let kind = kind(&fields, shelf, log);
    let filling = fields.value("filling", D::Share, NotNegative, log);
    let leak = fields.word_or("leak", LEAKS, Leak::Usual, log);
    let chambers = fields.word_or("chambers", CHAMBERS, Chambers::Shared, log);
    let carpentry = carpentry::carpentry(&fields, shelf, log);
    fields.finish(log);
    let (size, (wall, wall_place)) = (size?, wall?);
    sense::walls(&size, &wall, thickness, &carpentry, log);
    let (kind, kind_place) = kind?;
    Some(Enclosure {
        size,
        wall,
        wall_place,
        thickness,
        kind,
        kind_place,
        filling,
        leak,
        chambers,
        carpentry,
    })
}

/// A chamber for each side needs two sides.
pub(crate) fn chambers_fit(chambers: Choice<Chambers>, mono: bool, log: &mut Log) {
    if let Choice {
        value: Chambers::OnePerSide,
        place: Some(place),
    } = chambers
        && mono
    {
        log.add(DesignFault::ChambersMono, place);
    }
}

fn size(fields: &Fields<'_>, log: &mut Log) -> Option<EnclosureSize> {
    let outside = fields.size("outside", log);
    let inside = fields.size("inside", log);
    match (fields.is_absent("outside"), fields.is_absent("inside")) {
        (false, false) => {
            log.add(DesignFault::BoxSizeTwice, fields.place_of("inside"));
            None
        }
        (true, true) => {
            if !fields.is_broken() {
                log.add(DesignFault::BoxSizeMissing, fields.header());
            }
            None
        }
        _ => outside
            .map(EnclosureSize::Outside)
            .or(inside.map(EnclosureSize::Inside)),
    }
}

fn kind(fields: &Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<(EnclosureKind, Place)> {
    let kind = fields.need_word("kind", BOX_KINDS, log);
    let vent = fields.table("vent", log);
    let radiator = fields.table("radiator", log);
    let place = fields.place_of("kind");
    let name = kind.map(|kind| word_of(BOX_KINDS, kind.value));
    let header = vent.as_ref().map(Fields::header);
    let vent = vent.and_then(|vent| read_vent(vent, log));
    let radiator_header = radiator.as_ref().map(Fields::header);
    let radiator = radiator.and_then(|radiator| read_radiator(radiator, shelf, log));
    let kind = kind?.value;
    let name = name?;
    unwanted(
        header,
        kind != BoxKind::Vented,
        name,
        "box.vent",
        "vented",
        log,
    );
    unwanted(
        radiator_header,
        kind != BoxKind::PassiveRadiator,
        name,
        "box.radiator",
        "passive radiator",
        log,
    );
    let missing = |table: &'static str, example: &'static str, log: &mut Log| {
        if !fields.is_broken() {
            let fault = DesignFault::KindTableMissing {
                kind: name,
                table,
                example,
            };
            log.add(fault, place);
        }
    };
    match kind {
        BoxKind::Sealed => Some((EnclosureKind::Sealed, place)),
        BoxKind::Vented => {
            if header.is_none() {
                missing("box.vent", "`diameter`, `length` and `count`", log);
            }
            Some((EnclosureKind::Vented(vent?), place))
        }
        BoxKind::PassiveRadiator => {
            if radiator_header.is_none() {
                missing("box.radiator", "`part` and `count`", log);
            }
            Some((EnclosureKind::PassiveRadiator(radiator?), place))
        }
    }
}

fn unwanted(
    header: Option<Place>,
    other_kind: bool,
    kind: &'static str,
    table: &'static str,
    fits: &'static str,
    log: &mut Log,
) {
    if let Some(place) = header
        && other_kind
    {
        log.add(DesignFault::KindTableUnwanted { kind, table, fits }, place);
    }
}

fn read_vent(fields: Fields<'_>, log: &mut Log) -> Option<VentUse> {
    let place = fields.header();
    let diameter: Option<Value> = fields.need("diameter", D::Length, Within(1e-3, 1.0), log);
    let length = fields.need("length", D::Length, Within(1e-3, 10.0), log);
    let count = fields.need_count("count", 1, MOST_OPENINGS, log);
    let flared = fields.flag("flared", false, log);
    let mounting = mounting(&fields, count, log);
    let bent = fields.value("bent", D::Length, Positive, log);
    fields.in_order("bent", bent, "length", length, log);
    fields.finish(log);
    Some(VentUse {
        diameter: diameter?,
        length: length?,
        count: count?,
        flared,
        mounting,
        bent,
        place,
    })
}

fn read_radiator(fields: Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<RadiatorUse> {
    let part = shelf.part(&fields, "part", log);
    let count = fields.need_count("count", 1, MOST_OPENINGS, log);
    let added_mass = fields.value("added_mass", D::Mass, NotNegative, log);
    let mounting = mounting(&fields, count, log);
    fields.finish(log);
    let (part, place) = part?;
    Some(RadiatorUse {
        part,
        place,
        count: count?,
        added_mass,
        mounting,
    })
}
