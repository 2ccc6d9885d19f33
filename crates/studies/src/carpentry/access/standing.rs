//! Parts that stand in the box: battery, board, and other things.

use super::ask::{Ask, Way};
use super::{Site, goes_in, line, names};
use crate::carpentry::model::{AccessLine, PartKind, Passage};
use rayon::prelude::*;
use std::sync::Arc;
use wood::Opening;

pub(super) fn lines(site: &Site<'_>, ask: &Ask<'_, '_>, closed: &[Opening]) -> Vec<AccessLine> {
    let standing = indices(site, |kind| {
        matches!(kind, PartKind::Battery | PartKind::Board | PartKind::Other)
    });
    let ways: Vec<Arc<Way>> = standing.par_iter().map(|i| ask.way(*i, closed)).collect();
    let out = |way: &Arc<Way>| way.passage == Passage::Out;
    let free = standing.iter().zip(&ways).filter(|(_, way)| out(way));
    let free: Vec<usize> = free.map(|(index, _)| *index).collect();
    let mut lines = Vec::new();
    for (index, way) in standing.iter().zip(&ways) {
        if out(way) {
            let opening = &closed[way.through.unwrap_or(0)];
            let mut line = line(site, *index, way, Some(opening));
            line.first = before(site, opening, &[]);
            lines.push(line);
            continue;
        }
        let after = match way.passage {
            Passage::NotFound => after_others(site, ask, closed, *index, &free),
            _ => None,
        };
        lines.push(match after {
            Some((way, opening, others)) => {
                let mut line = line(site, *index, &way, Some(opening));
                line.first = before(site, opening, &others);
                line
            }
            None => {
                let mut line = line(site, *index, way, None);
                line.goes_in = goes_in(site, ask, *index);
                line
            }
        });
    }
    lines
}

fn indices(site: &Site<'_>, is: impl Fn(PartKind) -> bool) -> Vec<usize> {
    let parts = site.parts.iter().enumerate();
    parts
        .filter(|(_, part)| is(part.kind))
        .map(|(index, _)| index)
        .collect()
}

/// What is off before a part goes through a hole: what sits in it, and others in the way. A
/// wall that is taken off says so itself.
fn before(site: &Site<'_>, opening: &Opening, others: &[usize]) -> Vec<String> {
    let own = opening.hole.map_or(&[][..], |_| &opening.taken_out);
    names(site, own.iter().chain(others).copied())
}

/// A way once others are out that come out by themselves, and which of them that takes.
fn after_others<'a>(
    site: &Site<'_>,
    ask: &Ask<'_, '_>,
    closed: &'a [Opening],
    index: usize,
    free: &[usize],
) -> Option<(Arc<Way>, &'a Opening, Vec<usize>)> {
    let drivers = indices(site, |kind| {
        matches!(kind, PartKind::Driver | PartKind::Radiator)
    });
    let mut others: Vec<usize> = free.to_vec();
    let without = |others: &[usize]| {
        let more = closed.iter().cloned().map(|mut opening| {
            opening.taken_out.extend(others);
            opening
        });
        let openings: Vec<Opening> = more.collect();
        ask.simple_way(index, &openings)
    };
    let mut way = without(&others);
    if way.passage != Passage::Out {
        others.extend(&drivers);
        way = without(&others);
    }
    if way.passage != Passage::Out {
        return None;
    }
    let (way, mut others) = ask.with_fewest_out(way, others, without);
    let opening = &closed[way.through?];
    others.retain(|other| !opening.taken_out.contains(other));
    Some((way, opening, others))
}
