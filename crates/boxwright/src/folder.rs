//! A folder of files that appears whole or not at all.

use crate::failure::Failure;
use std::ffi::OsString;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Files on their way into a folder. What was not moved in is gone when this
/// goes.
#[derive(Debug)]
pub(crate) struct Staged {
    target: PathBuf,
    /// Beside the target, so that moving is renaming.
    draft: PathBuf,
}

/// What an earlier run has left, kept until the new files are in place.
const OLD: &str = ".old";

impl Staged {
    /// Begins to fill a folder.
    pub(crate) fn new(target: &Path) -> Result<Self, Failure> {
        let fails = |error| unwritable(target, &error);
        if target.exists() && !target.is_dir() {
            return Err(Failure::mended(
                format!("{} is no folder", target.display()),
                "name another folder with --out",
            ));
        }
        fs::create_dir_all(target.parent().unwrap_or(Path::new(""))).or_else(|error| {
            // The empty path is the folder we are in.
            if target.parent() == Some(Path::new("")) {
                Ok(())
            } else {
                Err(fails(error))
            }
        })?;
        let name = target.file_name().unwrap_or_default().to_string_lossy();
        let draft = target.with_file_name(format!(".{name}.{}.part", std::process::id()));
        fs::create_dir(&draft).map_err(fails)?;
        Ok(Self {
            target: target.to_owned(),
            draft,
        })
    }

    /// Adds a file; its name may begin with the name of a folder.
    pub(crate) fn add(&self, name: &str, bytes: &[u8]) -> Result<(), Failure> {
        let path = self.draft.join(name);
        let folder = path.parent().unwrap_or(&self.draft);
        fs::create_dir_all(folder)
            .and_then(|()| fs::write(&path, bytes))
            .map_err(|error| unwritable(&self.target.join(name), &error))
    }

    /// Moves everything in. Files and folders of the same names give way, and
    /// so do those named `earlier`, of which there may be no new ones; others stay.
    pub(crate) fn finish(self, earlier: &[&str]) -> Result<(), Failure> {
        self.moved_in(earlier)
            .map_err(|error| unwritable(&self.target, &error))
    }

    fn moved_in(&self, earlier: &[&str]) -> io::Result<()> {
        if !self.target.exists() {
            return fs::rename(&self.draft, &self.target);
        }
        let mut names: Vec<OsString> = earlier.iter().map(OsString::from).collect();
        for entry in fs::read_dir(&self.draft)? {
            names.push(entry?.file_name());
        }
        names.sort();
        names.dedup();
        let old = self.draft.join(OLD);
        fs::create_dir(&old)?;
        let mut moved: Vec<&OsString> = Vec::new();
        for name in &names {
            let place = self.target.join(name);
            let swap = || {
                if place.exists() {
                    fs::rename(&place, old.join(name))?;
                }
                let new = self.draft.join(name);
                if new.exists() {
                    fs::rename(new, &place)?;
                }
                Ok(())
            };
            if let Err(error) = swap() {
                moved.push(name);
                self.undo(&moved, &old);
                return Err(error);
            }
            moved.push(name);
        }
        Ok(())
    }

    /// Puts back what had to give way.
    fn undo(&self, moved: &[&OsString], old: &Path) {
        for name in moved {
            let (place, before) = (self.target.join(name), old.join(name));
            if before.exists() {
                fs::rename(&place, self.draft.join(name)).ok();
                fs::rename(before, place).ok();
            }
        }
    }
}

impl Drop for Staged {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.draft).ok();
    }
}

fn unwritable(path: &Path, error: &io::Error) -> Failure {
    Failure::plain(format!("cannot write {}: {error}", path.display()))
}
