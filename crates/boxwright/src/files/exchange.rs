//! A file put in the place of another, with an eye on what gave way: whoever
//! wrote it a moment ago shall not have done so in vain.

use super::{MOST_BYTES, drafted, sync_folder};
use std::fs::{self, File};
use std::io::{self, ErrorKind, Read};
use std::path::Path;

/// An editor that saves more often than this in one moment is a machine.
const MOST_SWAPS: usize = 8;

/// How an exchange went.
#[derive(Debug)]
pub(crate) enum Exchange {
    /// The new bytes are there. What gave way, where the system can tell: who had
    /// it open may write in it still.
    Done(Option<File>),
    /// Someone had saved something else meanwhile, and that is there.
    Met,
}

/// How a draft took its place.
#[cfg_attr(
    not(target_os = "linux"),
    expect(dead_code, reason = "other systems cannot")
)]
enum Placed {
    /// The draft is now what stood there.
    Exchanged,
    /// Nothing stood there.
    Alone,
    /// The system cannot exchange files.
    Cannot,
}

/// Puts bytes in the place of those that are expected there. What is met instead
/// stays in its place, or comes back to it: the very file, so that an editor that
/// is still writing in it goes on doing so.
pub(crate) fn exchange(target: &Path, bytes: &[u8], expected: &[u8]) -> io::Result<Exchange> {
    let draft = drafted(target, bytes)?;
    let done = match placed(&draft, target) {
        Ok(Placed::Alone) => Ok(Exchange::Done(None)),
        Ok(Placed::Exchanged) => looked_at(&draft, target, bytes, expected),
        Ok(Placed::Cannot) => looked_at_before(&draft, target, expected),
        Err(error) => Err(error),
    };
    fs::remove_file(&draft).ok();
    sync_folder(target);
    done
}

/// Looks at what gave way; where that is not what was expected, it goes back.
fn looked_at(draft: &Path, target: &Path, bytes: &[u8], expected: &[u8]) -> io::Result<Exchange> {
    let (mut there, mut gives_way) = (bytes.to_vec(), expected.to_vec());
    for swaps in 1..=MOST_SWAPS {
        let (found, file) = match read(draft) {
            Ok(found) => found,
            Err(error) => {
                placed(draft, target)?;
                return Err(error);
            }
        };
        if found == gives_way {
            return Ok(if swaps == 1 {
                Exchange::Done(Some(file))
            } else {
                Exchange::Met
            });
        }
        if let Placed::Alone = placed(draft, target)? {
            break;
        }
        gives_way = std::mem::replace(&mut there, found);
    }
    Ok(Exchange::Met)
}

/// Looks at what is there, and takes its place if that is what was expected.
fn looked_at_before(draft: &Path, target: &Path, expected: &[u8]) -> io::Result<Exchange> {
    match read(target) {
        Ok((found, _)) if found != expected => return Ok(Exchange::Met),
        Ok(_) => {}
        Err(error) if error.kind() == ErrorKind::NotFound => {}
        Err(error) => return Err(error),
    }
    fs::rename(draft, target)?;
    Ok(Exchange::Done(None))
}

/// A file and what is in it, if that can be a text of a maker.
fn read(path: &Path) -> io::Result<(Vec<u8>, File)> {
    must_be_file(path)?;
    let file = File::open(path)?;
    let mut bytes = Vec::new();
    (&file).take(MOST_BYTES + 1).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > MOST_BYTES {
        return Err(ErrorKind::FileTooLarge.into());
    }
    Ok((bytes, file))
}

/// Fails where something else than a file stands.
fn must_be_file(path: &Path) -> io::Result<()> {
    if fs::symlink_metadata(path)?.is_file() {
        return Ok(());
    }
    Err(io::Error::other("it is no longer a file"))
}

/// Lets two files change places, or puts the first where nothing stands.
#[cfg(target_os = "linux")]
fn placed(draft: &Path, target: &Path) -> io::Result<Placed> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    use rustix::io::Errno;
    for _ in 0..MOST_SWAPS {
        match must_be_file(target) {
            Err(error) if error.kind() != ErrorKind::NotFound => return Err(error),
            Ok(()) | Err(_) => {}
        }
        match renameat_with(CWD, draft, CWD, target, RenameFlags::EXCHANGE) {
            Ok(()) => return Ok(Placed::Exchanged),
            Err(Errno::NOENT) => {}
            Err(_) => return Ok(Placed::Cannot),
        }
        match renameat_with(CWD, draft, CWD, target, RenameFlags::NOREPLACE) {
            Ok(()) => return Ok(Placed::Alone),
            // It has just come: that is met.
            Err(Errno::EXIST) => {}
            Err(_) => return Ok(Placed::Cannot),
        }
    }
    Ok(Placed::Cannot)
}

/// As above, where the system has no means to.
#[cfg(not(target_os = "linux"))]
fn placed(_: &Path, target: &Path) -> io::Result<Placed> {
    match must_be_file(target) {
        Err(error) if error.kind() != ErrorKind::NotFound => Err(error),
        Ok(()) | Err(_) => Ok(Placed::Cannot),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::path::PathBuf;

    /// A folder of its own with a file in it.
    fn folder(name: &str, text: &str) -> (PathBuf, PathBuf) {
        let folder = std::env::temp_dir().join(format!("boxwright-{name}-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        let target = folder.join("target");
        fs::write(&target, text).unwrap();
        (folder, target)
    }

    #[test]
    fn only_what_is_expected_gives_way() {
        let (folder, target) = folder("exchange", "old");
        let there = || fs::read_to_string(&target).unwrap();
        let met = exchange(&target, b"new", b"other").unwrap();
        assert!(matches!(met, Exchange::Met) && there() == "old");
        let done = exchange(&target, b"new", b"old").unwrap();
        assert!(matches!(done, Exchange::Done(_)) && there() == "new");
        fs::remove_file(&target).unwrap();
        let done = exchange(&target, b"again", b"new").unwrap();
        assert!(matches!(done, Exchange::Done(None)) && there() == "again");
        fs::remove_file(&target).unwrap();
        fs::create_dir(&target).unwrap();
        assert!(exchange(&target, b"new", b"again").is_err());
        assert_eq!(fs::read_dir(&folder).unwrap().count(), 1, "a draft is left");
        fs::remove_dir_all(&folder).unwrap();
    }

    #[test]
    fn where_files_cannot_change_places_it_looks_before() {
        let (folder, target) = folder("before", "old");
        let draft = folder.join("draft");
        fs::write(&draft, "new").unwrap();
        let there = || fs::read_to_string(&target).unwrap();
        let met = looked_at_before(&draft, &target, b"other").unwrap();
        assert!(matches!(met, Exchange::Met) && there() == "old");
        let done = looked_at_before(&draft, &target, b"old").unwrap();
        assert!(matches!(done, Exchange::Done(None)) && there() == "new");
        fs::remove_dir_all(&folder).unwrap();
    }

    /// An editor that has the file open goes on writing in the one that has the name.
    #[cfg(unix)]
    #[test]
    fn what_comes_back_is_the_very_file() {
        use std::os::unix::fs::MetadataExt;
        let (folder, target) = folder("very", "old");
        let number = || fs::metadata(&target).unwrap().ino();
        let before = number();
        exchange(&target, b"new", b"other").unwrap();
        assert_eq!(number(), before);
        fs::remove_dir_all(&folder).unwrap();
    }
}
