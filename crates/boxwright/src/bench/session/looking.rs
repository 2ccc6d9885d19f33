//! What editors and other benches do to the files meanwhile.

use super::saving::Saved;
use super::{Conflict, EDITOR, Session, merge};
use crate::bench::refusal::Refusal;
use crate::failure::Failure;
use crate::files;
use std::fs;
use std::sync::Arc;
use std::thread;
use std::time::Duration;

/// What is read twice so long after another is not being written just now.
const SETTLING: Duration = Duration::from_millis(15);

/// Whoever writes for longer than so many looks is taken as it stands.
const MOST_LOOKS: usize = 30;

impl Session {
    /// Looks at the files again; whether a text has changed.
    pub(crate) fn look(&mut self) -> bool {
        self.claim();
        self.reread_steps();
        let shelf_changed = self.look_at_shelf();
        let late = self.look_at_what_gave_way();
        let theirs: Arc<str> = match self.there() {
            Ok(Some(text)) if *text == *self.on_disk => return shelf_changed || late,
            Ok(Some(text)) => text.into(),
            Ok(None) | Err(_) => return shelf_changed || late,
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

    pub(super) fn look_at_shelf(&mut self) -> bool {
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

    /// The text in the file; none where the file is gone. A text that is new
    /// is read until it stays the same, for an editor may be writing it just now.
    pub(super) fn there(&mut self) -> Result<Option<String>, Refusal> {
        let mut found = self.read();
        for _ in 0..MOST_LOOKS {
            if matches!(&found, Ok(Some(text)) if **text == *self.on_disk) {
                break;
            }
            thread::sleep(SETTLING);
            let again = self.read();
            let same = match (&found, &again) {
                (Ok(found), Ok(again)) => found == again,
                (Err(_), Err(_)) => true,
                _ => false,
            };
            found = again;
            if same {
                break;
            }
        }
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

    fn read(&self) -> Result<Option<String>, Failure> {
        match fs::symlink_metadata(&self.design) {
            Ok(found) if found.is_file() => files::text(&self.design).map(Some),
            Ok(_) => Err(Failure::plain(format!(
                "{} is no longer a file",
                self.design.display()
            ))),
            Err(_) => Ok(None),
        }
    }

    /// Looks whether an editor that had opened the file before a save took its
    /// place has written into the old one since; whether a text has changed.
    fn look_at_what_gave_way(&mut self) -> bool {
        let mut changed = false;
        for index in 0..self.gave_way.len() {
            let old = &mut self.gave_way[index];
            if let Some(late) = old.written_since() {
                let base = std::mem::replace(&mut old.text, late.as_str().into());
                self.take_up(&base, &late);
                changed = true;
            }
        }
        changed
    }

    /// Takes up what an editor made of an earlier text, or asks about it.
    fn take_up(&mut self, base: &str, late: &str) {
        let mine = Arc::clone(self.text());
        let merged = merge(base, &mine, late).ok();
        let merged = merged
            .filter(|merged| self.conflict.is_none() && self.is_sound_enough(merged, &mine, late));
        let wanted = merged.as_deref().unwrap_or(late);
        if let (Ok(Saved::Done), true) = (self.save(wanted), merged.is_some()) {
            self.history.record(wanted, EDITOR);
            return self.keep_history();
        }
        // It is kept at least, to be come back to.
        if let Some(Conflict { theirs }) = &self.conflict {
            self.history.record(theirs, EDITOR);
        }
        self.history.record(late, EDITOR);
        self.history
            .record(&mine, "your change over that of an editor");
        self.keep_history();
        let theirs = Arc::clone(&self.on_disk);
        self.conflict = (theirs != mine).then_some(Conflict { theirs });
    }
}

/// What a file that is open holds from its beginning, once that stays the same.
pub(super) fn settled(mut read: impl FnMut() -> Option<String>) -> Option<String> {
    let mut found = read()?;
    for _ in 0..MOST_LOOKS {
        thread::sleep(SETTLING);
        let again = read()?;
        if again == found {
            break;
        }
        found = again;
    }
    Some(found)
}
