//! Sentences about wires, fuses and drawers.

use super::{Said, either, said, shown};
use crate::fault::ElectricFault;

pub(super) fn say(fault: &ElectricFault) -> Said {
    match fault {
        ElectricFault::FuseForm { fuse, takes } => said(
            "fuse-form",
            format!("a {fuse} fuse does not go into a holder for {takes} fuses"),
            format!("a {fuse} fuse, and the holder takes {takes} fuses"),
            format!("name a {takes} fuse, or a holder for {fuse} fuses"),
        ),
        ElectricFault::RoleWrong { does, noun, can } => said(
            "role-wrong",
            format!("a part of kind \"{noun}\" cannot be for \"{does}\""),
            format!("not what a {noun} does"),
            format!("write {}, or name another part", either(&quoted(can))),
        ),
        ElectricFault::DrawerEmpty => said(
            "drawer-empty",
            "this drawer has no values",
            "nothing is in it",
            "add `values = [\"1 kΩ\", \"4k7\"]`, or `series = \"E12\"` with `from` and `to`",
        ),
        ElectricFault::DrawerTwice => said(
            "drawer-twice",
            "this drawer says its values twice: in `values` and by `series`",
            "`values` lists them already",
            "keep `values`, or `series` with `from` and `to`; a second drawer takes the rest",
        ),
        ElectricFault::ListedTwice { key, word } => said(
            "listed-twice",
            format!("`{key}` names \"{word}\" twice"),
            "named before in this list",
            "take one of them out",
        ),
        ElectricFault::EndsSame => said(
            "wire-ends-same",
            "this wire ends where it begins",
            "the same terminal as in `from`",
            "name two different terminals, as the wire list of the pack does",
        ),
        ElectricFault::TerminalBad { key, found } => said(
            "terminal-bad",
            format!("`{key}`: \"{}\" is no terminal of a part", shown(found)),
            "a part and its terminal are needed here",
            "write the part, a space and its terminal, like \"battery +\" or \"left driver 1 -\"",
        ),
    }
}

fn quoted(words: &[&str]) -> Vec<String> {
    words.iter().map(|word| format!("\"{word}\"")).collect()
}
