//! A design that is worked on: its file is the truth, and no text of it is lost.

mod aside;
mod drawer;
mod history;
mod keeping;
#[cfg(test)]
mod kill;
mod lines;
mod looking;
mod merge;
#[cfg(test)]
mod oracle;
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
use history::History;
use keeping::Keeping;
pub(crate) use lines::with_ends_of;
pub(crate) use merge::merge;
use saving::{GaveWay, Saved};
use std::collections::{BTreeSet, VecDeque};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What a change by someone else is called.
const EDITOR: &str = "a change by an editor";

/// A design and everything done to it.
#[derive(Debug)]
pub(crate) struct Session {
    design: PathBuf,
    shelf: PathBuf,
    aside: Aside,
    hold: Hold,
    /// What the file held when it was last looked at.
    on_disk: Arc<str>,
    /// Files that saves have taken the place of, the latest last.
    gave_way: VecDeque<GaveWay>,
    shelf_text: Option<Arc<str>>,
    history: History,
    done: BTreeSet<String>,
    conflict: Option<Conflict>,
    /// Why the file cannot be worked with now.
    trouble: Option<String>,
    /// What the last undo left as it was.
    stays: Option<String>,
    /// How well the session is remembered.
    keeping: Keeping,
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
        must_be_file(design)?;
        let text = files::text(design)?;
        let design = fs::canonicalize(design).map_err(|error| {
            Failure::plain(format!("cannot open {}: {error}", design.display()))
        })?;
        let shelf = match shelf {
            Some(named) => fs::canonicalize(named).unwrap_or_else(|_| named.to_owned()),
            None => beside(&design)?,
        };
        must_be_file(&shelf)?;
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
            gave_way: VecDeque::new(),
            shelf_text: shelf_text.map(Into::into),
            history: History::new(&text),
            done: BTreeSet::new(),
            conflict: None,
            trouble: None,
            stays: None,
            keeping: Keeping::default(),
            aside,
        };
        session.remember();
        Ok(session)
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
        let linked = has_other_names(&self.design).then_some(
            "the file has another name too (a hard link): a change here parts the two, and the other one stays as it is",
        );
        let said = [
            self.trouble.as_deref(),
            self.stays.as_deref(),
            other,
            linked,
        ];
        let said: Vec<&str> = said
            .into_iter()
            .flatten()
            .chain(self.keeping.notices(&self.hold))
            .collect();
        (!said.is_empty()).then(|| said.join("; "))
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
                if let Saved::Met = self.save(&mine)? {
                    self.look();
                    return Err(unsettled());
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
        match self.save(&text)? {
            Saved::Done => {
                go(&mut self.history);
                self.keep_history();
                Ok(true)
            }
            Saved::Met => {
                self.look();
                Ok(false)
            }
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

/// Fails where something stands that may never end, such as a pipe.
fn must_be_file(path: &Path) -> Result<(), Failure> {
    match fs::metadata(path) {
        Ok(found) if !found.is_file() && !found.is_dir() => Err(Failure::mended(
            format!("{} is no file", path.display()),
            "name a text file",
        )),
        Ok(_) | Err(_) => Ok(()),
    }
}

/// Whether the same file stands under another name as well.
#[cfg(unix)]
fn has_other_names(path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    fs::symlink_metadata(path).is_ok_and(|found| found.is_file() && found.nlink() > 1)
}

/// As above, where nobody can tell.
#[cfg(not(unix))]
fn has_other_names(_: &Path) -> bool {
    false
}
