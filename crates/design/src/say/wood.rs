//! Sentences about the box as wood.

use super::{Said, said, shown};
use crate::fault::WoodFault;

pub(super) fn say(fault: &WoodFault) -> Said {
    match fault {
        WoodFault::WithoutUse { key, wants } => said(
            "key-without-use",
            format!("`{key}` changes nothing here"),
            "means nothing beside the other keys",
            format!("take it out, or {wants}"),
        ),
        WoodFault::EdgeTreatedTwice => said(
            "edge-treated-twice",
            "the outer edges are both rounded and chamfered",
            "rounded already by `round`",
            "keep one of `round` and `chamfer`",
        ),
        WoodFault::DeeperThanWall {
            key,
            wall,
            thickness,
        } => said(
            "deeper-than-wall",
            format!("`{key}` would cut right through the {wall}, which is {thickness} thick"),
            format!("the {wall} is {thickness} thick"),
            format!("write less than {thickness}, or take a thicker wall"),
        ),
        WoodFault::WallsApart { walls: [a, b] } => said(
            "walls-apart",
            format!("there is no edge between {a} and {b}"),
            "these two walls do not meet",
            "name two walls that meet, like \"front-top\"",
        ),
        WoodFault::NotOfEdge { key, edge } => said(
            "wall-not-of-edge",
            format!("`{key}` names a wall that is not at the edge {edge}"),
            format!("not a wall of {edge}"),
            format!("name one of the two walls of {edge}"),
        ),
        WoodFault::LeansShut => said(
            "box-leans-shut",
            "front and back lean so far that they meet below the top",
            "no room is left under the top",
            "let it lean less, or make the box deeper or lower",
        ),
        WoodFault::PlacesUneven { count, found } => {
            let (are, places) = if *found == 1 {
                ("is", "place")
            } else {
                ("are", "places")
            };
            said(
                "places-uneven",
                format!("there {are} {found} {places} for {count} of them"),
                format!("{found} here, {count} by `count`"),
                "give one place for each, as `at = [\"90 x 100 mm\", \"270 x 100 mm\"]`, or take `at` out to have them set in a row",
            )
        }
        WoodFault::PlacedTwice => said(
            "placed-twice",
            "this part has its place in `at` and is to have one found",
            "`at` gives its place already",
            "keep `at` to place it yourself, or `place = \"auto\"` to have its place found",
        ),
        WoodFault::NoOutline { key } => said(
            "placed-without-outline",
            format!("`{key}` cannot place a bare volume, which has no outline"),
            "nothing to place",
            "take it out, or give a `block` or `cylinder` in place of `volume`",
        ),
        WoodFault::BayNotVented => said(
            "bay-not-vented",
            "the box has a [bay], but the battery is not in it",
            "a bay without its battery",
            "write `vented_bay = true` in [battery], or take [bay] out",
        ),
        WoodFault::RecessTooDeep { across } => said(
            "recess-too-deep",
            format!("the recess is deeper than the box, which is {across} there"),
            format!("the box is {across} in this direction"),
            format!("write less than {across}, or put the panel `on` another wall"),
        ),
        WoodFault::SheetTooSmall { wall, least, sheet } => said(
            "sheet-too-small",
            format!("the {wall}, at least {least}, cannot be cut from its sheet, {sheet}"),
            "larger than the sheet, either way round",
            "take a larger sheet, or make the box smaller; a wall joined of two pieces is a sheet of its own in shelf.toml",
        ),
        WoodFault::ScaleBad { found } => said(
            "scale-bad",
            format!("\"{}\" is no scale", shown(found)),
            "first and last number are needed here",
            "write two different whole numbers, at most 100 apart, like `scale = \"0 to 10\"`",
        ),
    }
}
