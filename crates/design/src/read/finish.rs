//! Finishes: on the shelf, and on the box.

use super::fields::Fields;
use super::shelf::ReadShelf;
use super::values::Bounds::Positive;
use super::words::{FINISH_BASES, FINISH_KINDS, WALLS, word_of};
use crate::diagnostic::Log;
use crate::fault::ElectricFault;
use crate::quantity::Dimension as D;
use crate::{Common, FinishPart, FinishUse, Wall};

/// Most coats anybody has the patience for.
const MOST_COATS: u32 = 30;
/// Coarsest and finest paper there is.
const GRITS: (u32, u32) = (40, 5000);

pub(crate) fn read(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<FinishPart> {
    let kind = fields.need_word("kind", FINISH_KINDS, log);
    let base = fields.need_word("base", FINISH_BASES, log);
    let coverage = fields.need("coverage", D::Coverage, Positive, log);
    let can = fields.need("can", D::Volume, Positive, log);
    let coats = fields.count("coats", 1, MOST_COATS, log).unwrap_or(1);
    let touch_dry = fields.need("touch_dry", D::Time, Positive, log);
    let recoat = fields.need("recoat", D::Time, Positive, log);
    let cure = fields.need("cure", D::Time, Positive, log);
    fields.not_above("touch_dry", touch_dry, "recoat", recoat, log);
    fields.not_above("recoat", recoat, "cure", cure, log);
    let sand = fields.count("sand", GRITS.0, GRITS.1, log);
    let sprayed = fields.flag("sprayed", false, log);
    let self_heating = fields.flag("self_heating", false, log);
    Some(FinishPart {
        common,
        kind: kind?,
        base: base?,
        coverage: coverage?,
        can: can?,
        coats,
        touch_dry: touch_dry?,
        recoat: recoat?,
        cure: cure?,
        sand,
        sprayed,
        self_heating,
    })
}

pub(crate) fn finishes(top: &Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Vec<FinishUse> {
    let layers = top.layers("finish", log);
    layers
        .into_iter()
        .filter_map(|layer| finish(Fields::new("[[finish]]", layer, None), shelf, log))
        .collect()
}

fn finish(fields: Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<FinishUse> {
    let part = shelf.part::<FinishPart>(&fields, "part", log);
    let coats = fields.count("coats", 1, MOST_COATS, log);
    let walls = fields.words("on", WALLS, log);
    let mut on: Vec<Wall> = Vec::new();
    for wall in walls {
        if on.contains(&wall.value) {
            let word = word_of(WALLS, wall.value);
            let place = wall.place.unwrap_or_else(|| fields.place_of("on"));
            log.add(ElectricFault::ListedTwice { key: "on", word }, place);
        }
        on.push(wall.value);
    }
    fields.finish(log);
    let (part, place) = part?;
    Some(FinishUse {
        part,
        place,
        coats,
        on,
    })
}
