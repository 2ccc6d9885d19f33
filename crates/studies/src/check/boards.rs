//! Candidates that bring boards into the box: braces moved in, windows and bays made smaller,
//! cleats shortened.

use super::resize::lengths;
use super::timber::mm;
use super::{Candidate, Edit, Evidence, swap};
use crate::carpentry::{self, Carpentry};
use design::{Bay, Brace, BraceForm, Cleat, Tolerance, Value};
use wood::{PanelId, Wall};

/// Board left around a window, in m: common practice, no source.
pub(super) const RIM: f64 = 0.020;

/// Mends of all boards at fault, each at once, in several ways.
pub(super) fn mends(
    evidence: &Evidence<'_>,
    carpentry: &Carpentry,
    boards: &[usize],
) -> Vec<Candidate> {
    let mut tables: Vec<&str> = Vec::new();
    let mut each: Vec<Vec<Candidate>> = Vec::new();
    for board in boards {
        let table = carpentry.boards[*board].table.as_str();
        if !tables.contains(&table) {
            tables.push(table);
            each.push(own(evidence, carpentry, *board, table));
        }
    }
    let ways = each.iter().map(Vec::len).min().unwrap_or(0);
    (0..ways)
        .filter_map(|way| swap::all(each.iter().map(|own| own[way].clone()).collect()))
        .collect()
}

/// What may bring one board in.
fn own(
    evidence: &Evidence<'_>,
    carpentry: &Carpentry,
    board: usize,
    table: &str,
) -> Vec<Candidate> {
    let design = evidence.design();
    let numbered = |list: &str| {
        let number: usize = table.strip_prefix(list)?.parse().ok()?;
        number.checked_sub(1)
    };
    if let Some(index) = numbered("brace.") {
        let panel = carpentry.body.panel(PanelId::Board(board));
        let room = panel.map_or([0.0; 2], |panel| panel.blank);
        return brace(evidence, &design.braces[index], index, room);
    }
    if let Some(index) = numbered("cleat.") {
        return cleat(evidence, &design.cleats[index], index);
    }
    let bay = design.bay.as_ref().filter(|_| table == "bay");
    bay.map_or_else(Vec::new, |said| {
        smaller_bay(evidence, said).into_iter().collect()
    })
}

/// Inside of the box along the axis across a wall, in m.
fn inside(evidence: &Evidence<'_>, across: Wall) -> f64 {
    let [width, height, depth] = evidence.build.enclosure.inside;
    match across {
        Wall::Left | Wall::Right => width,
        Wall::Front | Wall::Back => depth,
        Wall::Top | Wall::Bottom => height,
    }
}

/// Shares of the inside at which a brace is tried that lies outside.
const PLACES: [f64; 3] = [0.85, 2.0 / 3.0, 0.5];

/// A window that leaves a rim, or the brace moved in.
fn brace(evidence: &Evidence<'_>, said: &Brace, index: usize, room: [f64; 2]) -> Vec<Candidate> {
    let name = &said.name.text;
    let key = format!("brace.{}", index + 1);
    match &said.form {
        BraceForm::Frame {
            parallel,
            at,
            window,
        } => {
            let fitting = window.and_then(|window| smaller_window(&key, window, room));
            let depth = inside(evidence, carpentry::wall(*parallel));
            let inwards = PLACES.map(|share| down(depth * share));
            let moved = inwards.into_iter().filter(|to| *to < at.si).map(|to| {
                let words = format!("{name} {} → {}", mm(at.si), mm(to));
                Candidate::set(words, &format!("{key}.at"), lengths(&[to], at.tolerance))
            });
            fitting.into_iter().chain(moved).collect()
        }
        BraceForm::Stick { from, at, .. } => {
            let outside = evidence.build.enclosure.outside;
            let sides = match carpentry::wall(*from) {
                Wall::Front | Wall::Back => [outside[0], outside[1]],
                Wall::Left | Wall::Right => [outside[2], outside[1]],
                Wall::Top | Wall::Bottom => [outside[0], outside[2]],
            };
            let now = [at.across.si, at.up.si];
            let to = [0, 1].map(|axis| down(now[axis].min(sides[axis] / 2.0)));
            let words = format!("{name} to {}", lengths(&to, Tolerance::Unstated));
            let text = lengths(&to, at.across.tolerance);
            vec![Candidate::set(words, &format!("{key}.at"), text)]
        }
    }
}

fn down(length: f64) -> f64 {
    (1e3 * length).floor() / 1e3
}

fn smaller_window(key: &str, window: [Value; 2], room: [f64; 2]) -> Option<Candidate> {
    let now = window.map(|side| side.si);
    let to = [0, 1].map(|axis| down(now[axis].min(room[axis] - 2.0 * RIM)));
    let is_window = to.iter().all(|side| *side > 0.0) && to != now;
    is_window.then(|| {
        let text = |sides: [f64; 2]| lengths(&sides, Tolerance::Unstated);
        let words = format!("window {} → {}", text(now), text(to));
        Candidate::set(words, &format!("{key}.window"), text(to))
    })
}

/// A cleat as long as the inside, less what crosses it at its ends; or as long as its edge.
fn cleat(evidence: &Evidence<'_>, said: &Cleat, index: usize) -> Vec<Candidate> {
    let Some(now) = said.length else {
        return Vec::new();
    };
    let (first, second) = (carpentry::wall(said.along.0), carpentry::wall(said.along.1));
    let is = |walls: [Wall; 2]| walls.contains(&first) || walls.contains(&second);
    let across = if !is([Wall::Left, Wall::Right]) {
        Wall::Left
    } else if !is([Wall::Top, Wall::Bottom]) {
        Wall::Top
    } else {
        Wall::Front
    };
    let name = &said.name.text;
    let key = format!("cleat.{}.length", index + 1);
    let ends = said.section[0].si.max(said.section[1].si);
    let room = inside(evidence, across);
    let mut found: Vec<Candidate> = [room - 2.0 * ends, room]
        .map(down)
        .into_iter()
        .filter(|to| *to > 0.0 && *to < now.si)
        .map(|to| {
            let words = format!("{name} {} → {} long", mm(now.si), mm(to));
            Candidate::set(words, &key, lengths(&[to], now.tolerance))
        })
        .collect();
    let whole = format!("{name} as long as its edge");
    found.push(Candidate::new(whole, [Edit::remove(key)]));
    found
}

/// A bay no larger than the inside leaves room for.
fn smaller_bay(evidence: &Evidence<'_>, said: &Bay) -> Option<Candidate> {
    let now = [said.size.width.si, said.size.height.si, said.size.depth.si];
    let inside = evidence.build.enclosure.inside;
    let to = [0, 1, 2].map(|axis| down(now[axis].min(inside[axis] - said.at[axis].si)));
    let is_bay = to.iter().all(|side| *side > 0.0) && to != now;
    is_bay.then(|| {
        let text = |sides: [f64; 3]| lengths(&sides, Tolerance::Unstated);
        let words = format!("bay {} → {}", text(now), text(to));
        Candidate::set(words, "bay.inside", text(to))
    })
}
