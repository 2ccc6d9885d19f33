//! A sheet good on the shelf.

use super::fields::Fields;
use super::values::Bounds::Positive;
use super::words::SPECIES;
use crate::diagnostic::Log;
use crate::quantity::Dimension as D;
use crate::{Common, SheetPart};

pub(crate) fn read(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<SheetPart> {
    let thickness = fields.need("thickness", D::Length, Positive, log);
    let density = fields.need("density", D::Density, Positive, log);
    let modulus = fields.value("modulus", D::Pressure, Positive, log);
    let modulus_across = fields.value("modulus_across", D::Pressure, Positive, log);
    let length = fields.need("length", D::Length, Positive, log);
    let width = fields.need("width", D::Length, Positive, log);
    Some(SheetPart {
        common,
        thickness: thickness?,
        density: density?,
        modulus,
        modulus_across,
        species: fields.word("species", SPECIES, log),
        metal: fields.flag("metal", false, log),
        length: length?,
        width: width?,
    })
}
