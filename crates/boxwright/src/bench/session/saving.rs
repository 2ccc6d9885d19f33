//! A text saved in the place of another, which nobody may have changed meanwhile.

use crate::bench::refusal::Refusal;
use crate::files;
use std::fs;
use std::io;
use std::path::Path;

/// An editor that saves more often than this in one moment is a machine.
const MOST_SWAPS: usize = 8;

/// How saving went.
#[derive(Debug)]
pub(super) enum Saved {
    Done,
    /// An editor was faster: the file is as it left it.
    Met(String),
}

/// Saves a text, unless the file holds another than was expected.
pub(super) fn over(path: &Path, expected: &str, text: &str) -> Result<Saved, Refusal> {
    let mut bytes = text.as_bytes().to_vec();
    let mut met = None;
    // What gives way is either what was expected, or goes back to its place.
    for _ in 0..MOST_SWAPS {
        let before = files::exchange(path, &bytes).map_err(|error| unwritten(path, &error))?;
        let expected = match &met {
            None => expected.as_bytes(),
            Some(_) => text.as_bytes(),
        };
        match before.filter(|before| before != expected) {
            None => break,
            Some(before) => {
                bytes.clone_from(&before);
                met = Some(before);
            }
        }
    }
    met.map_or(Ok(Saved::Done), |met| theirs(path, met))
}

/// Saves a text where there is no file yet.
pub(super) fn anew(path: &Path, text: &str) -> Result<Saved, Refusal> {
    match files::put_new(path, text.as_bytes()) {
        Ok(()) => Ok(Saved::Done),
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
            let found = fs::symlink_metadata(path).is_ok_and(|found| found.is_file());
            let met = found.then(|| fs::read(path).ok()).flatten();
            theirs(path, met.ok_or_else(|| unwritten(path, &error))?)
        }
        Err(error) => Err(unwritten(path, &error)),
    }
}

fn theirs(path: &Path, met: Vec<u8>) -> Result<Saved, Refusal> {
    String::from_utf8(met).map(Saved::Met).map_err(|_| {
        Refusal::new(
            format!("{} is no longer text in UTF-8", path.display()),
            "save the file as UTF-8, which every editor offers",
        )
    })
}

fn unwritten(path: &Path, error: &io::Error) -> Refusal {
    Refusal::new(
        format!("cannot write {}: {error}", path.display()),
        "look at the permissions of the file and its folder",
    )
}
