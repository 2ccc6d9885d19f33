//! Where to stop and test, and what this build should read.

mod context;
mod cut_off;
mod impedance;
mod isolation;
mod lacking;
mod outputs;
mod power;
mod shut;
mod sine;
mod soak;
mod trip;

#[cfg(test)]
mod tests;

pub(crate) use context::Testing;
pub(crate) use lacking::lacking;

use super::model::{Expect, Hold, Reading, Taken};
use super::steps::Site;
use design::Instrument;

/// Every test of a design, each with the tools there are.
pub(super) fn all(testing: &Testing<'_>, site: &Site<'_>) -> Vec<Hold> {
    let mut holds = vec![
        isolation::hold(testing),
        outputs::coils(testing),
        outputs::polarity(testing),
        power::power_up(testing),
        power::idle(testing),
        power::offset(testing),
        sine::terminals(testing),
        sine::sag(testing),
        soak::hold(testing, site.is_hidden_for_good()),
        shut::leak(testing),
        impedance::hold(testing),
        shut::buzz(testing),
    ];
    holds.extend(trip::hold(testing));
    holds.extend(cut_off::hold(testing));
    let design = testing.design();
    let lacks = lacking(&design.workshop, design.indicator.as_ref());
    holds
        .into_iter()
        .map(|hold| match lacks.iter().find(|lack| lack.id == hold.id) {
            Some(lack) => hold.cannot(lack.wants),
            None => hold,
        })
        .collect()
}

/// A test without readings yet, taken as is best.
fn test(id: &'static str, title: &str, with: &[Instrument]) -> Hold {
    Hold {
        id,
        title: title.to_owned(),
        step: 0,
        how: Vec::new(),
        with: with.to_vec(),
        taken: Taken::Best,
        readings: Vec::new(),
        otherwise: Vec::new(),
        caution: None,
    }
}

impl Hold {
    fn how(mut self, words: impl Into<String>) -> Self {
        self.how.push(words.into());
        self
    }

    fn read(mut self, label: impl Into<String>, expect: Expect) -> Self {
        self.readings.push(Reading {
            label: label.into(),
            expect,
        });
        self
    }

    fn seen(self, label: impl Into<String>, what: impl Into<String>) -> Self {
        self.read(label, Expect::Seen(what.into()))
    }

    fn if_not(mut self, sign: &str, meaning: impl Into<String>) -> Self {
        self.otherwise.push((sign.to_owned(), meaning.into()));
        self
    }

    fn care(mut self, words: impl Into<String>) -> Self {
        self.caution = Some(words.into());
        self
    }

    /// Taken in another way, with these.
    fn instead(mut self, with: &[Instrument]) -> Self {
        self.with = with.to_vec();
        self.taken = Taken::Instead;
        self
    }

    /// Not to be taken for want of this.
    fn cannot(mut self, missing: impl Into<String>) -> Self {
        self.with.clear();
        self.how.clear();
        self.readings.clear();
        self.taken = Taken::Not(missing.into());
        self
    }
}
