//! What other parts of the shelf would change: tried, one by one, on the text of the design.

use super::found::{Studied, found};
use super::model::{Alternative, Changed, Line, Swap};
use crate::carpentry::{self, Carpentry};
use crate::check::{Candidate, Evidence, Said, swap};
use crate::finish;
use crate::mend::{Indicator, edited, held_paid, said};
use crate::subject::Subject;
use crate::texts::Texts;
use crate::wrongs::Wrongs;
use design::{Common, EnclosureKind, Shelf};
use rayon::prelude::*;
use std::sync::OnceLock;

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
    fn of(subject: &Subject, carpentry: &Carpentry, lit: Lit<'_>) -> Self {
        let Seen { promises, said, .. } = seen(subject, carpentry, lit);
        Self {
            promises,
            wrongs: Wrongs::of(&said),
            said,
        }
    }
}

/// How the low-battery indicator of what is tried is come by.
#[derive(Clone, Copy)]
enum Lit<'a> {
    /// As that of the design; the search for another takes long, so its checks say nothing on
    /// either side.
    As(Option<&'a crate::indicator::Indicator>),
    /// Designed anew: its thresholds hang on the battery.
    Anew,
}

/// What each swap of a bounded number would change.
pub(super) fn swaps(texts: Texts<'_>, evidence: &Evidence<'_>, carpentry: &Carpentry) -> Vec<Swap> {
    let subject = &evidence.subject.forgetting();
    let as_designed = Lit::As(evidence.indicator().map(AsRef::as_ref));
    // The same text as a variant is studied as those of the swaps are.
    let Ok(plain) = edited(texts, subject, &[]) else {
        return Vec::new();
    };
    let unlit = Before::of(&plain, carpentry, as_designed);
    let lit = OnceLock::new();
    let battery = &subject.project.design.battery.part.common.name.text;
    let indicated = subject.project.design.indicator.is_some();
    let tried = |now: &String, subject: &Subject| {
        if indicated && now == battery {
            let before = lit.get_or_init(|| Before::of(&plain, carpentry, Lit::Anew));
            changed(before, subject, Lit::Anew)
        } else {
            changed(&unlit, subject, as_designed)
        }
    };
    let each = slots(evidence).into_iter().flat_map(|slot| {
        let now = &slot.now.name.text;
        let tried = slot.candidates.into_iter().take(MOST);
        tried.map(move |candidate| (now, candidate))
    });
    let each: Vec<(&String, Candidate)> = each.collect();
    let swap = |(now, candidate): &(&String, Candidate)| Swap {
        line: (*now).clone(),
        part: part(candidate),
        words: candidate.words.clone(),
        outcome: edited(texts, subject, &candidate.edits).map(|subject| tried(now, &subject)),
    };
    each.par_iter().map(swap).collect()
}

/// Parts that were tried in place of that of a line, with which the box can still be built; what
/// the till then says for them follows from what it says for all.
pub(super) fn would_do(shelf: &Shelf, line: &Line, swaps: &[Swap]) -> Vec<Alternative> {
    let own = swaps.iter().filter(|swap| swap.line == line.label);
    let done = own.filter_map(|swap| Some((swap, swap.outcome.as_ref().ok()?)));
    let built = done.filter(|(_, changed)| changed.can_be_built());
    let alternative = |(swap, changed): (&Swap, &Changed)| Alternative {
        label: swap.part.clone(),
        on_hand: named(shelf, &swap.part).map_or(0.0, |part| f64::from(part.on_hand)),
        till: line
            .till()
            .filter(|_| !changed.unpriced.contains(&swap.part))
            .map(|till| till + changed.cost()),
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

fn changed(before: &Before, subject: &Subject, lit: Lit<'_>) -> Changed {
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
        unpriced,
        brings: before.wrongs.beyond(&said),
        clears: Wrongs::of(&said).beyond(&before.said),
    }
}

/// What is looked at of one box.
struct Seen {
    promises: Vec<(&'static str, f64)>,
    said: Vec<Said>,
    /// What has to be bought at an unknown price.
    unpriced: Vec<String>,
}

/// The nominal build of a subject with the wires, the finish and the indicator
/// that it needs.
fn seen(subject: &Subject, carpentry: &Carpentry, lit: Lit<'_>) -> Seen {
    let indicator = match lit {
        Lit::As(_) => Indicator::LeftOut,
        Lit::Anew => Indicator::Designed,
    };
    let needs = |evidence: &Evidence<'_>| {
        let Some(electrics) = evidence.electrics() else {
            return Vec::new();
        };
        let indicator = match lit {
            Lit::As(known) => known,
            Lit::Anew => evidence.indicator().map(AsRef::as_ref),
        };
        let studied = Studied {
            electrics,
            finish: &finish::study(subject, carpentry),
            indicator,
        };
        found(subject, &studied)
    };
    held_paid(subject, carpentry, indicator, needs, |evidence| {
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
    })
}
