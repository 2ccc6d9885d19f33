//! A wire on the shelf.

use super::fields::Fields;
use super::values::Bounds::{NotNegative, Positive, Within};
use super::words::WIRE_COLOURS;
use crate::diagnostic::Log;
use crate::quantity::Dimension as D;
use crate::{Common, WirePart};
use core::f64::consts::PI;

/// Thinnest and thickest wire that has a place in such a box, in m².
const SECTIONS: super::values::Bounds = Within(0.01e-6, 50e-6);

pub(crate) fn read(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<WirePart> {
    let section = fields.need("section", D::Area, SECTIONS, log);
    let outer = fields.value("outer", D::Length, Positive, log);
    let hottest = fields.value("hottest", D::Temperature, Within(40.0, 150.0), log);
    let colours = fields.words("colours", WIRE_COLOURS, log);
    let in_drawer = fields.value("in_drawer", D::Length, NotNegative, log);
    let copper = section.map(|section| crate::Value {
        si: libm::sqrt(4.0 * section.si / PI),
        ..section
    });
    fields.in_order("section", copper, "outer", outer, log);
    Some(WirePart {
        common,
        section: section?,
        outer,
        hottest,
        colours: colours.into_iter().map(|colour| colour.value).collect(),
        in_drawer,
    })
}
