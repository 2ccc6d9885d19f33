//! Sentences about parts and the shelf.

use super::{Said, said, shown};
use crate::fault::PartFault;

pub(super) fn say(fault: &PartFault) -> Said {
    match fault {
        PartFault::Unknown {
            noun,
            name,
            nearest,
        } => said(
            "part-unknown",
            format!("there is no {noun} \"{}\" on the shelf", shown(name)),
            format!("no {noun} of this name"),
            match nearest {
                Some(nearest) => format!("did you mean \"{}\"?", shown(nearest)),
                None => format!(
                    "take a {noun} from the built-in shelf, or describe yours in shelf.toml"
                ),
            },
        ),
        PartFault::WrongKind { name, is, noun } => said(
            "part-wrong-kind",
            format!("\"{}\" is a {is}, and a {noun} is needed here", shown(name)),
            format!("a {is}, not a {noun}"),
            format!("name a {noun} of the shelf"),
        ),
        PartFault::NameTwice { noun, name } => said(
            "name-twice",
            format!("the {noun} \"{}\" is in this file twice", shown(name)),
            "named before, further up",
            "give one of them another name, or take one out",
        ),
        PartFault::DriverBare { name } => said(
            "driver-bare",
            format!("too little is known about the driver \"{}\"", shown(name)),
            "a size and a resistance are needed at least",
            "add its `size` (or `sd` or `diameter`) and its `re` (or `impedance`), like `size = \"6.5 in\"` and `re = \"3.4 Ω\"`",
        ),
        PartFault::HoleMissing { name } => said(
            "hole-missing",
            format!("nothing says which hole \"{}\" needs", shown(name)),
            "no `hole`, `cutout` or `thread` here",
            "measure yours and add `hole = \"7.2 mm\"`, `thread = \"M7\"` or, for a rectangle, `cutout = \"27 x 12 mm\"`",
        ),
        PartFault::PairIncomplete { there, absent } => said(
            "pair-incomplete",
            format!("`{there}` means nothing without `{absent}`"),
            format!("`{absent}` is missing beside it"),
            format!("add `{absent}`, or take `{there}` out"),
        ),
        PartFault::OrderWrong { lower, upper } => said(
            "order-wrong",
            format!("`{lower}` must be less than `{upper}`"),
            format!("`{lower}` is not less than `{upper}`"),
            format!("check both `{lower}` and `{upper}`; one of them is wrong"),
        ),
    }
}
