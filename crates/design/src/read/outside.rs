//! What is on the box: handle, feet, grille.

use super::fields::Fields;
use super::values::Bounds::{NotNegative, Positive};
use super::words::WALLS;
use crate::diagnostic::Log;
use crate::quantity::Dimension as D;
use crate::{Feet, Grille, Handle, Wall};

/// A box stands on three feet or four.
const FEET: (u32, u32) = (3, 4);

pub(crate) fn handle(fields: Fields<'_>, log: &mut Log) -> Option<Handle> {
    let on = fields.word_or("on", WALLS, Wall::Top, log);
    let at = fields.position("at", log);
    let spacing = fields.need("spacing", D::Length, Positive, log);
    let bolt = fields.need("bolt", D::Length, Positive, log);
    let weight = fields.value("weight", D::Mass, NotNegative, log);
    let place = fields.header();
    fields.finish(log);
    Some(Handle {
        on,
        at,
        spacing: spacing?,
        bolt: bolt?,
        weight,
        place,
    })
}

pub(crate) fn feet(fields: Fields<'_>, log: &mut Log) -> Option<Feet> {
    let count = fields.need_count("count", FEET.0, FEET.1, log);
    let diameter = fields.need("diameter", D::Length, Positive, log);
    let height = fields.need("height", D::Length, Positive, log);
    let inset = fields.need("inset", D::Length, Positive, log);
    let screw = fields.value("screw", D::Length, Positive, log);
    let place = fields.header();
    fields.finish(log);
    Some(Feet {
        count: count?,
        diameter: diameter?,
        height: height?,
        inset: inset?,
        screw,
        place,
    })
}

pub(crate) fn grille(fields: Fields<'_>, log: &mut Log) -> Option<Grille> {
    let strip = fields.need("strip", D::Length, Positive, log);
    let thickness = fields.need("thickness", D::Length, Positive, log);
    let gap = fields.need("gap", D::Length, NotNegative, log);
    let place = fields.header();
    fields.finish(log);
    Some(Grille {
        strip: strip?,
        thickness: thickness?,
        gap: gap?,
        place,
    })
}
