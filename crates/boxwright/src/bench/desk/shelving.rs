//! Drivers that come onto the maker's shelf, and into the design with the same step.

use super::{Inner, Undone, applied};
use crate::bench::data_sheet::{self, Typed};
use crate::bench::refusal::{Problem, Refusal, problems};
use crate::bench::session::Longer;
use crate::bench::words;
use std::sync::Arc;
use studies::check::Edit;

/// An editor that saves the shelf more often than this meanwhile is a machine.
const MOST_TURNS: usize = 8;

/// Both texts with a new driver.
#[derive(Debug)]
pub(super) struct WithDriver {
    design: String,
    shelf: Longer,
    words: String,
}

impl WithDriver {
    /// Design and shelf.
    pub(super) fn texts(self) -> (String, Option<Arc<str>>) {
        (self.design, Some(self.shelf.text.into()))
    }
}

impl Inner {
    /// Puts a driver on the shelf, whatever an editor does there meanwhile.
    pub(super) fn shelve(&mut self, values: &Typed, key: Option<&str>) -> Result<(), Undone> {
        for _ in 0..MOST_TURNS {
            self.session.look();
            let with = self.with_driver(values, key)?;
            if self
                .session
                .shelve(&with.shelf, &with.design, &with.words)?
            {
                return Ok(());
            }
        }
        Err(Refusal::new(
            "the shelf is being changed all the time",
            "wait until that is done, then try once more",
        )
        .into())
    }

    /// The texts with a driver on the shelf, used at a key where one is named.
    pub(super) fn with_driver(
        &self,
        values: &Typed,
        key: Option<&str>,
    ) -> Result<WithDriver, Undone> {
        let own = self.session.shelf().map(|shelf| &**shelf);
        let design = self.session.text();
        let in_file = |shelf: Option<&str>, found: &[design::Diagnostic]| {
            Undone::Problems(problems(&self.project(design, shelf), found))
        };
        let shelf = design::read_shelf(own).map_err(|found| in_file(own, &found))?;
        let entry = data_sheet::entry(values, &shelf).map_err(|found| as_typed(&found))?;
        let longer = Longer::new(own, &entry.lines);
        let text = longer.text.as_str();
        design::read_shelf(Some(text)).map_err(|found| in_file(Some(text), &found))?;
        let (design, words) = match key {
            None => (
                design.to_string(),
                format!("{} on the shelf", words::short(&entry.name)),
            ),
            Some(key) => {
                let edits = [Edit {
                    key: key.to_owned(),
                    value: Some(entry.name.clone()),
                }];
                let words = format!("{}, new on the shelf", words::edits(design, &edits));
                let design = applied(design, &edits)?;
                self.must_not_worsen(&design, Some(text))?;
                (design, words)
            }
        };
        Ok(WithDriver {
            design,
            shelf: longer,
            words,
        })
    }
}

/// What is wrong with what was typed: it stands in no file yet.
fn as_typed(found: &[design::Diagnostic]) -> Undone {
    let problem = |found: &design::Diagnostic| Problem {
        place: String::new(),
        message: found.message.clone(),
        advice: found.mend.clone(),
    };
    Undone::Problems(found.iter().map(problem).collect())
}
