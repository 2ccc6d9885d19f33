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
const MOST_BYTES: u64 = 32 << 20;

const LOCK: &str = "lock";

/// Whether this bench is the only one on its design.
#[derive(Debug)]
pub(super) enum Hold {
    /// The only one, as long as this is kept.
    Ours { lock: File },
    /// Another one was there before.
    Theirs,
    /// Nothing can be kept beside the design.
    Nowhere,
}

/// What stands where the bench keeps something.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Kept {
    Nothing,
    /// A text that a bench may have written.
    Text(String),
    /// Something that no bench wrote.
    Foreign,
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
            Ok(()) => Hold::Ours { lock },
            Err(TryLockError::WouldBlock) => Hold::Theirs,
            Err(TryLockError::Error(_)) => Hold::Nowhere,
        }
    }

    /// Whether a lock is still the one that others would meet: the folder may
    /// have been taken away.
    #[cfg(unix)]
    pub(super) fn is_held_by(&self, lock: &File) -> bool {
        use std::os::unix::fs::MetadataExt;
        let there = fs::symlink_metadata(self.folder.join(LOCK));
        let [own, there] = [lock.metadata(), there].map(|found| Some(found.ok()?.ino()));
        own == there
    }

    /// As above, where a file that is open cannot be taken away.
    #[cfg(not(unix))]
    pub(super) fn is_held_by(&self, _: &File) -> bool {
        self.folder.join(LOCK).exists()
    }

    /// A file of the folder.
    pub(super) fn read(&self, name: &str) -> Kept {
        if !self.is_there() {
            return Kept::Nothing;
        }
        let path = self.folder.join(name);
        match fs::symlink_metadata(&path) {
            Ok(found) if found.is_file() && found.len() <= MOST_BYTES => {}
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Kept::Nothing,
            Ok(_) | Err(_) => return Kept::Foreign,
        }
        let mut text = String::new();
        let read = File::open(path).and_then(|file| {
            let mut file = file.take(MOST_BYTES);
            file.read_to_string(&mut text)
        });
        match read {
            Ok(_) => Kept::Text(text),
            Err(_) => Kept::Foreign,
        }
    }

    /// Writes a file of the folder whole or not at all.
    pub(super) fn write(&self, name: &str, text: &str) -> io::Result<()> {
        if !self.is_there() {
            return Err(io::ErrorKind::NotFound.into());
        }
        files::put(&self.folder.join(name), text.as_bytes())
    }

    /// Removes what writers that were killed have left there.
    pub(super) fn sweep(&self, names: &[&str]) {
        for name in names {
            files::sweep(&self.folder.join(name));
        }
    }
}
