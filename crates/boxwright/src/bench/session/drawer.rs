//! The maker's own shelf: parts come onto it, and leave it again by undo.

use super::saving::exchange;
use super::{Session, unsettled};
use crate::bench::refusal::Refusal;
use crate::files::Exchange;
use std::sync::Arc;

/// What a shelf begins with that nobody has begun.
const HEAD: &str = "format = 1\n";

/// A shelf with more lines at its end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Longer {
    /// All of it.
    pub(crate) text: String,
    /// What came, byte for byte.
    added: String,
}

impl Longer {
    /// A shelf with a part at its end; every other byte stays.
    pub(crate) fn new(shelf: Option<&str>, part: &str) -> Self {
        let begun = shelf.filter(|text| !text.trim().is_empty());
        let before = begun.unwrap_or(HEAD);
        let eol = if before.contains("\r\n") {
            "\r\n"
        } else {
            "\n"
        };
        let gap = if before.ends_with('\n') { "" } else { eol };
        let added = format!("{gap}{eol}{}", part.replace('\n', eol));
        Self {
            text: format!("{before}{added}"),
            added,
        }
    }
}

/// A shelf without lines that came onto it; none where they no longer stand there as they
/// came, or others belong to them now.
fn without(shelf: &str, added: &str) -> Option<String> {
    let mut found = shelf.match_indices(added);
    let (Some((at, _)), None) = (found.next(), found.next()) else {
        return None;
    };
    let rest = &shelf[at + added.len()..];
    let mut lines = rest.lines().map(str::trim);
    let next = lines.find(|line| !line.is_empty() && !line.starts_with('#'));
    let is_alone = next.is_none_or(|line| line.starts_with('['));
    is_alone.then(|| format!("{}{rest}", &shelf[..at]))
}

impl Session {
    /// Puts a part on the shelf and goes on to a new text of the design, as one step. Whether
    /// that was done: not where an editor has changed the shelf meanwhile.
    pub(crate) fn shelve(
        &mut self,
        longer: &Longer,
        design: &str,
        words: &str,
    ) -> Result<bool, Refusal> {
        if self.conflict.is_some() {
            return Err(unsettled());
        }
        if !self.save_shelf(&longer.text)? {
            return Ok(false);
        }
        let shelved = Some(longer.added.as_str());
        if *design == **self.text() {
            self.history.record_with(design, words, shelved);
            self.keep_history();
        } else if let Err(refusal) = self.change_with(design, words, shelved) {
            self.unshelve(&longer.added)?;
            return Err(refusal);
        }
        Ok(true)
    }

    /// Saves the shelf; not where it is no longer what was last seen.
    fn save_shelf(&mut self, text: &str) -> Result<bool, Refusal> {
        if self.shelf_text.is_none() && self.shelf.parent() != self.design.parent() {
            return Err(Refusal::new(
                format!("there is no file {}", self.shelf.display()),
                "begin it with the line `format = 1`, or leave --shelf away",
            ));
        }
        let before = self.shelf_text.as_deref().unwrap_or_default();
        match exchange(&self.shelf, text.as_bytes(), before.as_bytes())? {
            Exchange::Done(_) => {
                self.shelf_text = Some(text.into());
                Ok(true)
            }
            Exchange::Met => {
                self.look_at_shelf();
                Ok(false)
            }
        }
    }

    /// Takes the last change back; a part that came onto the shelf with it leaves it, too.
    pub(crate) fn undo(&mut self) -> Result<(), Refusal> {
        let added = self.history.shelved_back().map(str::to_owned);
        self.stays = None;
        if self.step_back()?
            && let Some(added) = added
        {
            self.unshelve(&added)?;
        }
        Ok(())
    }

    /// Makes the last change that was taken back again, its part on the shelf first.
    pub(crate) fn redo(&mut self) -> Result<(), Refusal> {
        let added = self.history.shelved_forth().map(str::to_owned);
        self.stays = None;
        let Some(added) = added else {
            self.step_forth()?;
            return Ok(());
        };
        if self.conflict.is_some() {
            return Err(unsettled());
        }
        if self.look() {
            return Ok(());
        }
        let before = self.shelf_text.as_deref().unwrap_or(HEAD);
        let text = format!("{before}{added}");
        if let Err(found) = design::read_shelf(Some(&text)) {
            let why = found.into_iter().next();
            let why = why.map_or_else(String::new, |found| format!(": {}", found.message));
            return Err(Refusal::new(
                format!("the shelf cannot take the part again{why}"),
                "look at the shelf: it was changed since",
            ));
        }
        if self.save_shelf(&text)? && !self.step_forth()? {
            self.unshelve(&added)?;
        }
        Ok(())
    }

    /// Takes lines off the shelf that came onto it, as long as they stand there as they came.
    fn unshelve(&mut self, added: &str) -> Result<(), Refusal> {
        self.look_at_shelf();
        let before: Option<Arc<str>> = self.shelf_text.clone();
        let text = before.as_deref().and_then(|before| without(before, added));
        let is_off = match text {
            Some(text) => self.save_shelf(&text)?,
            None => false,
        };
        if !is_off {
            self.stays =
                Some("the part stays on the shelf: its lines there were changed since".to_owned());
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const PART: &str = "[[driver]]\nname = \"mine\"\n";

    #[test]
    fn a_part_comes_to_the_end_and_nothing_else_changes() {
        for (before, after) in [
            (None, "format = 1\n\n[[driver]]\nname = \"mine\"\n"),
            (Some(" \n"), "format = 1\n\n[[driver]]\nname = \"mine\"\n"),
            (
                Some("format = 1 # mine"),
                "format = 1 # mine\n\n[[driver]]\nname = \"mine\"\n",
            ),
            (
                Some("format = 1\r\n# end\r\n"),
                "format = 1\r\n# end\r\n\r\n[[driver]]\r\nname = \"mine\"\r\n",
            ),
        ] {
            assert_eq!(Longer::new(before, PART).text, after);
        }
    }

    #[test]
    fn what_was_changed_since_stays() {
        let longer = Longer::new(Some("format = 1\n"), PART);
        for (then, left) in [
            ("", Some("format = 1\n")),
            (
                "\n# mine\n[[fuse]]\n",
                Some("format = 1\n\n# mine\n[[fuse]]\n"),
            ),
            ("price = \"3 €\"\n", None),
            (longer.added.as_str(), None),
        ] {
            let now = format!("{}{then}", longer.text);
            assert_eq!(without(&now, &longer.added).as_deref(), left, "{now}");
        }
        assert_eq!(without("format = 1\n", &longer.added), None);
    }

    proptest! {
        /// What came can go again, and leaves no trace.
        #[test]
        fn taken_off_the_shelf_is_as_before(before in "format = 1(\r?\n|[a#\\[é]){0,20}") {
            let longer = Longer::new(Some(&before), PART);
            prop_assert!(longer.text.starts_with(&before));
            prop_assert_eq!(without(&longer.text, &longer.added), Some(before));
        }
    }
}
