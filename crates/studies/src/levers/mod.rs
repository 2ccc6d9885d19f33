//! Inputs that can be moved by hand, and what a small step of each does to every promise.

mod inputs;

use crate::carpentry::{self, Carpentry};
use crate::check::{Edit, Evidence};
use crate::finish;
use crate::indicator::Indicator as Circuit;
use crate::mend::{Indicator, edited, held_paid};
use crate::money::{self, Studied};
use crate::sound::Grid;
use crate::subject::Subject;
use crate::texts::Texts;
use rayon::prelude::*;

/// An input that can be moved by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Lever {
    /// Table and key, as edits name it.
    pub key: String,
    /// In words: "box depth".
    pub label: String,
    /// Its value in `unit`.
    pub value: f64,
    /// The unit it is written in; empty for a count.
    pub unit: &'static str,
    /// Whether it is written in fractions of an inch.
    pub fraction: bool,
    /// A small step in `unit`.
    pub step: f64,
    /// The finest step in `unit` that a hand makes.
    pub fine: f64,
    /// Least and greatest value it may be moved to, in `unit`.
    pub within: (f64, f64),
    /// What is to be written at the key, with `{}` where the number stands.
    pub template: String,
    /// What one step does; `None` until it was tried.
    pub does: Option<Does>,
}

/// What one step of a lever does.
#[derive(Clone, Debug, PartialEq)]
pub struct Does {
    /// The step that was tried, in the lever's unit: a smaller or a negative one where the
    /// design allows no full step up.
    pub step: f64,
    /// Promises by name, each with the change of its number.
    pub promises: Vec<(&'static str, f64)>,
}

impl Lever {
    /// What is to be written at the key for a value in the lever's unit.
    #[must_use]
    pub fn text(&self, value: f64) -> String {
        self.template.replacen("{}", &self.number(value), 1)
    }

    /// A value in the lever's unit as the file writes it, without the unit.
    #[must_use]
    pub fn number(&self, value: f64) -> String {
        design::hand_written(value, self.fraction)
    }

    /// The change of a promise's number that one step makes, where it was tried.
    #[must_use]
    pub fn moves(&self, promise: &str) -> Option<f64> {
        let does = self.does.as_ref()?;
        let own = does.promises.iter().find(|(id, _)| *id == promise);
        own.map(|(_, change)| *change)
    }
}

/// Inputs of a design that can be moved by hand, not yet tried.
pub(crate) fn untried(texts: Texts<'_>, subject: &Subject) -> Vec<Lever> {
    let written = design::written(texts.design);
    let wanted = inputs::inputs(&subject.project.design);
    let lever = |input: inputs::Input| {
        let (_, text) = written.iter().find(|(key, _)| *key == input.key)?;
        let numbers = design::written_numbers(text, input.measures)?;
        // A size has three lengths, everything else one number.
        if numbers.len() != input.length.map_or(1, |_| 3) {
            return None;
        }
        let number = &numbers[input.length.unwrap_or(0)];
        // In steps that a rule shows, whatever unit it bears.
        let step = number.step(input.step);
        let fine = number.step(input.step / 10.0);
        let least = step * (number.of_si(input.within.0) / step).ceil();
        let most = step * (number.of_si(input.within.1) / step).floor();
        let (front, back) = (&text[..number.range.start], &text[number.range.end..]);
        Some(Lever {
            key: input.key,
            label: input.label,
            value: number.value,
            unit: number.unit,
            fraction: number.fraction,
            step,
            fine: if number.unit.is_empty() { step } else { fine },
            within: (least.min(number.value), most.max(number.value)),
            template: format!("{front}{{}}{back}"),
            does: None,
        })
    };
    wanted.into_iter().filter_map(lever).collect()
}

/// The same, each moved by one step; `progress` hears of every trial.
pub(crate) fn tried(
    texts: Texts<'_>,
    evidence: &Evidence<'_>,
    carpentry: &Carpentry,
    progress: &(dyn Fn(usize) + Sync),
) -> Vec<Lever> {
    let mut levers = untried(texts, evidence.subject);
    let subject = &evidence.subject.forgetting();
    let circuit = evidence.indicator().map(AsRef::as_ref);
    // The same text as a variant is studied as those of the levers are.
    let Ok(plain) = edited(texts, subject, &[]) else {
        return levers;
    };
    let before = promises(&plain, carpentry, circuit);
    levers.par_iter_mut().for_each(|lever| {
        let steps = [lever.step, -lever.step, lever.fine, -lever.fine];
        lever.does = steps.into_iter().find_map(|step| {
            let to = lever.value + step;
            let within = lever.within.0..=lever.within.1;
            if !within.contains(&to) {
                return None;
            }
            progress(0);
            let edit = Edit::set(lever.key.clone(), lever.text(to));
            let variant = edited(texts, subject, &[edit]).ok()?;
            let after = promises(&variant, &carpentry::study(&variant), circuit);
            let changes = after.iter().zip(&before);
            Some(Does {
                step,
                promises: changes
                    .map(|((id, after), (_, before))| (*id, after - before))
                    .collect(),
            })
        });
    });
    levers
}

/// The promises of the nominal build, with what it needs to be wired and finished. The search
/// for the indicator's circuit takes long: it stays that of the design.
fn promises(
    subject: &Subject,
    carpentry: &Carpentry,
    lit: Option<&Circuit>,
) -> Vec<(&'static str, f64)> {
    let needs = |evidence: &Evidence<'_>| {
        let Some(electrics) = evidence.electrics() else {
            return Vec::new();
        };
        let studied = Studied {
            electrics,
            finish: &finish::study(subject, carpentry),
            indicator: lit,
        };
        money::found(subject, &studied)
    };
    let look = |evidence: &Evidence<'_>| {
        let promises = evidence.promises.iter();
        promises
            .map(|promise| (promise.id, promise.value))
            .collect()
    };
    let unlit = Indicator::LeftOut;
    held_paid(subject, carpentry, Grid::fine(), unlit, needs, look)
}
