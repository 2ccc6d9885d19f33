//! What is done before the finish, and what waits for it.

use super::model::{Layer, Turn, When};
use crate::words;
use design::{Closing, Design, FinishBase};

/// What stands before and after the coats; nothing where the box is left raw.
pub(super) fn turns(design: &Design, layers: &[Layer]) -> Vec<Turn> {
    if layers.is_empty() {
        return Vec::new();
    }
    let said = &design.enclosure.carpentry;
    let last = words::wall(crate::carpentry::wall(said.last.value));
    let mut out = Vec::new();
    let mut add = |when, words: String| out.push(Turn { when, words });
    add(
        When::Before,
        "all gluing: glue holds on bare wood only, and squeeze-out under a finish shows".into(),
    );
    match said.last_with.value {
        Closing::Glue => add(
            When::Before,
            format!(
                "what only the open box lets in is fitted and tested, and the {last} glued on: \
                 tape over every opening, dust and vapour stay outside"
            ),
        ),
        Closing::Screws => add(
            When::Before,
            format!("the {last} screwed on for sanding and coats, without its sealing strip"),
        ),
    }
    add(
        When::Before,
        "every hole and screw hole drilled, edges rounded, feet and handle tried on".into(),
    );
    if design.control.is_some() {
        add(
            When::Before,
            "the control panel tried in its opening, then taken out: it is finished by itself"
                .into(),
        );
    }
    add(
        When::Handled,
        "masks off, holes cleared; handle, feet, drivers, control panel and wires in".into(),
    );
    let gives_off = layers.iter().any(|layer| layer.base != FinishBase::Water);
    let (when, why) = if gives_off {
        (When::Cured, "vapour of the finish gathers in a closed box")
    } else {
        (When::Handled, "it is the last thing in")
    };
    add(when, format!("the battery: {why}"));
    add(
        When::Cured,
        "covers, straps and soft feet: they print into a finish that has not cured; then rain, \
         sand and cups"
            .into(),
    );
    out
}
