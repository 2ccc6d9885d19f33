//! What other parts of the shelf would change: tried, one by one, on the text of the design.

use super::found::{Studied, found};
use super::model::{Alternative, Changed, Line, Swap};
use crate::carpentry::{self, Carpentry};
use crate::check::{Candidate, Evidence, Said, swap};
use crate::finish;
use crate::indicator::Indicator as Circuit;
use crate::mend::{Indicator, edited, held_paid, said};
use crate::sound::Grid;
use crate::subject::Subject;
use crate::texts::Texts;
use crate::wrongs::Wrongs;
use design::{Common, EnclosureKind, Shelf};
use rayon::prelude::*;

/// Parts tried in place of one: those most like it, and among these the cheapest.
const MOST: usize = 4;

/// A part of the design and what could come instead.
struct Slot<'a> {
    now: &'a Common,
    candidates: Vec<Candidate>,
}

/// Everything that is tried.
fn slots<'a>(evidence: &Evidence<'a>) -> Vec<Slot<'a>> {
    let design = &evidence.subject.project.design;
    let drivers = design
        .drivers
        .iter()
        .enumerate()
        .map(|(index, group)| Slot {
            now: &group.part.common,
            candidates: swap::drivers(evidence, index, |_| true),
        });
    let mut slots: Vec<Slot<'_>> = drivers.collect();
    if let EnclosureKind::PassiveRadiator(used) = &design.enclosure.kind {
        slots.push(Slot {
            now: &used.part.common,
            candidates: swap::radiators(evidence, |_| true),
        });
    }
    slots.push(Slot {
        now: &design.amplifier.part.common,
        candidates: swap::amplifiers(evidence, |_| true),
    });
    slots.push(Slot {
        now: &design.battery.part.common,
        candidates: swap::batteries(evidence, |_| true),
    });
    slots.push(Slot {
        now: &design.enclosure.wall.common,
        candidates: swap::walls(evidence, |_| true),
    });
    slots
}

/// The same design as it is, to hold the swaps against.
struct Before {
    promises: Vec<(&'static str, f64)>,
    said: Vec<Said>,
    wrongs: Wrongs,
}

impl Before {
    fn of(subject: &Subject, carpentry: &Carpentry, lit: Option<&Circuit>) -> Self {
        let Seen { promises, said, .. } = seen(subject, carpentry, lit);
        Self {
            promises,
            wrongs: Wrongs::of(&said),
            said,
        }
    }
}

/// What each swap of a bounded number would change.
pub(super) fn swaps(
    texts: Texts<'_>,
    evidence: &Evidence<'_>,
    carpentry: &Carpentry,
    progress: &(dyn Fn(usize) + Sync),
) -> Vec<Swap> {
    let subject = &evidence.subject.forgetting();
    let circuit = evidence.indicator().map(AsRef::as_ref);
    // The same text as a variant is studied as those of the swaps are.
    let Ok(plain) = edited(texts, subject, &[]) else {
        return Vec::new();
    };
    let before = Before::of(&plain, carpentry, circuit);
    let each = slots(evidence).into_iter().flat_map(|slot| {
        let now = &slot.now.name.text;
        let tried = slot.candidates.into_iter().take(MOST);
        tried.map(move |candidate| (now, candidate))
    });
    let each: Vec<(&String, Candidate)> = each.collect();
    let swap = |(now, candidate): &(&String, Candidate)| {
        progress(0);
        Swap {
            line: (*now).clone(),
            part: part(candidate),
            words: candidate.words.clone(),
            outcome: edited(texts, subject, &candidate.edits)
                .map(|subject| changed(&before, &subject, circuit, &part(candidate))),
        }
    };
    each.par_iter().map(swap).collect()
}

/// Parts that were tried in place of that of a line, with which the box can still be built.
pub(super) fn would_do(shelf: &Shelf, line: &Line, swaps: &[Swap]) -> Vec<Alternative> {
    let own = swaps.iter().filter(|swap| swap.line == line.label);
    let done = own.filter_map(|swap| Some((swap, swap.outcome.as_ref().ok()?)));
    let built = done.filter(|(_, changed)| changed.can_be_built());
    let alternative = |(swap, changed): (&Swap, &Changed)| Alternative {
        label: swap.part.clone(),
        on_hand: named(shelf, &swap.part).map_or(0.0, |part| f64::from(part.on_hand)),
        till: changed.till,
    };
    built.map(alternative).collect()
}

/// A part of the kinds that are tried.
fn named<'a>(shelf: &'a Shelf, name: &str) -> Option<&'a Common> {
    let drivers = shelf.drivers.iter().map(|part| &part.common);
    let radiators = shelf.radiators.iter().map(|part| &part.common);
    let amplifiers = shelf.amplifiers.iter().map(|part| &part.common);
    let batteries = shelf.batteries.iter().map(|part| &part.common);
    let sheets = shelf.sheets.iter().map(|part| &part.common);
    let mut all = drivers
        .chain(radiators)
        .chain(amplifiers)
        .chain(batteries)
        .chain(sheets);
    all.find(|common| common.name.text == name)
}

/// The part that a candidate takes: what its first edit writes.
fn part(candidate: &Candidate) -> String {
    let first = candidate.edits.first();
    first
        .and_then(|edit| edit.value.clone())
        .unwrap_or_default()
}

fn changed(before: &Before, subject: &Subject, lit: Option<&Circuit>, part: &str) -> Changed {
    let carpentry = carpentry::study(subject);
    let Seen {
        promises,
        said,
        unpriced,
    } = seen(subject, &carpentry, lit);
    Changed {
        promises: promises
            .iter()
            .zip(&before.promises)
            .map(|((id, after), (_, before))| (*id, after - before))
            .collect(),
        till: till(subject, part),
        unpriced,
        brings: before.wrongs.beyond(&said),
        clears: Wrongs::of(&said).beyond(&before.said),
    }
}

/// What the till says for one part alone; `None` without a price.
fn till(subject: &Subject, part: &str) -> Option<f64> {
    let lines = subject.cost.lines().iter();
    let own = lines.filter(|line| line.label == part);
    own.map(Line::till).sum()
}

/// What is looked at of one box.
struct Seen {
    promises: Vec<(&'static str, f64)>,
    said: Vec<Said>,
    /// What has to be bought at an unknown price.
    unpriced: Vec<String>,
}

/// The nominal build of a subject with the wires and the finish that it needs. The search for a
/// circuit takes long, so the indicator is that of the design, and its checks say nothing on
/// either side.
fn seen(subject: &Subject, carpentry: &Carpentry, lit: Option<&Circuit>) -> Seen {
    let unlit = Indicator::LeftOut;
    let needs = |evidence: &Evidence<'_>| {
        let Some(electrics) = evidence.electrics() else {
            return Vec::new();
        };
        let studied = Studied {
            electrics,
            finish: &finish::study(subject, carpentry),
            indicator: lit,
        };
        found(subject, &studied)
    };
    held_paid(
        subject,
        carpentry,
        Grid::coarse(),
        unlit,
        needs,
        |evidence| {
            let promises = evidence.promises.iter();
            let lines = evidence.subject.cost.lines().iter();
            let unpriced = lines.filter(|line| line.till().is_none());
            Seen {
                promises: promises
                    .map(|promise| (promise.id, promise.value))
                    .collect(),
                said: said(evidence),
                unpriced: unpriced.map(|line| line.label.clone()).collect(),
            }
        },
    )
}
