//! The saw, the glue, and the instruments to test with.

use super::fields::Fields;
use super::values::Bounds::{NotNegative, Positive, Within};
use super::words::{INSTRUMENTS, SAWS, word_of};
use crate::diagnostic::Log;
use crate::fault::ElectricFault;
use crate::quantity::Dimension as D;
use crate::{Glue, Instrument, Saw, SawKind, Workshop};

/// A wider cut is no saw's, in m.
const WIDEST_KERF: f64 = 0.01;
/// A saw that is further off is not set at all, in rad.
const MOST_ERROR: f64 = 0.1;

pub(crate) fn saw(fields: Option<Fields<'_>>, log: &mut Log) -> Saw {
    let Some(fields) = fields else {
        return Saw::usual();
    };
    let saw = Saw {
        kind: fields.word_or("kind", SAWS, SawKind::Panel, log),
        kerf: fields.value("kerf", D::Length, Within(0.0, WIDEST_KERF), log),
        trim: fields.value("trim", D::Length, NotNegative, log),
        longest: fields.value("longest", D::Length, Positive, log),
        narrowest: fields.value("narrowest", D::Length, NotNegative, log),
        angle_error: fields.value("angle_error", D::Angle, Within(0.0, MOST_ERROR), log),
        length_error: fields.value("length_error", D::Length, NotNegative, log),
        place: Some(fields.header()),
    };
    fields.in_order("narrowest", saw.narrowest, "longest", saw.longest, log);
    fields.finish(log);
    saw
}

pub(crate) fn glue(fields: Option<Fields<'_>>, log: &mut Log) -> Glue {
    let Some(fields) = fields else {
        return Glue::usual();
    };
    let glue = Glue {
        gap: fields.value("gap", D::Length, NotNegative, log),
        open_time: fields.value("open_time", D::Time, Positive, log),
        per_joint: fields.value("per_joint", D::Time, Positive, log),
        spread: fields.value("spread", D::AreaDensity, Positive, log),
        clamp_time: fields.value("clamp_time", D::Time, Positive, log),
        place: Some(fields.header()),
    };
    fields.finish(log);
    glue
}

pub(crate) fn workshop(fields: Option<Fields<'_>>, log: &mut Log) -> Workshop {
    let Some(fields) = fields else {
        return Workshop::usual();
    };
    let mut tools: Vec<Instrument> = Vec::new();
    for tool in fields.words("tools", INSTRUMENTS, log) {
        if tools.contains(&tool.value) {
            let (key, word) = ("tools", word_of(INSTRUMENTS, tool.value));
            let place = tool.place.unwrap_or_else(|| fields.place_of(key));
            log.add(ElectricFault::ListedTwice { key, word }, place);
        }
        tools.push(tool.value);
    }
    let place = Some(fields.header());
    if fields.is_absent("tools") {
        tools = Workshop::usual().tools;
    }
    fields.finish(log);
    Workshop { tools, place }
}
