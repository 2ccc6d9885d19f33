//! A design that is worked on: its file is the truth, and no text of it is lost.

mod aside;
mod drawer;
mod history;
#[cfg(test)]
mod kill;
mod lines;
mod merge;
#[cfg(test)]
mod race;
mod saving;
mod steps;

use super::refusal::Refusal;
use super::state::Conflict;
use crate::failure::Failure;
use crate::files;
use aside::{Aside, Hold};
pub(crate) use drawer::Longer;
pub(crate) use merge::merge;

use history::{History, Unreadable};
use saving::Saved;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What a change by someone else is called.
const EDITOR: &str = "a change by an editor";

const HISTORY: &str = "history";
const STEPS: &str = "steps";

/// A design and everything done to it.
#[derive(Debug)]
pub(crate) struct Session {
    design: PathBuf,
    shelf: PathBuf,
    aside: Aside,
    hold: Hold,
    /// What the file held when it was last looked at.
    on_disk: Arc<str>,
    shelf_text: Option<Arc<str>>,
    history: History,
    done: BTreeSet<String>,
    conflict: Option<Conflict>,
    /// Why the file cannot be worked with now.
    trouble: Option<String>,
    /// Why the session is not remembered.
    forgetful: Option<&'static str>,
    /// What the last undo left as it was.
    stays: Option<String>,
}

/// Which side of a conflict is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Side {
    Mine,
    Theirs,
}

impl Session {
    /// Opens a design with the shelf that was named or lies beside it.
    pub(crate) fn open(design: &Path, shelf: Option<&Path>) -> Result<Self, Failure> {
        let text = files::text(design)?;
        let design = fs::canonicalize(design).map_err(|error| {
            Failure::plain(format!("cannot open {}: {error}", design.display()))
        })?;
        let shelf = match shelf {
            Some(named) => fs::canonicalize(named).unwrap_or_else(|_| named.to_owned()),
            None => beside(&design)?,
        };
        let shelf_text = shelf.exists().then(|| files::text(&shelf)).transpose()?;
        files::sweep(&design);
        files::sweep(&shelf);
        let aside = Aside::beside(&design);
        let hold = aside.hold();
        let mut session = Self {
            design,
            shelf,
            hold,
            on_disk: text.as_str().into(),
            shelf_text: shelf_text.map(Into::into),
            history: History::new(&text),
            done: BTreeSet::new(),
            conflict: None,
            trouble: None,
            forgetful: None,
            stays: None,
            aside,
        };
        session.remember();
        Ok(session)
    }

    /// Takes up what an earlier session has kept.
    fn remember(&mut self) {
        match &self.hold {
            Hold::Ours { .. } => {}
            Hold::Theirs => return,
            Hold::Nowhere => {
                self.forgetful =
                    Some("nothing can be written beside the design: undo ends with this session");
                return;
            }
        }
        if let Some(text) = self.aside.read(STEPS) {
            self.done = steps::read(&text);
        }
        match self.aside.read(HISTORY).map(|text| History::read(&text)) {
            Some(Ok(mut history)) => {
                history.record(&self.on_disk, EDITOR);
                self.history = history;
            }
            Some(Err(Unreadable::Foreign)) => {
                self.forgetful = Some(
                    "the file kept for undo is not the bench's: it stays as it is, and undo ends with this session",
                );
            }
            Some(Err(Unreadable::Torn)) | None => {}
        }
    }

    pub(crate) fn text(&self) -> &Arc<str> {
        self.history.present()
    }

    pub(crate) fn shelf(&self) -> Option<&Arc<str>> {
        self.shelf_text.as_ref()
    }

    pub(crate) fn path(&self) -> &Path {
        &self.design
    }

    /// The name of the file for the maker.
    pub(crate) fn file(&self) -> String {
        self.design.display().to_string()
    }

    pub(crate) fn undo_words(&self) -> Option<String> {
        self.history.undo_words().map(str::to_owned)
    }

    pub(crate) fn redo_words(&self) -> Option<String> {
        self.history.redo_words().map(str::to_owned)
    }

    pub(crate) fn done(&self) -> &BTreeSet<String> {
        &self.done
    }

    pub(crate) fn conflict(&self) -> Option<&Conflict> {
        self.conflict.as_ref()
    }

    /// What the maker should know about the file.
    pub(crate) fn notice(&self) -> Option<String> {
        let other = matches!(self.hold, Hold::Theirs).then_some(
            "another bench has this file open: changes of both are kept, but only the other one remembers them",
        );
        let said = [
            self.trouble.as_deref(),
            self.stays.as_deref(),
            other,
            self.forgetful,
        ];
        let said: Vec<&str> = said.into_iter().flatten().collect();
        (!said.is_empty()).then(|| said.join("; "))
    }

    /// Looks at the files again; whether a text has changed.
    pub(crate) fn look(&mut self) -> bool {
        if matches!(self.hold, Hold::Theirs) {
            self.hold = self.aside.hold();
        }
        let shelf_changed = self.look_at_shelf();
        let theirs: Arc<str> = match self.there() {
            Ok(Some(text)) if *text == *self.on_disk => return shelf_changed,
            Ok(Some(text)) => text.into(),
            Ok(None) | Err(_) => return shelf_changed,
        };
        self.on_disk = Arc::clone(&theirs);
        if self.conflict.is_some() {
            self.conflict = (*theirs != **self.text()).then_some(Conflict { theirs });
            return true;
        }
        self.history.record(&theirs, EDITOR);
        self.keep_history();
        true
    }

    fn look_at_shelf(&mut self) -> bool {
        let text = match fs::symlink_metadata(&self.shelf) {
            Ok(found) if found.is_file() => match files::text(&self.shelf) {
                Ok(text) => Some(Arc::from(text)),
                // Unreadable for a moment: the next look will tell.
                Err(_) => return false,
            },
            Ok(_) | Err(_) => None,
        };
        let changed = text != self.shelf_text;
        self.shelf_text = text;
        changed
    }

    /// The text in the file; none where the file is gone.
    fn there(&mut self) -> Result<Option<String>, Refusal> {
        let found = match fs::symlink_metadata(&self.design) {
            Ok(found) if found.is_file() => files::text(&self.design).map(Some),
            Ok(_) => Err(Failure::plain(format!(
                "{} is no longer a file",
                self.design.display()
            ))),
            Err(_) => Ok(None),
        };
        match found {
            Ok(Some(text)) => {
                self.trouble = None;
                Ok(Some(text))
            }
            Ok(None) => {
                self.trouble = Some("the file is gone: the next change writes it again".into());
                Ok(None)
            }
            Err(failure) => {
                let refusal = Refusal::from(failure);
                self.trouble = Some(refusal.message.clone());
                Err(refusal)
            }
        }
    }

    /// Goes on to a new text and saves it. A change by an editor that was not
    /// yet seen is merged, or asked about.
    pub(crate) fn change(&mut self, new: &str, words: &str) -> Result<(), Refusal> {
        self.change_with(new, words, None)
    }

    /// The same with lines that came onto the shelf in the same step.
    fn change_with(
        &mut self,
        new: &str,
        words: &str,
        shelved: Option<&str>,
    ) -> Result<(), Refusal> {
        if self.conflict.is_some() {
            return Err(unsettled());
        }
        self.stays = None;
        let theirs = self.there()?.filter(|text| **text != *self.on_disk);
        let theirs = match theirs {
            Some(theirs) => theirs,
            None => match self.save(new)? {
                Saved::Done => {
                    self.history.record_with(new, words, shelved);
                    self.keep_history();
                    return Ok(());
                }
                Saved::Met(theirs) => theirs,
            },
        };
        self.meet(&theirs, new, words, shelved)
    }

    /// Goes on to a new text while an editor went on to another.
    fn meet(
        &mut self,
        theirs: &str,
        new: &str,
        words: &str,
        shelved: Option<&str>,
    ) -> Result<(), Refusal> {
        let doubtful =
            |text: &str| self.is_sound(new) && self.is_sound(theirs) && !self.is_sound(text);
        let merged = merge(self.text(), new, theirs).ok();
        let merged = merged.filter(|merged| !doubtful(merged));
        self.on_disk = theirs.into();
        if let Some(merged) = merged {
            self.history.record(theirs, EDITOR);
            self.keep_history();
            if let Saved::Met(theirs) = self.save(&merged)? {
                return self.meet(&theirs, &merged, words, shelved);
            }
            self.history.record_with(&merged, words, shelved);
        } else {
            self.history.record_with(new, words, shelved);
            let theirs = theirs.into();
            self.conflict = Some(Conflict { theirs });
        }
        self.keep_history();
        Ok(())
    }

    fn is_sound(&self, text: &str) -> bool {
        design::read(text, self.shelf_text.as_deref()).is_ok()
    }

    /// Ends a conflict; the other text can be come back to by undo.
    pub(crate) fn settle(&mut self, side: Side) -> Result<(), Refusal> {
        self.look();
        let Some(Conflict { theirs }) = self.conflict.clone() else {
            return Ok(());
        };
        match side {
            Side::Mine => {
                let mine = Arc::clone(self.text());
                if let Saved::Met(theirs) = self.save(&mine)? {
                    return Err(self.ask_again(theirs));
                }
                self.history.record(&theirs, EDITOR);
                self.history
                    .record(&mine, "your change over that of an editor");
            }
            Side::Theirs => self
                .history
                .record(&theirs, "an editor's change over yours"),
        }
        self.conflict = None;
        self.keep_history();
        Ok(())
    }

    /// Takes the last change of the design back; whether that was done.
    fn step_back(&mut self) -> Result<bool, Refusal> {
        self.step(History::before, History::undo)
    }

    /// Makes the last change of the design that was taken back again; whether that was done.
    fn step_forth(&mut self) -> Result<bool, Refusal> {
        self.step(History::after, History::redo)
    }

    fn step(
        &mut self,
        text: fn(&History) -> Option<Arc<str>>,
        go: fn(&mut History),
    ) -> Result<bool, Refusal> {
        if self.conflict.is_some() {
            return Err(unsettled());
        }
        // What an editor did meanwhile is the last change: it is shown before it is taken back.
        if self.look() {
            return Ok(false);
        }
        let Some(text) = text(&self.history) else {
            return Ok(false);
        };
        let saved = self.save(&text)?;
        let went = matches!(saved, Saved::Done);
        match saved {
            Saved::Done => go(&mut self.history),
            Saved::Met(theirs) => {
                self.on_disk = theirs.as_str().into();
                self.history.record(&theirs, EDITOR);
            }
        }
        self.keep_history();
        Ok(went)
    }

    /// The editor has gone on while it was being settled.
    fn ask_again(&mut self, theirs: String) -> Refusal {
        let theirs: Arc<str> = theirs.into();
        self.on_disk = Arc::clone(&theirs);
        self.conflict = Some(Conflict { theirs });
        unsettled()
    }

    /// Checks a build step off, or not.
    pub(crate) fn check_off(&mut self, id: &str, done: bool) {
        if done {
            self.done.insert(id.to_owned());
        } else {
            self.done.remove(id);
        }
        if matches!(self.hold, Hold::Ours { .. }) {
            self.aside.write(STEPS, &steps::written(&self.done)).ok();
        }
    }

    /// Saves a text, unless an editor has saved another since the file was last looked at.
    fn save(&mut self, text: &str) -> Result<Saved, Refusal> {
        let saved = saving::over(&self.design, &self.on_disk, text)?;
        self.trouble = None;
        if matches!(saved, Saved::Done) {
            self.on_disk = text.into();
        }
        Ok(saved)
    }

    /// What cannot be kept is forgotten when the session ends; the design is saved all the same.
    fn keep_history(&self) {
        if matches!(self.hold, Hold::Ours { .. }) && self.forgetful.is_none() {
            self.aside.write(HISTORY, &self.history.written()).ok();
        }
    }
}

fn unsettled() -> Refusal {
    Refusal {
        message: "an editor has changed the same lines".into(),
        advice: Some("say first whose change to keep".into()),
    }
}

/// The shelf beside a design, which must not be somewhere else in truth.
fn beside(design: &Path) -> Result<PathBuf, Failure> {
    let shelf = design.with_file_name(files::SHELF);
    if fs::symlink_metadata(&shelf).is_ok_and(|found| found.is_symlink()) {
        return Err(Failure::mended(
            format!("{} is a link to somewhere else", shelf.display()),
            "name the file it leads to with --shelf",
        ));
    }
    Ok(shelf)
}
