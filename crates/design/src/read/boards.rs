//! Boards inside the box: braces, cleats, and the battery's bay.

use super::fields::Fields;
use super::shelf::ReadShelf;
use super::values::Bounds::{NotNegative, Positive};
use super::words::{HALF_OF_WALLS, WALLS};
use crate::diagnostic::Log;
use crate::fault::{DesignFault, Lengths};
use crate::quantity::Dimension as D;
use crate::{Bay, Brace, BraceForm, Cleat, Wall};

/// Most holes of a bay.
const MOST_HOLES: u32 = 100;

pub(crate) fn braces(top: &Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Vec<Brace> {
    let layers = top.layers("brace", log);
    layers
        .into_iter()
        .filter_map(|layer| brace(Fields::new("[[brace]]", layer, None), shelf, log))
        .collect()
}

fn brace(fields: Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<Brace> {
    let name = fields.need_text("name", "\"brace across the middle\"", log);
    let sheet = shelf.part_if_named(&fields, "wall", log);
    let form = brace_form(&fields, log);
    let place = fields.header();
    fields.finish(log);
    Some(Brace {
        name: name?,
        form: form?,
        sheet,
        place,
    })
}

fn brace_form(fields: &Fields<'_>, log: &mut Log) -> Option<BraceForm> {
    let parallel = fields.word("parallel", HALF_OF_WALLS, log);
    let from = fields.word("from", HALF_OF_WALLS, log);
    let (is_frame, is_stick) = (!fields.is_absent("parallel"), !fields.is_absent("from"));
    if is_frame == is_stick {
        if is_frame {
            let (first, second) = ("parallel", "from");
            log.add(
                DesignFault::ShapeTwice { first, second },
                fields.place_of("from"),
            );
        } else if !fields.is_broken() {
            let fault = DesignFault::ShapeMissing {
                keys: "`parallel` or `from`",
                example: "`parallel = \"front\"` for a board with a window or `from = \"front\"` for a stick",
            };
            log.add(fault, fields.header());
        }
        fields.know(&["at", "window", "section"]);
        return None;
    }
    if is_frame {
        let at = fields.need("at", D::Length, NotNegative, log);
        let window = fields.two("window", Lengths::Face, log);
        fields.without_use("section", false, "write `from` in place of `parallel`", log);
        Some(BraceForm::Frame {
            parallel: parallel?.value,
            at: at?,
            window,
        })
    } else {
        let section = fields.need_two("section", Lengths::Section, log);
        let at = fields.need_position("at", log);
        fields.without_use("window", false, "write `parallel` in place of `from`", log);
        Some(BraceForm::Stick {
            from: from?.value,
            section: section?,
            at: at?,
        })
    }
}

pub(crate) fn cleats(top: &Fields<'_>, log: &mut Log) -> Vec<Cleat> {
    let layers = top.layers("cleat", log);
    layers
        .into_iter()
        .filter_map(|layer| cleat(Fields::new("[[cleat]]", layer, None), log))
        .collect()
}

fn cleat(fields: Fields<'_>, log: &mut Log) -> Option<Cleat> {
    let name = fields.need_text("name", "\"cleat under the back\"", log);
    let along = fields.need_edge("along", log);
    let section = fields.need_two("section", Lengths::Section, log);
    let length = fields.value("length", D::Length, Positive, log);
    let offset = fields.value("offset", D::Length, NotNegative, log);
    if let Some((a, b)) = along {
        let has_end = [a, b]
            .iter()
            .any(|wall| matches!(wall, Wall::Front | Wall::Back));
        fields.without_use(
            "offset",
            has_end,
            "lay the cleat along the front or the back",
            log,
        );
    }
    let place = fields.header();
    fields.finish(log);
    Some(Cleat {
        name: name?,
        along: along?,
        section: section?,
        length,
        offset,
        place,
    })
}

pub(crate) fn bay(fields: Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Option<Bay> {
    let size = fields.need_size("inside", log);
    let at = fields.need_corner("at", log);
    let sheet = shelf.part_if_named(&fields, "wall", log);
    let opens = fields.word_or("opens", WALLS, Wall::Back, log);
    let hole = fields.need("hole", D::Length, Positive, log);
    let holes = fields.need_count("holes", 1, MOST_HOLES, log);
    let place = fields.header();
    fields.finish(log);
    Some(Bay {
        size: size?,
        at: at?,
        sheet,
        opens,
        hole: hole?,
        holes: holes?,
        place,
    })
}
