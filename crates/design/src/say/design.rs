//! Sentences about designs that contradict themselves.

use super::{Said, said, shown};
use crate::fault::DesignFault;

pub(super) fn say(fault: &DesignFault) -> Said {
    match fault {
        DesignFault::BoxSizeTwice => said(
            "box-size-twice",
            "[box] gives both `outside` and `inside`",
            "one of the two follows from the other",
            "keep the one you measure by; the other follows from the wall",
        ),
        DesignFault::BoxSizeMissing => said(
            "box-size-missing",
            "[box] gives no size",
            "neither `outside` nor `inside` is here",
            "add a line such as `outside = \"360 x 200 x 180 mm\"`",
        ),
        DesignFault::BoxNoRoom { side } => said(
            "box-no-room",
            format!("two walls are thicker than the {side} of the box"),
            format!("no room is left across the {side}"),
            "make the box larger or the wall thinner; sizes are width × height × depth",
        ),
        DesignFault::KindTableMissing {
            kind,
            table,
            example,
        } => said(
            "kind-table-missing",
            format!("a box of kind \"{kind}\" needs the table [{table}]"),
            format!("[{table}] is missing"),
            format!("add `[{table}]` with {example}"),
        ),
        DesignFault::KindTableUnwanted { kind, table, fits } => said(
            "kind-table-unwanted",
            format!("[{table}] does not belong to a box of kind \"{kind}\""),
            format!("this box is \"{kind}\""),
            format!("take [{table}] out, or write `kind = \"{fits}\"` in [box]"),
        ),
        DesignFault::SidesUneven { count } => said(
            "sides-uneven",
            format!("{count} drivers cannot be shared evenly between left and right"),
            "an odd number for two sides",
            "write an even count, or give `side = \"left\"`, \"right\" or \"mono\"",
        ),
        DesignFault::SidesMixed => said(
            "sides-mixed",
            "some drivers are mono and others are on the left or right",
            "mono here, stereo elsewhere",
            "write \"mono\" for all groups, or for none",
        ),
        DesignFault::ChambersMono => said(
            "chambers-mono",
            "a mono box has no sides to give a chamber each",
            "one chamber for each side of a mono box",
            "write `chambers = \"shared\"`, or put the drivers on `side = \"both\"`",
        ),
        DesignFault::WiringUneven {
            wiring,
            per_channel,
        } => said(
            "wiring-uneven",
            format!("{per_channel} on one channel cannot be wired in {wiring}"),
            format!("{per_channel} on each channel it serves"),
            match *wiring {
                "series" => {
                    "in series there must be at least two on one channel; a single one is \"parallel\""
                }
                _ => {
                    "\"series-parallel\" joins strings of two: there must be four, six, eight … on one channel"
                }
            },
        ),
        DesignFault::AmplifierChannels { name } => said(
            "amplifier-channels",
            format!(
                "\"{}\" has one channel, and the drivers are on two sides",
                shown(name)
            ),
            "a board of one channel",
            "take a board of two channels, or write `side = \"mono\"` for the drivers",
        ),
        DesignFault::ShapeMissing { keys, example } => said(
            "shape-missing",
            "this thing has no shape",
            format!("no {keys} here"),
            format!("add a line such as {example}"),
        ),
        DesignFault::ShapeTwice { first, second } => said(
            "shape-twice",
            format!("this thing has two shapes: `{first}` and `{second}`"),
            "a second shape",
            "keep the one that describes it best",
        ),
    }
}
