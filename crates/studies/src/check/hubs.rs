//! Gaps that have a thing in common: what one fault brings, told once.

use super::movers::Demand;
use super::things;
use crate::carpentry::{Carpentry, GapLine};
use std::collections::BTreeSet;
use wood::vector::scale;

/// A thing with the gaps that it has in common with others.
#[derive(Clone, Debug)]
pub(super) struct Hub<'a> {
    /// Its key.
    pub(super) thing: String,
    /// The gaps, the worst first.
    pub(super) lines: Vec<&'a GapLine>,
}

/// The keys of both ends of a gap.
fn ends(carpentry: &Carpentry, line: &GapLine) -> [String; 2] {
    [
        things::key(carpentry, line.part),
        things::near_key(carpentry, line.near),
    ]
}

/// Gaps gathered around the things that have most of them, each gap once.
pub(super) fn hubs<'a>(carpentry: &Carpentry, lines: &[&'a GapLine]) -> Vec<Hub<'a>> {
    let mut left: Vec<(&'a GapLine, [String; 2])> = lines
        .iter()
        .map(|line| (*line, ends(carpentry, line)))
        .collect();
    left.sort_by(|a, b| a.0.gap.total_cmp(&b.0.gap));
    let mut found = Vec::new();
    while let Some(thing) = busiest(&left) {
        let (own, rest): (Vec<_>, Vec<_>) = left
            .into_iter()
            .partition(|(_, ends)| ends.contains(&thing));
        found.push(Hub {
            thing,
            lines: own.into_iter().map(|(line, _)| line).collect(),
        });
        left = rest;
    }
    found
}

/// What meets most others; of equals what is no wall, then what was named first.
fn busiest(lines: &[(&GapLine, [String; 2])]) -> Option<String> {
    let all: Vec<&String> = lines.iter().flat_map(|(_, ends)| ends).collect();
    let partners = |thing: &String| {
        let own = lines.iter().filter(|(_, ends)| ends.contains(thing));
        own.flat_map(|(_, ends)| ends)
            .filter(|end| *end != thing)
            .collect::<BTreeSet<_>>()
            .len()
    };
    let rank = |thing: &String| (partners(thing), !thing.starts_with("wall."));
    let mut best: Option<&String> = None;
    for thing in all {
        if best.is_none_or(|known| rank(thing) > rank(known)) {
            best = Some(thing);
        }
    }
    best.cloned()
}

impl Hub<'_> {
    /// Whether it is a wall or a board.
    pub(super) fn is_wood(&self) -> bool {
        is_wood(&self.thing)
    }

    /// Whether any of the others is.
    pub(super) fn meets_wood(&self, carpentry: &Carpentry) -> bool {
        let mut others = self.other_keys(carpentry).into_iter();
        others.any(|other| is_wood(&other))
    }

    /// The keys of what it meets, the worst first.
    pub(super) fn other_keys(&self, carpentry: &Carpentry) -> Vec<String> {
        let mut keys: Vec<String> = Vec::new();
        for line in &self.lines {
            for key in ends(carpentry, line) {
                if key != self.thing && !keys.contains(&key) {
                    keys.push(key);
                }
            }
        }
        keys
    }

    /// Its name.
    pub(super) fn name(&self, carpentry: &Carpentry) -> String {
        self.name_of(carpentry, &self.thing)
    }

    /// The names of what it meets.
    pub(super) fn others(&self, carpentry: &Carpentry) -> Vec<String> {
        let keys = self.other_keys(carpentry);
        keys.iter()
            .map(|key| self.name_of(carpentry, key))
            .collect()
    }

    /// The name of one of the ends: one part of the control panel by its own, several by that
    /// of the panel.
    fn name_of(&self, carpentry: &Carpentry, thing: &str) -> String {
        let mut names: Vec<String> = Vec::new();
        for line in &self.lines {
            let [part, near] = ends(carpentry, line);
            let name = if part == thing {
                things::name(carpentry, line.part)
            } else if near == thing {
                things::near_name(carpentry, line.near)
            } else {
                continue;
            };
            if !names.contains(&name) {
                names.push(name);
            }
        }
        match &names[..] {
            [one] => one.clone(),
            _ if thing == "control" => "the control panel".into(),
            [first, ..] => first.clone(),
            [] => thing.into(),
        }
    }

    /// The worst gap with each of the others.
    pub(super) fn worst(&self, carpentry: &Carpentry) -> Vec<&GapLine> {
        let mut seen: BTreeSet<String> = BTreeSet::new();
        let mut found = Vec::new();
        for line in &self.lines {
            let other = ends(carpentry, line)
                .into_iter()
                .find(|end| *end != self.thing);
            if seen.insert(other.unwrap_or_default()) {
                found.push(*line);
            }
        }
        found
    }

    /// Where to it, or one of the others, must go to gain the gaps that are wanted.
    pub(super) fn demands(&self, carpentry: &Carpentry, other: Option<&str>) -> Vec<Demand> {
        let moving = other.unwrap_or(&self.thing);
        let demand = |line: &&GapLine| {
            let [part, near] = ends(carpentry, line);
            let by = line.wanted.max(0.0) - line.gap;
            if part == moving {
                Some(Demand {
                    away: line.away,
                    by,
                })
            } else {
                (near == moving).then(|| Demand {
                    away: scale(line.away, -1.0),
                    by,
                })
            }
        };
        self.lines.iter().filter_map(demand).collect()
    }
}

fn is_wood(thing: &str) -> bool {
    let tables = ["wall.", "brace.", "cleat."];
    tables.iter().any(|table| thing.starts_with(table)) || matches!(thing, "bay" | "box")
}
