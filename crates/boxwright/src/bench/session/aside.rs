//! What the bench keeps beside a design: a folder with a dot before its name.

use crate::files;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// The folder, such as `.design.toml.bench`.
#[derive(Debug)]
pub(super) struct Aside {
    folder: PathBuf,
}

/// A file of it that is larger, in bytes, was not written by a bench.
const MOST_BYTES: u64 = 8 << 20;

const LOCK: &str = "lock";

/// Whether this bench is the only one on its design.
#[derive(Debug)]
pub(super) enum Hold {
    /// The only one, as long as this is kept.
    Ours { _lock: File },
    /// Another one was there before.
    Theirs,
    /// Nothing can be kept beside the design.
    Nowhere,
}

impl Aside {
    pub(super) fn beside(design: &Path) -> Self {
        let name = design.file_name().unwrap_or_default().to_string_lossy();
        Self {
            folder: design.with_file_name(format!(".{name}.bench")),
        }
    }

    /// Whether the folder is there and leads nowhere else.
    fn is_there(&self) -> bool {
        fs::symlink_metadata(&self.folder).is_ok_and(|found| found.is_dir())
    }

    /// Claims the design, unless another bench has done so.
    pub(super) fn hold(&self) -> Hold {
        if !self.is_there() && fs::create_dir(&self.folder).is_err() {
            return Hold::Nowhere;
        }
        let path = self.folder.join(LOCK);
        if fs::symlink_metadata(&path).is_ok_and(|found| !found.is_file()) {
            return Hold::Nowhere;
        }
        let mut options = OpenOptions::new();
        let Ok(lock) = options.write(true).create(true).truncate(false).open(path) else {
            return Hold::Nowhere;
        };
        match lock.try_lock() {
            Ok(()) => Hold::Ours { _lock: lock },
            Err(TryLockError::WouldBlock) => Hold::Theirs,
            Err(TryLockError::Error(_)) => Hold::Nowhere,
        }
    }

    /// A file of the folder, where there is one that a bench may have written.
    pub(super) fn read(&self, name: &str) -> Option<String> {
        let path = self.folder.join(name);
        let is_file = |path: &Path| fs::symlink_metadata(path).is_ok_and(|found| found.is_file());
        if !self.is_there() || !is_file(&path) {
            return None;
        }
        let mut text = String::new();
        let file = File::open(path).ok()?;
        file.take(MOST_BYTES).read_to_string(&mut text).ok()?;
        Some(text)
    }

    /// Writes a file of the folder whole or not at all.
    pub(super) fn write(&self, name: &str, text: &str) -> io::Result<()> {
        if !self.is_there() {
            return Err(io::ErrorKind::NotFound.into());
        }
        files::put(&self.folder.join(name), text.as_bytes())
    }
}
