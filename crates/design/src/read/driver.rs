//! A driver on the shelf.

use super::fields::Fields;
use super::values::Bounds::{NotNegative, Positive, Within};
use super::words::DRIVER_KINDS;
use crate::diagnostic::Log;
use crate::fault::PartFault;
use crate::quantity::Dimension as D;
use crate::{Common, DriverPart};

/// Most screws of one frame.
const MOST_SCREWS: u32 = 24;

pub(crate) fn read(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<DriverPart> {
    let kind = fields.need_word("kind", DRIVER_KINDS, log);
    let mut positive = |key, dimension| fields.value(key, dimension, Positive, log);
    let mut part = DriverPart {
        size: positive("size", D::Length),
        re: positive("re", D::Resistance),
        impedance: positive("impedance", D::Resistance),
        lossy_k: positive("lossy_k", D::SemiInductance),
        fs: positive("fs", D::Frequency),
        qms: positive("qms", D::Number),
        qes: positive("qes", D::Number),
        qts: positive("qts", D::Number),
        vas: positive("vas", D::Volume),
        sd: positive("sd", D::Area),
        diameter: positive("diameter", D::Length),
        bl: positive("bl", D::ForceFactor),
        mms: positive("mms", D::Mass),
        cms: positive("cms", D::Compliance),
        xmax: positive("xmax", D::Length),
        power: positive("power", D::Power),
        sensitivity: fields.value("sensitivity", D::Decibel, Within(40.0, 130.0), log),
        le: fields.value("le", D::Inductance, NotNegative, log),
        lossy_n: fields.value("lossy_n", D::Number, Within(0.0, 1.0), log),
        frame: fields.value("frame", D::Length, Positive, log),
        cutout: fields.value("cutout", D::Length, Positive, log),
        depth: fields.value("depth", D::Length, Positive, log),
        magnet: fields.value("magnet", D::Length, Positive, log),
        displacement: fields.value("displacement", D::Volume, NotNegative, log),
        screws: fields.count("screws", 1, MOST_SCREWS, log),
        screw_circle: fields.value("screw_circle", D::Length, Positive, log),
        screw: fields.value("screw", D::Length, Positive, log),
        frame_thickness: fields.value("frame_thickness", D::Length, Positive, log),
        vented_magnet: fields.flag("vented_magnet", false, log),
        kind: kind?,
        common,
    };
    contradictions(fields, &part, log);
    screw_circle(fields, &mut part, log);
    Some(part)
}

fn contradictions(fields: &Fields<'_>, part: &DriverPart, log: &mut Log) {
    let has = |keys: &[&'static str]| keys.iter().any(|key| fields.entry(key).is_some());
    let bare = !has(&["size", "sd", "diameter"]) || !has(&["re", "impedance"]);
    if bare && !fields.is_broken() {
        let name = part.common.name.text.clone();
        log.add(PartFault::DriverBare { name }, fields.header());
    }
    for (there, absent) in [("lossy_k", "lossy_n"), ("lossy_n", "lossy_k")] {
        if has(&[there]) && !has(&[absent]) && !fields.is_broken() {
            let fault = PartFault::PairIncomplete { there, absent };
            log.add(fault, fields.place_of(there));
        }
    }
    fields.in_order("cutout", part.cutout, "frame", part.frame, log);
}

/// Screws are between the hole and the edge of the frame. A built-in circle that
/// does not fit a maker's own hole or frame says nothing about that driver.
fn screw_circle(fields: &Fields<'_>, part: &mut DriverPart, log: &mut Log) {
    let Some(circle) = part.screw_circle else {
        return;
    };
    if circle.place.file == fields.header().file {
        let circle = part.screw_circle;
        fields.in_order("cutout", part.cutout, "screw_circle", circle, log);
        fields.in_order("screw_circle", circle, "frame", part.frame, log);
        return;
    }
    let inside = part.cutout.is_some_and(|cutout| circle.si <= cutout.si);
    let outside = part.frame.is_some_and(|frame| circle.si >= frame.si);
    if inside || outside {
        part.screw_circle = None;
    }
}
