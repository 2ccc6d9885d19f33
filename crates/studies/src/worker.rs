//! One build after another, for those who need single builds rather than a report.

use crate::outcome::{Bench, Outcome, Traces};
use crate::sound::Grid;
use crate::subject::Subject;
use crate::texts::Texts;
use crate::vary::{Draw, draw};
use design::Diagnostic;

/// A design read and made ready; workers borrow from it.
#[derive(Clone, Debug)]
pub struct Prepared(Subject);

impl Prepared {
    /// Reads a design.
    ///
    /// # Errors
    /// Everything wrong with the texts, all at once, each with its place.
    pub fn read(texts: Texts<'_>) -> Result<Self, Vec<Diagnostic>> {
        Ok(Self(Subject::new(
            design::read(texts.design, texts.shelf)?,
            1.0,
        )?))
    }

    /// A worker for this design on so many frequencies from 10 Hz to 20 kHz.
    #[must_use]
    pub fn worker(&self, frequencies: usize) -> Worker<'_> {
        Worker {
            subject: &self.0,
            bench: Bench::new(&self.0, Grid::new(frequencies)),
        }
    }
}

/// Runs all studies of single builds; clone it for another thread.
#[derive(Clone, Debug)]
pub struct Worker<'a> {
    subject: &'a Subject,
    bench: Bench<'a>,
}

impl Worker<'_> {
    /// The nominal build.
    pub fn nominal(&mut self) -> (Outcome, Traces) {
        self.study(&Draw::Nominal)
    }

    /// The `index`-th drawn build.
    pub fn drawn(&mut self, index: u32) -> (Outcome, Traces) {
        self.study(&draw(index, self.subject.causes.list().len()))
    }

    fn study(&mut self, draw: &Draw) -> (Outcome, Traces) {
        let studied = self.bench.study(self.subject.build(draw));
        (studied.outcome, self.bench.traces(&studied))
    }
}
