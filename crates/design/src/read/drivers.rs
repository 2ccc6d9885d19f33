//! The drivers of the design, and which channels they are on.

use super::fields::Fields;
use super::placement::mounting;
use super::shelf::ReadShelf;
use super::words::{SIDES, WIRINGS};
use crate::diagnostic::Log;
use crate::fault::{DesignFault, TextFault};
use crate::{Choice, DriverUse, Place, Side, Wiring};

/// Most equal drivers of one group.
const MOST_DRIVERS: u32 = 64;

/// The drivers read, and whether every group could be.
pub(crate) struct Drivers {
    pub(crate) uses: Vec<DriverUse>,
    /// Sides of all groups, with the place to blame.
    pub(crate) sides: Vec<(Side, Place)>,
}

pub(crate) fn drivers(top: &Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Drivers {
    let mut drivers = Drivers {
        uses: Vec::new(),
        sides: Vec::new(),
    };
    let layers = top.layers("drivers", log);
    if layers.is_empty() && top.is_absent("drivers") && !top.is_broken() {
        let fault = TextFault::TableMissing {
            header: "[[drivers]]".to_owned(),
            example: "part = \"woofer 4 in, 4 ohm\"".to_owned(),
        };
        log.add(fault, top.header());
    }
    for layer in layers {
        let fields = Fields::new("[[drivers]]", layer, None);
        let group = group(&fields, shelf, log);
        drivers.sides.push((group.side.value, group.side_place));
        drivers.uses.extend(group.driver);
        fields.finish(log);
    }
    sides_agree(&drivers.sides, log);
    drivers
}

struct Group {
    driver: Option<DriverUse>,
    side: Choice<Side>,
    side_place: Place,
}

fn group(fields: &Fields<'_>, shelf: &ReadShelf, log: &mut Log) -> Group {
    let part = shelf.part(fields, "part", log);
    let count = fields.count("count", 1, MOST_DRIVERS, log);
    let count_is_bad = count.is_none() && !fields.is_absent("count");
    let side = fields.word_or("side", SIDES, Side::Both, log);
    let side_is_bad = side.place.is_none() && !fields.is_absent("side");
    let wiring = fields.word_or("wiring", WIRINGS, Wiring::Parallel, log);
    let mounting = mounting(fields, count.filter(|_| !count_is_bad), log);
    let flush = fields.flag("flush", false, log);
    if fields.is_absent("count") {
        fields.missing("count", "2", log);
    }
    if let Some(count) = count
        && !side_is_bad
    {
        shared_evenly(fields, count, side.value, wiring.value, log);
    }
    let driver = match (part, count) {
        (Some((part, place)), Some(count)) if !count_is_bad => Some(DriverUse {
            part,
            place,
            count,
            side,
            wiring,
            mounting,
            flush,
        }),
        _ => None,
    };
    Group {
        driver,
        side,
        side_place: fields.place_of("side"),
    }
}

fn shared_evenly(fields: &Fields<'_>, count: u32, side: Side, wiring: Wiring, log: &mut Log) {
    if side == Side::Both && !count.is_multiple_of(2) {
        log.add(DesignFault::SidesUneven { count }, fields.place_of("count"));
        return;
    }
    let per_channel = if side == Side::Both { count / 2 } else { count };
    let fits = match wiring {
        Wiring::Parallel => true,
        Wiring::Series => per_channel >= 2,
        Wiring::SeriesParallel => per_channel >= 4 && per_channel.is_multiple_of(2),
    };
    if !fits {
        let fault = DesignFault::WiringUneven {
            wiring: match wiring {
                Wiring::SeriesParallel => "series-parallel",
                Wiring::Series | Wiring::Parallel => "series",
            },
            per_channel,
        };
        log.add(fault, fields.place_of("wiring"));
    }
}

fn sides_agree(sides: &[(Side, Place)], log: &mut Log) {
    let stereo = sides.iter().any(|(side, _)| *side != Side::Mono);
    if stereo && let Some((_, place)) = sides.iter().find(|(side, _)| *side == Side::Mono) {
        log.add(DesignFault::SidesMixed, *place);
    }
}
