//! What comes out again, through which opening, what is taken off first, and what does not.

mod ask;
mod fixed;
mod standing;

pub(crate) use ask::Ways;

use super::model::{AccessLine, PartKind, Passage, PlacedPart, Stage};
use super::parts::openings;
use super::plan::{Seat, wall};
use ask::{Ask, Way};
use design::Design;
use wood::{Body, Opening, Part, Scene};

/// Angle below which a part is not said to be tipped, in rad.
const STRAIGHT: f64 = 0.03;

/// What ways are looked for in.
pub(super) struct Site<'a> {
    pub(super) design: &'a Design,
    pub(super) body: &'a Body,
    pub(super) parts: &'a [PlacedPart],
    /// The same as solids, in the same order.
    pub(super) solids: &'a [Part],
    /// Of the control panel.
    pub(super) seat: Option<&'a Seat>,
    /// Makes the box and its parts ready.
    pub(super) scene: &'a (dyn Fn() -> &'a Scene<'a> + Sync),
    pub(super) ways: &'a Ways,
    /// Whether a mend is tried: at worst it is then not offered.
    pub(super) trial: bool,
}

/// One line for every part that stands in the box or sits in it; equal parts that come out
/// alike share one.
pub(super) fn lines(site: &Site<'_>) -> Vec<AccessLine> {
    let ask = Ask::new(site);
    let closed = openings::closed(site.design, site.body, site.parts);
    let mut lines = standing::lines(site, &ask, &closed);
    let loose: Vec<usize> = lines
        .iter()
        .filter(|line| line.passage == Passage::Out)
        .map(|line| line.part)
        .collect();
    lines.extend(fixed::lines(site, &ask, &closed, &loose));
    lines.sort_by_key(|line| line.part);
    let mut shared: Vec<(AccessLine, usize)> = Vec::new();
    for line in lines {
        match shared
            .iter_mut()
            .find(|(other, _)| alike(site, other, &line))
        {
            Some((other, count)) => {
                other.slack = other.slack.min(line.slack);
                *count += 1;
            }
            None => shared.push((line, 1)),
        }
    }
    shared
        .into_iter()
        .map(|(mut line, count)| {
            if count > 1 {
                line.label = format!("{count} × {}", line.label);
            }
            line
        })
        .collect()
}

fn alike(site: &Site<'_>, one: &AccessLine, other: &AccessLine) -> bool {
    let (a, b) = (&site.parts[one.part], &site.parts[other.part]);
    a.part.sits_in.is_some()
        && a.number == b.number
        && (&one.through, &one.first, &one.how, one.passage, one.goes_in)
            == (
                &other.through,
                &other.first,
                &other.how,
                other.passage,
                other.goes_in,
            )
        && (one.driver_reaches, one.hand_reaches) == (other.driver_reaches, other.hand_reaches)
}

/// What is said of a part and its way.
fn line(site: &Site<'_>, part: usize, way: &Way, opening: Option<&Opening>) -> AccessLine {
    let placed = &site.parts[part];
    AccessLine {
        part,
        label: placed.label.clone(),
        through: opening.map(|opening| openings::words(opening, site.body)),
        first: Vec::new(),
        // A search that found no way may have measured nothing.
        slack: if way.slack.is_finite() {
            way.slack
        } else {
            0.0
        },
        passage: way.passage,
        goes_in: if way.passage == Passage::Out {
            Stage::Closed
        } else {
            Stage::Open
        },
        how: way.how(),
        driver_reaches: way.driver_reaches || placed.part.shape.screws.is_empty(),
        hand_reaches: way.hand_reaches,
    }
}

/// The last stage at which a part that stays in the closed box goes in.
fn goes_in(site: &Site<'_>, ask: &Ask<'_, '_>, part: usize) -> Stage {
    let last = wall(site.design.enclosure.carpentry.last.value);
    let last = openings::whole(last, site.body, site.parts);
    match ask.way(part, core::slice::from_ref(&last)).passage {
        Passage::Out => Stage::BeforeLast,
        _ => Stage::Open,
    }
}

/// Names of parts, each once.
fn names(site: &Site<'_>, parts: impl IntoIterator<Item = usize>) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for part in parts {
        let part = &site.parts[part];
        let name = match part.kind {
            PartKind::Battery => "the battery".into(),
            PartKind::Board => "the amplifier".into(),
            PartKind::Control => "the control panel".into(),
            PartKind::Grille => "the grille".into(),
            _ => part.label.clone(),
        };
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}
