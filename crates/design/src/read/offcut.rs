//! Pieces of sheet that lie in the drawer.

use super::fields::Fields;
use super::shelf::{MOST_ON_HAND, ReadShelf};
use super::values::Bounds::Positive;
use crate::diagnostic::Log;
use crate::quantity::Dimension as D;
use crate::{Offcut, SheetPart, Text};

/// Reads the offcuts; the sheets they are of must be read before.
pub(crate) fn offcuts(top: &Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Vec<Offcut> {
    let layers = top.layers("offcut", log);
    layers
        .into_iter()
        .filter_map(|layer| offcut(Fields::new("[[offcut]]", layer, None), shelf, log))
        .collect()
}

fn offcut(fields: Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<Offcut> {
    let sheet = shelf.part::<SheetPart>(&fields, "sheet", log);
    let length = fields.need("length", D::Length, Positive, log);
    let width = fields.need("width", D::Length, Positive, log);
    let count = fields.count("count", 0, MOST_ON_HAND, log).unwrap_or(1);
    fields.finish(log);
    let (sheet, place) = sheet?;
    Some(Offcut {
        sheet: Text {
            text: sheet.common.name.text,
            place,
        },
        length: length?,
        width: width?,
        count,
    })
}
