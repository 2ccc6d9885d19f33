//! A new text on its way into the file, which an editor may have changed meanwhile.

use super::looking::settled;
use super::{Conflict, EDITOR, Session, merge, unsettled};
use crate::bench::refusal::Refusal;
use crate::files::{self, Exchange};
use std::fs::File;
use std::io::{Read, Seek, SeekFrom};
use std::path::Path;
use std::sync::Arc;

/// How saving went.
#[derive(Debug)]
pub(super) enum Saved {
    Done,
    /// An editor was faster: the file is as it left it.
    Met,
}

/// A file that a save took the place of. It has no name any more, but an editor
/// that had opened it before may write into it still.
#[derive(Debug)]
pub(super) struct GaveWay {
    file: File,
    /// What was in it when it was last looked at.
    pub(super) text: Arc<str>,
}

/// Such files looked after; the oldest go first.
const MOST_FILES: usize = 8;

/// An editor that saves more often than this while one change is saved is a machine.
const MOST_MEETINGS: usize = 8;

impl GaveWay {
    /// What an editor has written into it since it was last looked at.
    pub(super) fn written_since(&mut self) -> Option<String> {
        let differs = |text: &String| **text != *self.text && !text.trim().is_empty();
        read(&self.file).filter(differs)?;
        settled(|| read(&self.file)).filter(differs)
    }
}

fn read(mut file: &File) -> Option<String> {
    let mut text = String::new();
    file.seek(SeekFrom::Start(0)).ok()?;
    file.take(files::MOST_BYTES)
        .read_to_string(&mut text)
        .ok()?;
    Some(text)
}

impl Session {
    /// Goes on to a new text and saves it. A change by an editor that was not
    /// yet seen is merged, or asked about.
    pub(crate) fn change(&mut self, new: &str, words: &str) -> Result<(), Refusal> {
        self.change_with(new, words, None)
    }

    /// The same with lines that came onto the shelf in the same step.
    pub(super) fn change_with(
        &mut self,
        new: &str,
        words: &str,
        shelved: Option<&str>,
    ) -> Result<(), Refusal> {
        if self.conflict.is_some() {
            return Err(unsettled());
        }
        if new.len() as u64 > files::MOST_BYTES {
            return Err(Refusal::new(
                "this is more text than a design may have",
                "a design is a text of a few pages",
            ));
        }
        self.stays = None;
        let mut wanted = new.to_owned();
        for _ in 0..MOST_MEETINGS {
            if let Some(theirs) = self.there()?.filter(|text| **text != *self.on_disk) {
                match self.met(&theirs, &wanted) {
                    Some(merged) => wanted = merged,
                    None => break,
                }
            }
            if let Saved::Done = self.save(&wanted)? {
                self.history.record_with(&wanted, words, shelved);
                self.keep_history();
                return Ok(());
            }
        }
        self.ask(&wanted, words, shelved);
        Ok(())
    }

    /// Takes up what an editor has saved; what a new text becomes with it, if
    /// the two go together.
    fn met(&mut self, theirs: &str, new: &str) -> Option<String> {
        let merged = merge(self.text(), new, theirs).ok();
        let merged = merged.filter(|merged| self.is_sound_enough(merged, new, theirs));
        self.on_disk = theirs.into();
        if merged.is_some() {
            self.history.record(theirs, EDITOR);
            self.keep_history();
        }
        merged
    }

    /// Goes on to a text while the file stays as an editor left it.
    fn ask(&mut self, mine: &str, words: &str, shelved: Option<&str>) {
        self.history.record_with(mine, words, shelved);
        let theirs = Arc::clone(&self.on_disk);
        self.conflict = (*theirs != *mine).then_some(Conflict { theirs });
        self.keep_history();
    }

    /// Whether a text made from two has no faults, or only such as one of them has.
    pub(super) fn is_sound_enough(&self, merged: &str, mine: &str, theirs: &str) -> bool {
        let sound = |text: &str| design::read(text, self.shelf().map(|shelf| &**shelf)).is_ok();
        sound(merged) || !sound(mine) || !sound(theirs)
    }

    /// Saves a text, unless an editor has saved another since the file was last looked at.
    pub(super) fn save(&mut self, text: &str) -> Result<Saved, Refusal> {
        let [new, expected] = [text.as_bytes(), self.on_disk.as_bytes()];
        let Exchange::Done(gave_way) = exchange(&self.design, new, expected)? else {
            return Ok(Saved::Met);
        };
        let text = Arc::from(text);
        let old = std::mem::replace(&mut self.on_disk, text);
        if let Some(file) = gave_way {
            if self.gave_way.len() == MOST_FILES {
                self.gave_way.pop_front();
            }
            self.gave_way.push_back(GaveWay { file, text: old });
        }
        self.trouble = None;
        Ok(Saved::Done)
    }
}

/// Puts bytes in the place of those that are expected in a file.
pub(super) fn exchange(path: &Path, new: &[u8], expected: &[u8]) -> Result<Exchange, Refusal> {
    files::exchange(path, new, expected).map_err(|error| {
        Refusal::new(
            format!("cannot write {}: {error}", path.display()),
            "look at the permissions of the file and its folder, and at the room on the disk",
        )
    })
}
