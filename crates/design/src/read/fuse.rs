//! A fuse on the shelf, and the fuse in a holder.

use super::fields::Fields;
use super::shelf::ReadShelf;
use super::values::Bounds::Positive;
use super::words::{FUSE_FORMS, FUSE_SPEEDS, word_of};
use crate::diagnostic::Log;
use crate::fault::ElectricFault;
use crate::quantity::Dimension as D;
use crate::{Choice, Common, FuseForm, FusePart, FuseSpeed, Place};

pub(crate) fn read(fields: &Fields<'_>, common: Common, log: &mut Log) -> Option<FusePart> {
    let form = fields.need_word("form", FUSE_FORMS, log);
    let current = fields.need("current", D::Current, Positive, log);
    let dc_voltage = fields.value("dc_voltage", D::Voltage, Positive, log);
    let breaking_current = fields.value("breaking_current", D::Current, Positive, log);
    let speed = fields.word_or("speed", FUSE_SPEEDS, FuseSpeed::Fast, log);
    fields.in_order(
        "current",
        current,
        "breaking_current",
        breaking_current,
        log,
    );
    Some(FusePart {
        common,
        form: form?,
        current: current?,
        dc_voltage,
        breaking_current,
        speed,
    })
}

/// What a part is as a place for a fuse.
pub(crate) enum Holds {
    /// None goes in.
    Nothing,
    /// Fuses of a form, or of one not said.
    Fuses(Option<FuseForm>),
}

impl Holds {
    /// Of a part that is or is not a holder.
    pub(crate) fn of(is_holder: bool, takes: Option<Choice<FuseForm>>) -> Self {
        if is_holder {
            Self::Fuses(takes.map(|takes| takes.value))
        } else {
            Self::Nothing
        }
    }
}

/// The fuse named for a part; `None` for `holds` where the part is not known.
pub(crate) fn fuse_in(
    fields: &Fields<'_>,
    holds: Option<Holds>,
    shelf: &ReadShelf,
    log: &mut Log,
) -> Option<(FusePart, Place)> {
    let named = shelf.part_if_named::<FusePart>(fields, "fuse", log);
    match holds {
        Some(Holds::Nothing) => {
            fields.without_use("fuse", false, "name a fuse holder as the `part`", log);
        }
        Some(Holds::Fuses(Some(takes))) => {
            if let Some((fuse, place)) = &named
                && fuse.form.value != takes
            {
                let fault = ElectricFault::FuseForm {
                    fuse: word_of(FUSE_FORMS, fuse.form.value),
                    takes: word_of(FUSE_FORMS, takes),
                };
                log.add(fault, *place);
            }
        }
        Some(Holds::Fuses(None)) | None => {}
    }
    named
}
