//! The low-battery indicator wanted.

use super::fields::Fields;
use super::shelf::ReadShelf;
use super::values::Bounds::{Positive, Within};
use super::words::CUT_OFFS;
use crate::diagnostic::Log;
use crate::quantity::Dimension as D;
use crate::{
    ComparatorPart, CutOff, IndicatorUse, LedPart, Place, ReferencePart, VoltageReference,
    ZenerPart,
};

/// Longest delay in s that may be asked of a capacitor and resistors: beyond it the leak of
/// the capacitor decides, not their values.
const LONGEST_DELAY: f64 = 120.0;

pub(crate) fn indicator(fields: Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> IndicatorUse {
    let indicator = IndicatorUse {
        warning: fields.value("warning", D::Time, Positive, log),
        delay: fields.value("delay", D::Time, Within(0.0, LONGEST_DELAY), log),
        hysteresis: fields.value("hysteresis", D::Voltage, Positive, log),
        trim: fields.flag("trim", false, log),
        cut_off: fields.word_or("cut_off", CUT_OFFS, CutOff::None, log),
        comparator: shelf.part_if_named::<ComparatorPart>(&fields, "comparator", log),
        reference: reference(&fields, shelf, log),
        led: shelf.part_if_named::<LedPart>(&fields, "led", log),
        place: fields.header(),
    };
    fields.finish(log);
    indicator
}

/// A shunt reference, or a zener diode in its place.
fn reference(
    fields: &Fields<'_>,
    shelf: &ReadShelf,
    log: &mut Log,
) -> Option<(VoltageReference, Place)> {
    let is_zener = fields.entry("reference").is_some_and(|entry| {
        let name = entry.item.as_str();
        let named = |zener: &ZenerPart| Some(zener.common.name.text.as_str()) == name;
        shelf.shelf.zeners.iter().any(named)
    });
    if is_zener {
        let zener = shelf.part_if_named::<ZenerPart>(fields, "reference", log);
        zener.map(|(part, place)| (VoltageReference::Zener(part), place))
    } else {
        let shunt = shelf.part_if_named::<ReferencePart>(fields, "reference", log);
        shunt.map(|(part, place)| (VoltageReference::Shunt(part), place))
    }
}
