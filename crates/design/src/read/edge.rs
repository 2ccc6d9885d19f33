//! Edges of the box by the two walls that meet there: `front-top`.

use super::fields::{Fields, wrong_type};
use super::nearest::nearest;
use super::words::{WALLS, word_of};
use crate::Wall;
use crate::diagnostic::Log;
use crate::fault::{TextFault, WoodFault};

/// The twelve edges; either wall may be named first.
const EDGES: [(&str, (Wall, Wall)); 12] = {
    use Wall::{Back, Bottom, Front, Left, Right, Top};
    [
        ("front-left", (Front, Left)),
        ("front-right", (Front, Right)),
        ("front-top", (Front, Top)),
        ("front-bottom", (Front, Bottom)),
        ("back-left", (Back, Left)),
        ("back-right", (Back, Right)),
        ("back-top", (Back, Top)),
        ("back-bottom", (Back, Bottom)),
        ("left-top", (Left, Top)),
        ("left-bottom", (Left, Bottom)),
        ("right-top", (Right, Top)),
        ("right-bottom", (Right, Bottom)),
    ]
};

/// The two walls in the order of the list of edges.
fn in_order((a, b): (Wall, Wall)) -> (Wall, Wall) {
    (a.min(b), a.max(b))
}

/// The edge as the list of edges names it.
pub(crate) fn edge_name(between: (Wall, Wall)) -> &'static str {
    let same = |(_, walls): &&(&str, (Wall, Wall))| *walls == in_order(between);
    EDGES.iter().find(same).map_or("", |(name, _)| *name)
}

impl Fields<'_> {
    /// The two walls of an edge, in the order they are written.
    pub(crate) fn need_edge(&self, key: &'static str, log: &mut Log) -> Option<(Wall, Wall)> {
        let Some(entry) = self.entry(key) else {
            self.missing(key, "\"front-top\"", log);
            return None;
        };
        let Some(text) = entry.item.as_str() else {
            wrong_type(&entry, key, "two walls in quotes", "\"front-top\"", log);
            return None;
        };
        if let Some((a, b)) = walls(text) {
            if edge_name((a, b)).is_empty() {
                let walls = [a, b].map(|wall| word_of(WALLS, wall));
                log.add(WoodFault::WallsApart { walls }, entry.place());
                return None;
            }
            return Some((a, b));
        }
        let words: Vec<&'static str> = EDGES.iter().map(|(word, _)| *word).collect();
        let fault = TextFault::ChoiceUnknown {
            key: key.to_owned(),
            word: text.to_owned(),
            nearest: nearest(text, words.iter().copied()),
            words,
        };
        log.add(fault, entry.place());
        None
    }
}

fn walls(text: &str) -> Option<(Wall, Wall)> {
    let wall = |name: &str| {
        let same = |(word, _): &&(&str, Wall)| *word == name.trim();
        WALLS.iter().find(same).map(|(_, wall)| *wall)
    };
    let (a, b) = text.split_once('-')?;
    Some((wall(a)?, wall(b)?))
}
