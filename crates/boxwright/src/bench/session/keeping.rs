//! What outlasts a session: every text to go back to, and the steps that are done.

use super::aside::{Hold, Kept};
use super::history::{History, Unreadable};
use super::{EDITOR, Session, steps};
use std::io;

const HISTORY: &str = "history";
const STEPS: &str = "steps";

/// How well a session is remembered.
#[derive(Debug, Default)]
pub(super) struct Keeping {
    /// What stands in the place of the history is not the bench's.
    foreign_history: bool,
    foreign_steps: bool,
    torn_history: bool,
    /// Why what was last to be kept was not.
    failed: Option<String>,
}

impl Keeping {
    /// What the maker should know about it.
    pub(super) fn notices(&self, hold: &Hold) -> impl Iterator<Item = &str> {
        let nowhere = matches!(hold, Hold::Nowhere);
        [
            nowhere.then_some(
                "nothing can be written beside the design: undo and the steps checked off end with this session",
            ),
            self.foreign_history.then_some(
                "the file kept for undo is not this bench's: it stays as it is, and undo ends with this session",
            ),
            self.foreign_steps.then_some(
                "the file kept for the steps is not this bench's: it stays as it is, and what is checked off ends with this session",
            ),
            self.torn_history
                .then_some("the file kept for undo was damaged: undo begins anew"),
            self.failed.as_deref(),
        ]
        .into_iter()
        .flatten()
    }

    /// Takes in how keeping something went.
    fn heard(&mut self, kept: io::Result<()>) {
        self.failed = kept.err().map(|error| {
            format!("what is done now cannot be kept beside the design ({error}): it ends with this session")
        });
    }
}

impl Session {
    /// Takes up what an earlier session has kept, or one that has just ended.
    pub(super) fn remember(&mut self) {
        self.reread_steps();
        if !matches!(self.hold, Hold::Ours { .. }) {
            return;
        }
        self.aside.sweep(&[HISTORY, STEPS]);
        let kept = self.aside.read(HISTORY);
        self.keeping.foreign_history = false;
        match kept {
            Kept::Nothing => {}
            Kept::Foreign => self.keeping.foreign_history = true,
            Kept::Text(text) => match History::read(&text) {
                Ok(history) => self.go_on_from(history),
                Err(Unreadable::Foreign) => self.keeping.foreign_history = true,
                Err(Unreadable::Torn) => self.keeping.torn_history = true,
            },
        }
    }

    fn go_on_from(&mut self, mut history: History) {
        history.record(&self.on_disk, EDITOR);
        if self.conflict.is_some() {
            history.record(self.text(), "your change");
        }
        self.history = history;
    }

    /// Claims the design again where another bench has ended, or where the claim
    /// was taken away.
    pub(super) fn claim(&mut self) {
        match &self.hold {
            Hold::Ours { lock } if self.aside.is_held_by(lock) => {}
            Hold::Nowhere => {}
            Hold::Ours { .. } => self.hold = self.aside.hold(),
            Hold::Theirs => {
                self.hold = self.aside.hold();
                if matches!(self.hold, Hold::Ours { .. }) {
                    self.remember();
                    self.keep_history();
                }
            }
        }
    }

    /// Takes up what another bench has checked off.
    pub(super) fn reread_steps(&mut self) {
        let read = match self.aside.read(STEPS) {
            Kept::Nothing => return,
            Kept::Foreign => None,
            Kept::Text(text) => steps::read(&text),
        };
        self.keeping.foreign_steps = read.is_none();
        // What could not be written is not there to be read.
        if let (Some(done), None) = (read, &self.keeping.failed) {
            self.done = done;
        }
    }

    /// Checks a build step off, or not.
    pub(crate) fn check_off(&mut self, id: &str, done: bool) {
        self.reread_steps();
        if done {
            self.done.insert(id.to_owned());
        } else {
            self.done.remove(id);
        }
        if !matches!(self.hold, Hold::Nowhere) && !self.keeping.foreign_steps {
            let kept = self.aside.write(STEPS, &steps::written(&self.done));
            self.keeping.heard(kept);
        }
    }

    /// What cannot be kept is forgotten when the session ends; the design is saved all the same.
    pub(super) fn keep_history(&mut self) {
        if matches!(self.hold, Hold::Ours { .. }) && !self.keeping.foreign_history {
            let kept = self.aside.write(HISTORY, &self.history.written());
            self.keeping.heard(kept);
        }
    }
}
