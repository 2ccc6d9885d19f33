//! The control panel.

use super::fields::{Fields, wrong_type};
use super::fuse::{Holds, fuse_in};
use super::panel_electric::roles;
use super::role::role;
use super::shelf::ReadShelf;
use super::values::Bounds::{NotNegative, Positive};
use super::words::{CONTROL_KINDS, WALLS, word_of};
use crate::diagnostic::Log;
use crate::fault::{Lengths, WoodFault};
use crate::quantity::Dimension as D;
use crate::{Control, ControlKind, ControlPart, ControlUse, DialScale, SheetPart, Wall};

/// Most marks between two numbers of a scale.
const MOST_BETWEEN: u32 = 20;
/// Most numbers of a scale.
const MOST_NUMBERS: u32 = 100;

pub(crate) fn control(fields: Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<Control> {
    let on = fields.word_or("on", WALLS, Wall::Front, log);
    let at = fields.need_position("at", log);
    let size = fields.need_two("size", Lengths::Face, log);
    let plate = shelf.part::<SheetPart>(&fields, "plate", log);
    let recess = fields.value("recess", D::Length, NotNegative, log);
    let boxed = fields.flag("boxed", false, log);
    fields.without_use(
        "boxed",
        !fields.is_absent("recess"),
        "add `recess = \"20 mm\"`",
        log,
    );
    let ledge = fields.value("ledge", D::Length, Positive, log);
    let screw = fields.value("screw", D::Length, Positive, log);
    let parts = parts(&fields, shelf, log);
    let place = fields.header();
    fields.finish(log);
    let (plate, plate_place) = plate?;
    Some(Control {
        on,
        at: at?,
        size: size?,
        plate,
        plate_place,
        recess,
        boxed,
        ledge,
        screw,
        parts,
        place,
    })
}

fn parts(fields: &Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Vec<ControlUse> {
    let layers = fields.layers("part", log);
    layers
        .into_iter()
        .filter_map(|layer| part(Fields::new("[[control.part]]", layer, None), shelf, log))
        .collect()
}

fn part(fields: Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<ControlUse> {
    let part = shelf.part::<ControlPart>(&fields, "part", log);
    let at = fields.need_position("at", log);
    let label = fields.text("label", log);
    let between = fields.count("between", 0, MOST_BETWEEN, log).unwrap_or(0);
    let scale = scale(&fields, between, log);
    fields.without_use(
        "between",
        !fields.is_absent("scale"),
        "add `scale = \"0 to 10\"`",
        log,
    );
    let bridged_output = fields.flag("bridged_output", false, log);
    let kind = part.as_ref().map(|(part, _)| part.kind.value);
    let can = kind.map(|kind| (word_of(CONTROL_KINDS, kind), roles(kind)));
    let does = role(&fields, can, log);
    let holds = part.as_ref().map(|(part, _)| {
        let is_holder = part.kind.value == ControlKind::FuseHolder;
        Holds::of(is_holder, part.electric.takes)
    });
    let fuse = fuse_in(&fields, holds, shelf, log);
    fields.finish(log);
    let (part, place) = part?;
    let at = at?;
    Some(ControlUse {
        part,
        place,
        at: [at.across, at.up],
        label,
        scale,
        bridged_output,
        does,
        fuse,
    })
}

/// A scale such as `0 to 10`.
fn scale(fields: &Fields<'_>, between: u32, log: &mut Log) -> Option<DialScale> {
    let entry = fields.entry("scale")?;
    let Some(text) = entry.item.as_str() else {
        wrong_type(
            &entry,
            "scale",
            "first and last number in quotes",
            "\"0 to 10\"",
            log,
        );
        return None;
    };
    let ends = text.split_once(" to ").and_then(|(from, to)| {
        let from: i32 = from.trim().parse().ok()?;
        let to: i32 = to.trim().parse().ok()?;
        (1..=MOST_NUMBERS)
            .contains(&from.abs_diff(to))
            .then_some((from, to))
    });
    match ends {
        Some((from, to)) => Some(DialScale { from, to, between }),
        None => {
            let found = text.to_owned();
            log.add(WoodFault::ScaleBad { found }, entry.place());
            None
        }
    }
}
