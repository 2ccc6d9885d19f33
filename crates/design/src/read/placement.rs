//! Where openings and parts are: on which wall, where in the box.

use super::fields::Fields;
use super::words::{TURNS, WALLS};
use crate::diagnostic::Log;
use crate::fault::WoodFault;
use crate::{Mounting, Placement, Wall};

/// The one word `place` takes; saying nothing means the same.
const AUTO: &[(&str, ())] = &[("auto", ())];

/// Where the openings of a group sit; `count` is how many there are.
pub(crate) fn mounting(fields: &Fields<'_>, count: Option<u32>, log: &mut Log) -> Mounting {
    let on = fields.word_or("on", WALLS, Wall::Front, log);
    let read = fields.positions("at", log);
    if let (Some(at), Some(count)) = (&read, count)
        && !at.is_empty()
        && at.len() != count as usize
    {
        let found = at.len();
        log.add(
            WoodFault::PlacesUneven { count, found },
            fields.place_of("at"),
        );
    }
    Mounting {
        on,
        at: read.unwrap_or_default(),
    }
}

/// Where a part stands.
pub(crate) fn placement(fields: &Fields<'_>, log: &mut Log) -> Placement {
    let at = fields.corner("at", log);
    let auto = fields.word("place", AUTO, log);
    if !fields.is_absent("at")
        && let Some(place) = auto.and_then(|auto| auto.place)
    {
        log.add(WoodFault::PlacedTwice, place);
    }
    let is_said = |key: &&str| !fields.is_absent(key);
    let said = ["at", "place", "turn", "fixed_to"]
        .into_iter()
        .find(is_said);
    Placement {
        at,
        turn: fields.word("turn", TURNS, log),
        fixed_to: fields.word("fixed_to", WALLS, log),
        place: said.map_or_else(|| fields.header(), |key| fields.place_of(key)),
    }
}

/// Notes where a part without outline is given a place.
pub(crate) fn has_no_outline(fields: &Fields<'_>, log: &mut Log) {
    for key in ["at", "turn", "fixed_to"] {
        if !fields.is_absent(key) {
            log.add(WoodFault::NoOutline { key }, fields.place_of(key));
        }
    }
}
