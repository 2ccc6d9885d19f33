//! A part for control panels on the shelf.

use super::fields::Fields;
use super::values::Bounds::{NotNegative, Positive};
use super::values::checked;
use super::words::CONTROL_KINDS;
use crate::diagnostic::Log;
use crate::fault::{DesignFault, Lengths, PartFault};
use crate::quantity::{self, Dimension as D};
use crate::{Common, ControlPart, Tolerance, Value};

pub(crate) fn read(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<ControlPart> {
    let kind = fields.need_word("kind", CONTROL_KINDS, log);
    let thread = thread(fields, log);
    let cutout = fields.two("cutout", Lengths::Face, log);
    let mut positive = |key| fields.value(key, D::Length, Positive, log);
    let part = ControlPart {
        hole: positive("hole"),
        bush: positive("bush"),
        nut_height: positive("nut_height"),
        nut: positive("nut"),
        knob: positive("knob"),
        knob_height: positive("knob_height"),
        body: fields.size("body", log),
        behind: fields.value("behind", D::Length, NotNegative, log),
        plug: fields.value("plug", D::Length, NotNegative, log),
        insulated: fields.flag("insulated", false, log),
        radio: fields.flag("radio", false, log),
        electric: super::panel_electric::read(fields, log),
        kind: kind?,
        cutout,
        thread,
        common,
    };
    hole(fields, &part, log);
    Some(part)
}

fn hole(fields: &Fields<'_>, part: &ControlPart, log: &mut Log) {
    let has = |key: &str| !fields.is_absent(key);
    if !["hole", "cutout", "thread"].into_iter().any(has) && !fields.is_broken() {
        let name = part.common.name.text.clone();
        log.add(PartFault::HoleMissing { name }, fields.header());
    }
    if has("hole") && has("cutout") {
        let (first, second) = ("hole", "cutout");
        log.add(
            DesignFault::ShapeTwice { first, second },
            fields.place_of(second),
        );
    }
    fields.not_above("thread", part.thread, "hole", part.hole, log);
    fields.in_order("hole", part.hole, "nut", part.nut, log);
}

/// A thread as the trade writes it, `M7` or `M7 x 0.75`, or its diameter.
fn thread(fields: &Fields<'_>, log: &mut Log) -> Option<Value> {
    let metric = fields.entry("thread").and_then(|entry| {
        let text = entry.item.as_str()?.trim();
        let bare = text.strip_prefix('M')?;
        let diameter = bare.split(['x', 'X', '×']).next()?;
        let read = quantity::quantity(&format!("{} mm", diameter.trim()), D::Length).ok()?;
        (read.tolerance == Tolerance::Unstated).then(|| Value {
            si: read.si,
            tolerance: Tolerance::Unstated,
            place: entry.element().place(),
        })
    });
    match metric {
        Some(value) => checked("thread", value, D::Length, Positive, log),
        None => fields.value("thread", D::Length, Positive, log),
    }
}
