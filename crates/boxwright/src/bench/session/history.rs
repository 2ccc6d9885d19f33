//! Every text of a session, back to the first and forth again.

use serde::{Deserialize, Serialize};
use std::collections::VecDeque;
use std::sync::Arc;

/// One change: what stood where, and what stands there now.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
struct Change {
    words: String,
    at: usize,
    removed: String,
    added: String,
    /// Lines that came onto the shelf with it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    shelved: Option<String>,
}

/// The present text with the changes that led to it and those taken back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct History {
    present: Arc<str>,
    back: VecDeque<Change>,
    forth: Vec<Change>,
}

/// Changes kept; the oldest go first.
const MOST_CHANGES: usize = 1000;

/// Bytes of changed text kept.
const MOST_BYTES: usize = 2 << 20;

/// What the file of a history begins with.
const MARK: &str = "boxwright bench history, format 1\n";

/// A history as its file has it.
#[derive(Serialize, Deserialize)]
struct Written {
    present: String,
    back: VecDeque<Change>,
    forth: Vec<Change>,
}

/// What a file that should hold a history holds instead.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Unreadable {
    /// One that was torn.
    Torn,
    /// Something that no bench wrote, or a newer one.
    Foreign,
}

impl History {
    /// The history of a text that nothing was done to.
    pub(super) fn new(text: &str) -> Self {
        Self {
            present: text.into(),
            back: VecDeque::new(),
            forth: Vec::new(),
        }
    }

    pub(super) fn present(&self) -> &Arc<str> {
        &self.present
    }

    /// What would be taken back, in words.
    pub(super) fn undo_words(&self) -> Option<&str> {
        self.back.back().map(|change| change.words.as_str())
    }

    /// What would be made again, in words.
    pub(super) fn redo_words(&self) -> Option<&str> {
        self.forth.last().map(|change| change.words.as_str())
    }

    /// Lines that came onto the shelf with the last change.
    pub(super) fn shelved_back(&self) -> Option<&str> {
        self.back.back()?.shelved.as_deref()
    }

    /// Lines that came onto the shelf with the last change that was taken back.
    pub(super) fn shelved_forth(&self) -> Option<&str> {
        self.forth.last()?.shelved.as_deref()
    }

    /// The text with the last change taken back.
    pub(super) fn before(&self) -> Option<Arc<str>> {
        let change = self.back.back()?;
        swapped(&self.present, change.at, &change.added, &change.removed)
    }

    /// The text with the last change that was taken back made again.
    pub(super) fn after(&self) -> Option<Arc<str>> {
        let change = self.forth.last()?;
        swapped(&self.present, change.at, &change.removed, &change.added)
    }

    /// Takes the last change back.
    pub(super) fn undo(&mut self) {
        if let Some(text) = self.before()
            && let Some(change) = self.back.pop_back()
        {
            self.present = text;
            self.forth.push(change);
        }
    }

    /// Makes the last change that was taken back again.
    pub(super) fn redo(&mut self) {
        if let Some(text) = self.after()
            && let Some(change) = self.forth.pop()
        {
            self.present = text;
            self.back.push_back(change);
        }
    }

    /// Goes on from a new text; what was taken back is given up.
    pub(super) fn record(&mut self, text: &str, words: &str) {
        self.record_with(text, words, None);
    }

    /// The same with lines that came onto the shelf in the same step.
    pub(super) fn record_with(&mut self, text: &str, words: &str, shelved: Option<&str>) {
        if *self.present == *text && shelved.is_none() {
            return;
        }
        let change = Change {
            shelved: shelved.map(str::to_owned),
            ..change(&self.present, text, words)
        };
        self.back.push_back(change);
        self.forth.clear();
        self.present = text.into();
        let size = |change: &Change| {
            let shelved = change.shelved.as_ref().map_or(0, String::len);
            change.removed.len() + change.added.len() + shelved
        };
        let mut total: usize = self.back.iter().map(size).sum();
        // The last one stays, however large it is.
        while self.back.len() > MOST_CHANGES || (self.back.len() > 1 && total > MOST_BYTES) {
            if let Some(oldest) = self.back.pop_front() {
                total -= size(&oldest);
            }
        }
    }

    /// As it is kept in a file.
    pub(super) fn written(&self) -> String {
        let written = Written {
            present: self.present.to_string(),
            back: self.back.clone(),
            forth: self.forth.clone(),
        };
        // Texts and numbers alone can always be written.
        format!(
            "{MARK}{}\n",
            serde_json::to_string(&written).unwrap_or_default()
        )
    }

    /// From what a file has.
    pub(super) fn read(text: &str) -> Result<Self, Unreadable> {
        let Some(body) = text.strip_prefix(MARK) else {
            let begun = MARK.starts_with(text.trim_end_matches('\0'));
            return Err(if begun {
                Unreadable::Torn
            } else {
                Unreadable::Foreign
            });
        };
        let written: Written = serde_json::from_str(body).map_err(|_| Unreadable::Torn)?;
        let history = Self {
            present: written.present.into(),
            back: written.back,
            forth: written.forth,
        };
        if history.holds_together() {
            Ok(history)
        } else {
            Err(Unreadable::Torn)
        }
    }

    /// Whether every change fits the text it was made to.
    fn holds_together(&self) -> bool {
        let mut back = self.clone();
        for _ in 0..self.back.len() {
            if back.before().is_none() {
                return false;
            }
            back.undo();
        }
        let mut forth = self.clone();
        for _ in 0..self.forth.len() {
            if forth.after().is_none() {
                return false;
            }
            forth.redo();
        }
        true
    }
}

/// What differs between two texts, as one stretch.
fn change(old: &str, new: &str, words: &str) -> Change {
    let head = old.bytes().zip(new.bytes()).take_while(|(a, b)| a == b);
    let at = old.floor_char_boundary(head.count());
    let at = new.floor_char_boundary(at).min(at);
    let rest = || old[at..].chars().rev().zip(new[at..].chars().rev());
    let tail: usize = rest()
        .take_while(|(a, b)| a == b)
        .map(|(c, _)| c.len_utf8())
        .sum();
    Change {
        words: words.to_owned(),
        at,
        removed: old[at..old.len() - tail].to_owned(),
        added: new[at..new.len() - tail].to_owned(),
        shelved: None,
    }
}

/// The text with one stretch in the place of another, which must be there.
fn swapped(text: &str, at: usize, old: &str, new: &str) -> Option<Arc<str>> {
    let rest = text.get(at..)?.strip_prefix(old)?;
    Some(format!("{}{new}{rest}", &text[..at]).into())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Back to the first text and forth to the last, through a file at every step.
        #[test]
        fn all_the_way_back_and_forth(texts in prop::collection::vec("[aä\n]{0,12}", 1..20)) {
            let mut history = History::new(&texts[0]);
            let mut seen = vec![texts[0].clone()];
            for text in &texts[1..] {
                history.record(text, "a change");
                if seen.last() != Some(text) {
                    seen.push(text.clone());
                }
            }
            for text in seen.iter().rev() {
                history = History::read(&history.written()).unwrap();
                prop_assert_eq!(history.present().as_ref(), text.as_str());
                history.undo();
            }
            prop_assert!(history.undo_words().is_none());
            for text in &seen {
                prop_assert_eq!(history.present().as_ref(), text.as_str());
                history.redo();
                history = History::read(&history.written()).unwrap();
            }
            prop_assert!(history.redo_words().is_none());
        }

        /// Whatever is in the file, it is read or refused.
        #[test]
        fn torn_and_foreign_files_are_refused(cut in 0_usize..400, garbage in "\\PC{0,40}") {
            let mut history = History::new("a = 1\n");
            history.record("a = 2\n", "a 1 → 2");
            let text = history.written();
            let cut = text.floor_char_boundary(cut.min(text.len() - 2));
            prop_assert_eq!(History::read(&text[..cut]), Err(Unreadable::Torn));
            let zeros = format!("{}{}", &text[..cut], "\0".repeat(cut));
            prop_assert_eq!(History::read(&zeros), Err(Unreadable::Torn));
            prop_assume!(!garbage.is_empty() && !MARK.starts_with(&garbage));
            prop_assert_eq!(History::read(&garbage), Err(Unreadable::Foreign));
        }
    }

    #[test]
    fn a_history_that_does_not_fit_its_text_is_refused() {
        let mut history = History::new("a = 1\n");
        history.record("a = 2\n", "a 1 → 2");
        let other = history
            .written()
            .replace("\"present\":\"a = 2", "\"present\":\"b = 3");
        assert_eq!(History::read(&other), Err(Unreadable::Torn));
    }

    #[test]
    fn a_history_of_a_newer_bench_is_not_ours() {
        let newer = History::new("a = 1\n")
            .written()
            .replace("format 1", "format 2");
        assert_eq!(History::read(&newer), Err(Unreadable::Foreign));
    }

    /// However large a change is, it can be taken back.
    #[test]
    fn the_last_change_stays() {
        let texts = ["x", "y"].map(|letter| letter.repeat(2 * MOST_BYTES));
        let mut history = History::new(&texts[0]);
        history.record(&texts[1], "all of it");
        history.undo();
        assert_eq!(**history.present(), *texts[0]);
    }

    #[test]
    fn the_oldest_changes_give_way() {
        let mut history = History::new("");
        let large = "x".repeat(MOST_BYTES / 3);
        for n in 0..9 {
            history.record(&format!("{n}{large}{n}"), &n.to_string());
        }
        assert!(history.written().len() < 2 * MOST_BYTES);
        for n in 0..2 * MOST_CHANGES {
            history.record(&n.to_string(), &n.to_string());
        }
        assert_eq!(history.back.len(), MOST_CHANGES);
        let last = (2 * MOST_CHANGES - 1).to_string();
        assert_eq!(history.undo_words(), Some(last.as_str()));
    }
}
