//! The order of building: steps, when they are done, and where to stop and test.

mod draft;
mod graph;
mod holds;
mod model;
mod schedule;
mod steps;
mod times;

#[cfg(test)]
mod tests;

pub use model::*;

use crate::finish::{Finish, Job, Task};
use draft::{Draft, Drafts};
use graph::Time;
use schedule::{Hours, Slot, days, finished, schedule, timed};
use std::collections::BTreeMap;
use steps::{Late, Site};

pub(crate) use holds::{Testing, lacking};

/// Puts the work in order, with its tests.
pub(crate) fn study(testing: &Testing<'_>) -> Order {
    let design = &testing.subject.project.design;
    let wires = testing.electrics.map(|known| known.harness.len());
    let site = Site {
        cuts_off: testing.cut_off().is_some(),
        ..Site::new(design, testing.carpentry, testing.finish, wires)
    };
    ordered(&site, holds::all(testing, &site))
}

/// Puts the work in order. The tests are those of `holds`, each for the step of its name.
fn ordered(site: &Site<'_>, holds: Vec<Hold>) -> Order {
    let (drafts, slots) = settled(site.finish, |late| steps::gather(site, late));
    let places: BTreeMap<&str, usize> = slots
        .iter()
        .enumerate()
        .map(|(index, slot)| (slot.name.as_str(), index))
        .collect();
    let mut steps: Vec<Step> = slots
        .iter()
        .filter_map(|slot| Some(step(&drafts, slot, drafts.steps.get(&slot.name)?, &places)))
        .collect();
    let holds = placed(holds, &mut steps, &places);
    Order {
        total: total(&drafts, &slots),
        tools: tools(&steps),
        steps,
        holds,
    }
}

/// Steps on the clock. A coat that comes after the window of the one below wants that sanded,
/// which takes time and may make another late: every turn adds one at least, so it ends.
fn settled(finish: &Finish, gather: impl Fn(&Late) -> Drafts) -> (Drafts, Vec<Slot>) {
    let mut late = Late::new();
    loop {
        let drafts = gather(&late);
        let slots = schedule(&drafts.graph, Hours::USUAL);
        let more = steps::late(finish, &drafts, &slots);
        if more.is_empty() {
            return (drafts, slots);
        }
        late.extend(more);
    }
}

/// The days of the finish, as the order of the whole work has them.
pub(crate) fn of_finish(order: &Order) -> Vec<Job> {
    let steps = order.steps.iter();
    jobs(steps.map(|step| (step.begins, step.finish.as_slice())))
}

/// What of the finish is done when, by when each step begins and what of it is done there.
fn jobs<'a>(steps: impl Iterator<Item = (f64, &'a [(Task, f64)])>) -> Vec<Job> {
    let mut jobs = Vec::new();
    for (begins, tasks) in steps {
        let mut start = schedule::MORNING + begins;
        for (task, time) in tasks {
            let (task, time) = (*task, *time);
            jobs.push(Job { task, start, time });
            start += time;
        }
    }
    jobs
}

fn step(drafts: &Drafts, slot: &Slot, draft: &Draft, places: &BTreeMap<&str, usize>) -> Step {
    let links = drafts.graph.links(&slot.name).iter();
    let mut after: Vec<(usize, Why)> = links
        .filter_map(|link| Some((*places.get(link.before.as_str())?, link.why)))
        .collect();
    after.sort_by_key(|(index, _)| *index);
    Step {
        id: slot.name.clone(),
        title: draft.title.clone(),
        words: draft.words.clone(),
        work: draft.work,
        hands: times::span(draft.hands),
        wait: draft.wait,
        wait_for: draft.wait_for.filter(|_| draft.wait > 0.0),
        begins: slot.begins,
        ends: slot.ends,
        ready: slot.ready,
        tools: draft.tools.clone(),
        after,
        hides: draft.hides.clone(),
        hold: None,
        finish: draft.finish.clone(),
    }
}

/// Holds that have a step, in the order of the work.
fn placed(holds: Vec<Hold>, steps: &mut [Step], places: &BTreeMap<&str, usize>) -> Vec<Hold> {
    let mut placed: Vec<Hold> = holds
        .into_iter()
        .filter_map(|hold| {
            let step = *places.get(hold.id)?;
            Some(Hold { step, ..hold })
        })
        .collect();
    placed.sort_by_key(|hold| hold.step);
    for (index, hold) in placed.iter().enumerate() {
        steps[hold.step].hold = Some(index);
    }
    placed
}

fn total(drafts: &Drafts, slots: &[Slot]) -> Total {
    let usual = |name: &str| drafts.graph.time(name);
    let with = |factor: f64| {
        let order = slots.iter().map(|slot| slot.name.as_str());
        let time = |name: &str| Time {
            hands: factor * usual(name).hands,
            ..usual(name)
        };
        timed(order, &drafts.graph, time, Hours::USUAL)
    };
    let [quick, slow] = [times::QUICK, times::SLOW].map(with);
    let hands = slots.iter().map(|slot| usual(&slot.name).hands).sum();
    Total {
        hands: times::span(hands),
        days: [
            days(&quick).min(days(slots)),
            days(slots),
            days(&slow).max(days(slots)),
        ],
        day: Hours::USUAL.bench,
        until_ready: Span {
            quick: finished(&quick),
            usual: finished(slots),
            slow: finished(&slow),
        },
        meanwhile: meanwhile(slots),
    }
}

/// Work done while something else dries, in s.
fn meanwhile(slots: &[Slot]) -> f64 {
    let within = |slot: &Slot| {
        let mut others = slots.iter();
        others.any(|other| {
            let dries = other.ready > other.ends;
            dries && other.ends <= slot.begins && slot.ends <= other.ready
        })
    };
    let done = slots.iter().filter(|slot| within(slot));
    done.map(|slot| slot.ends - slot.begins).sum()
}

/// Tools, each once, in the order in which they are first wanted.
fn tools(steps: &[Step]) -> Vec<(String, Vec<usize>)> {
    let mut tools: Vec<(String, Vec<usize>)> = Vec::new();
    for (index, step) in steps.iter().enumerate() {
        for tool in &step.tools {
            match tools.iter_mut().find(|(known, _)| known == tool) {
                Some((_, of)) => of.push(index),
                None => tools.push((tool.clone(), vec![index])),
            }
        }
    }
    tools
}
