//! Things in and on the box: what they are called, and by which key they are known.

use crate::carpentry::{Carpentry, Near, Origin, PartKind, PlacedPart};
use design::Design;
use wood::{BoardKind, PanelId, Wall};

/// The key of the part of this index: equal parts each have their own, the parts of the
/// control panel are one thing.
pub(super) fn key(carpentry: &Carpentry, index: usize) -> String {
    let part = &carpentry.parts[index];
    match part.kind {
        PartKind::Control => "control".into(),
        PartKind::Driver | PartKind::Radiator | PartKind::Vent => {
            let before = carpentry.parts[..index].iter();
            let earlier = before.filter(|other| other.table == part.table).count();
            middle_key(&part.table, earlier)
        }
        _ => part.table.clone(),
    }
}

/// The key of one of several that sit in a wall, counted from 0.
pub(super) fn middle_key(table: &str, index: usize) -> String {
    format!("{table}.at.{}", index + 1)
}

/// The key of what wants a hole or a board.
pub(super) fn origin_key(origin: &Origin) -> String {
    let several = origin.table.starts_with("drivers.")
        || matches!(origin.table.as_str(), "box.vent" | "box.radiator");
    match origin.table.as_str() {
        table if several => middle_key(table, origin.index),
        // The screws of the wall that comes off are not the size of the box.
        "box" => "box.last_with".into(),
        table => table.into(),
    }
}

/// The key of a wall.
pub(super) fn wall_key(wall: Wall) -> String {
    format!("wall.{}", crate::words::wall(wall))
}

/// The key of a wall or a board.
pub(super) fn panel_key(carpentry: &Carpentry, panel: PanelId) -> String {
    match panel {
        PanelId::Wall(wall) => wall_key(wall),
        PanelId::Board(index) => board_key(carpentry, index),
    }
}

/// The key of a board: the dividing panel has no table of its own.
pub(super) fn board_key(carpentry: &Carpentry, index: usize) -> String {
    match carpentry.body.plan.boards[index].kind {
        BoardKind::Divider => "divider".into(),
        _ => origin_key(&carpentry.boards[index]),
    }
}

/// The key of what a part is near.
pub(super) fn near_key(carpentry: &Carpentry, near: Near) -> String {
    match near {
        Near::Part(index) => key(carpentry, index),
        Near::Panel(panel) => panel_key(carpentry, panel),
        Near::Outside(wall) => wall_key(wall),
    }
}

/// A wall as a sentence speaks of it.
pub(super) const fn wall_name(wall: Wall) -> &'static str {
    match wall {
        Wall::Front => "the front",
        Wall::Back => "the back",
        Wall::Left => "the left side",
        Wall::Right => "the right side",
        Wall::Top => "the top",
        Wall::Bottom => "the bottom",
    }
}

/// A wall or a board as a sentence speaks of it.
pub(super) fn panel_name(carpentry: &Carpentry, panel: PanelId) -> String {
    match panel {
        PanelId::Wall(wall) => wall_name(wall).into(),
        PanelId::Board(index) => {
            let board = &carpentry.body.plan.boards[index];
            match board.kind {
                BoardKind::BayWall => "the bay".into(),
                BoardKind::RecessWall => "the recess of the control panel".into(),
                BoardKind::Brace | BoardKind::Cleat | BoardKind::Divider => the(&board.name),
            }
        }
    }
}

/// What a part is near, as a sentence speaks of it.
pub(super) fn near_name(carpentry: &Carpentry, near: Near) -> String {
    match near {
        Near::Part(index) => name(carpentry, index),
        Near::Panel(panel) => panel_name(carpentry, panel),
        Near::Outside(wall) => wall_name(wall).into(),
    }
}

/// A part as a sentence speaks of it; of two equal ones which, of more the how manieth.
pub(super) fn name(carpentry: &Carpentry, index: usize) -> String {
    let part = &carpentry.parts[index];
    let alike: Vec<usize> = (0..carpentry.parts.len())
        .filter(|other| {
            let other = &carpentry.parts[*other];
            other.kind == part.kind && other.label == part.label
        })
        .collect();
    let bare = match part.kind {
        PartKind::Battery => "battery",
        PartKind::Board => "board",
        PartKind::Handle => "handle",
        PartKind::Grille => "grille frame",
        PartKind::Vent => "vent",
        _ => part.label.as_str(),
    };
    match alike[..] {
        [first, second] => {
            let other = if index == first { second } else { first };
            let side = side(part, &carpentry.parts[other]);
            the(&format!("{side}{bare}"))
        }
        [_] => the(bare),
        _ => {
            let nth = alike.iter().position(|other| *other == index).unwrap_or(0);
            format!("{} {} of {}", bare, nth + 1, alike.len())
        }
    }
}

/// Some equal parts as a sentence speaks of them: "the left and right woofer".
pub(super) fn names(carpentry: &Carpentry, parts: &[usize]) -> String {
    let each: Vec<String> = parts.iter().map(|part| name(carpentry, *part)).collect();
    let [first, second] = each.as_slice() else {
        return super::timber::listed(&each);
    };
    let one = first
        .strip_prefix("the ")
        .and_then(|own| own.split_once(' '));
    let other = second
        .strip_prefix("the ")
        .and_then(|own| own.split_once(' '));
    match one.zip(other) {
        Some(((left, bare), (right, other))) if bare == other => {
            format!("the {left} and {right} {bare}")
        }
        _ => super::timber::listed(&each),
    }
}

/// Parts nearer than this stand in one line, in m.
const ASIDE: f64 = 0.005;

/// Where one of two equal parts is, seen from the front: "left ", "upper ".
fn side(part: &PlacedPart, other: &PlacedPart) -> &'static str {
    let by = [0, 2, 1].map(|axis| part.part.pose.at[axis] - other.part.pose.at[axis]);
    let words = [
        ["left ", "right "],
        ["lower ", "upper "],
        ["front ", "rear "],
    ];
    let apart = by.iter().zip(words).find(|(by, _)| by.abs() > ASIDE);
    apart.map_or("", |(by, [low, high])| if *by < 0.0 { low } else { high })
}

/// A name with its article.
fn the(name: &str) -> String {
    let has_article = ["the ", "a ", "an "]
        .iter()
        .any(|article| name.to_lowercase().starts_with(article));
    if has_article {
        name.into()
    } else {
        format!("the {name}")
    }
}

/// The part at an opening: which of the parts of a table, counted from 0.
pub(super) fn part_of(carpentry: &Carpentry, table: &str, index: usize) -> Option<usize> {
    let of_table = |part: &&PlacedPart| part.table == table;
    let mut own = (0..carpentry.parts.len()).filter(|index| of_table(&&carpentry.parts[*index]));
    own.nth(index)
}

/// What wants a hole, as a sentence speaks of it.
pub(super) fn origin_name(design: &Design, carpentry: &Carpentry, origin: &Origin) -> String {
    let whole = match origin.table.as_str() {
        "control" => Some("the control panel"),
        "feet" => Some("the feet"),
        "bay" => Some("the bay"),
        "box" => Some("the wall that comes off"),
        _ => None,
    };
    if let Some(whole) = whole {
        return whole.into();
    }
    let named = |list: &str| {
        let number: usize = origin.table.strip_prefix(list)?.parse().ok()?;
        number.checked_sub(1)
    };
    if let Some(brace) = named("brace.").and_then(|index| design.braces.get(index)) {
        return the(&brace.name.text);
    }
    if let Some(cleat) = named("cleat.").and_then(|index| design.cleats.get(index)) {
        return the(&cleat.name.text);
    }
    part_of(carpentry, &origin.table, origin.index)
        .map_or_else(|| the(&origin.table), |index| name(carpentry, index))
}
