//! A passive radiator on the shelf.

use super::fields::Fields;
use super::values::Bounds::Positive;
use crate::diagnostic::Log;
use crate::quantity::Dimension as D;
use crate::{Common, RadiatorPart};

pub(crate) fn read(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<RadiatorPart> {
    let size = fields.value("size", D::Length, Positive, log);
    let area = fields.need("area", D::Area, Positive, log);
    let mass = fields.need("mass", D::Mass, Positive, log);
    let fs = fields.need("fs", D::Frequency, Positive, log);
    let qms = fields.need("qms", D::Number, Positive, log);
    let xmax = fields.need("xmax", D::Length, Positive, log);
    let frame = fields.value("frame", D::Length, Positive, log);
    let cutout = fields.value("cutout", D::Length, Positive, log);
    fields.in_order("cutout", cutout, "frame", frame, log);
    let depth = fields.value("depth", D::Length, Positive, log);
    Some(RadiatorPart {
        common,
        size,
        area: area?,
        mass: mass?,
        fs: fs?,
        qms: qms?,
        xmax: xmax?,
        frame,
        cutout,
        depth,
    })
}
