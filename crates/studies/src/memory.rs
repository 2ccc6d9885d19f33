//! Studies of one text after another: what an edit leaves alone is worked out once.

use crate::baffles::Baffles;
use crate::carpentry::Workshop;
use crate::indicator::Indicators;
use crate::report::Report;
use crate::run::{Options, Trying, studied};
use crate::subject::Subject;
use crate::texts::Texts;
use design::Diagnostic;

/// What was worked out for designs before: places and ways of parts, layouts of sheets, faces,
/// circuits of indicators. Each is kept with all it follows from, so that a report never
/// depends on what was studied before it; it only comes sooner.
#[derive(Clone, Debug, Default)]
pub struct Memory {
    workshop: Workshop,
    indicators: Indicators,
    baffles: Baffles,
}

impl Memory {
    /// Everything wrong with the texts of a design, all at once, each with its place; nothing
    /// where they can be studied.
    #[must_use]
    pub fn faults(&self, texts: Texts<'_>) -> Vec<Diagnostic> {
        let read = design::read(texts.design, texts.shelf);
        let subject = read.and_then(|project| Subject::remembering(project, 1.0, self));
        subject.err().unwrap_or_default()
    }

    /// As [`crate::run()`], and what a step of each lever does.
    ///
    /// # Errors
    /// Everything wrong with the texts, all at once, each with its place.
    pub fn run(&self, texts: Texts<'_>, options: Options<'_>) -> Result<Report, Vec<Diagnostic>> {
        let trying = Trying {
            mends: true,
            levers: true,
            swaps: false,
        };
        studied(texts, options, trying, self)
    }

    /// As [`crate::run_with_swaps`], and what a step of each lever does.
    ///
    /// # Errors
    /// Everything wrong with the texts, all at once, each with its place.
    pub fn run_with_swaps(
        &self,
        texts: Texts<'_>,
        options: Options<'_>,
    ) -> Result<Report, Vec<Diagnostic>> {
        let trying = Trying {
            mends: true,
            levers: true,
            swaps: true,
        };
        studied(texts, options, trying, self)
    }

    /// As [`crate::survey`].
    ///
    /// # Errors
    /// Everything wrong with the texts, all at once, each with its place.
    pub fn survey(
        &self,
        texts: Texts<'_>,
        options: Options<'_>,
    ) -> Result<Report, Vec<Diagnostic>> {
        studied(texts, options, Trying::default(), self)
    }

    pub(crate) fn workshop(&self) -> Workshop {
        self.workshop.for_another()
    }

    pub(crate) fn indicators(&self) -> Indicators {
        self.indicators.clone()
    }

    pub(crate) fn baffles(&self) -> Baffles {
        self.baffles.clone()
    }
}
