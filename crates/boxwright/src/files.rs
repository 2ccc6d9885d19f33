//! Files read and written whole or not at all.

mod exchange;

use crate::cli::DesignArgs;
use crate::failure::{Failure, Named, Project};
use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;

pub(crate) use exchange::{Exchange, exchange};

/// A text larger than this, in bytes, was never typed by a maker.
pub(crate) const MOST_BYTES: u64 = 4 << 20;

/// A file that is still being written is younger than this.
const LONGEST_WRITE: Duration = Duration::from_secs(60);

/// The name of a design in its folder.
pub(crate) const DESIGN: &str = "design.toml";

/// The name of the maker's own shelf beside a design.
pub(crate) const SHELF: &str = "shelf.toml";

/// The design file meant by a path that may name its folder.
pub(crate) fn design_path(given: &Path) -> PathBuf {
    let inside = given.join(DESIGN);
    if given.is_dir() && inside.is_file() {
        inside
    } else {
        given.to_owned()
    }
}

/// Reads a design and the shelf that belongs to it.
pub(crate) fn project(args: &DesignArgs) -> Result<Project, Failure> {
    let design = design_path(&args.design);
    Ok(Project {
        design: named(&design)?,
        shelf: shelf_for(args)?,
    })
}

/// Reads the shelf that was named, or the one that lies beside the design.
pub(crate) fn shelf_for(args: &DesignArgs) -> Result<Option<Named>, Failure> {
    let beside = || design_path(&args.design).with_file_name(SHELF);
    let path = match &args.shelf {
        Some(path) => Some(path.clone()),
        None => Some(beside()).filter(|path| path.exists()),
    };
    path.as_deref().map(named).transpose()
}

fn named(path: &Path) -> Result<Named, Failure> {
    Ok(Named {
        name: path.display().to_string(),
        text: text(path)?,
    })
}

/// Reads a text of a design or a shelf.
pub(crate) fn text(path: &Path) -> Result<String, Failure> {
    let name = path.display();
    if path.is_dir() {
        return Err(Failure::mended(
            format!("{name} is a folder"),
            format!(
                "name the file in it, such as {}",
                path.join(DESIGN).display()
            ),
        ));
    }
    let mut bytes = Vec::new();
    File::open(path)
        .and_then(|file| file.take(MOST_BYTES + 1).read_to_end(&mut bytes))
        .map_err(|error| unreadable(path, &error))?;
    if bytes.len() as u64 > MOST_BYTES {
        return Err(Failure::mended(
            format!("{name} is larger than {} MB", MOST_BYTES >> 20),
            "name the design file; a design is a text of a few pages",
        ));
    }
    String::from_utf8(bytes).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let line = 1 + error.as_bytes()[..good]
            .iter()
            .filter(|b| **b == b'\n')
            .count();
        Failure::mended(
            format!("{name}, line {line}: this is not text in UTF-8"),
            "save the file as UTF-8, which every editor offers",
        )
    })
}

fn unreadable(path: &Path, error: &io::Error) -> Failure {
    let name = path.display();
    match error.kind() {
        ErrorKind::NotFound if path.file_name().is_some_and(|name| name != SHELF) => {
            Failure::mended(
                format!("there is no file {name}"),
                "name the design file, or begin one with: boxwright new",
            )
        }
        ErrorKind::NotFound => Failure::plain(format!("there is no file {name}")),
        ErrorKind::PermissionDenied => {
            Failure::mended(format!("{name} may not be read"), "look at its permissions")
        }
        _ => Failure::plain(format!("cannot read {name}: {error}")),
    }
}

/// Fails where an export would overwrite a file: the design, the shelf or any other.
pub(crate) fn must_take(path: &Path) -> Result<(), Failure> {
    if is_device(path) {
        return Ok(());
    }
    must_be_absent(path)
}

/// Writes an export into a new file, or a device or a pipe.
pub(crate) fn write_out(path: &Path, text: &str) -> Result<(), Failure> {
    if is_device(path) {
        return fs::write(path, text).map_err(|error| unwritable(path, &error));
    }
    must_be_absent(path)?;
    write_new(path, text)
}

/// Whether a path takes bytes as they come: neither a file nor a folder.
fn is_device(path: &Path) -> bool {
    fs::metadata(path).is_ok_and(|there| !there.is_file() && !there.is_dir())
}

/// Fails where a file would be overwritten.
pub(crate) fn must_be_absent(path: &Path) -> Result<(), Failure> {
    // A dangling link is something too.
    if fs::symlink_metadata(path).is_ok() {
        return Err(Failure::mended(
            format!("{} is already there and stays as it is", path.display()),
            "name another file, or move this one away",
        ));
    }
    Ok(())
}

/// Makes a folder and those above it.
pub(crate) fn make_folder(folder: &Path) -> Result<(), Failure> {
    if folder.as_os_str().is_empty() {
        return Ok(());
    }
    fs::create_dir_all(folder).map_err(|error| unwritable(folder, &error))
}

/// Writes a file that is not there yet.
pub(crate) fn write_new(path: &Path, text: &str) -> Result<(), Failure> {
    let write = || {
        let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
        file.write_all(text.as_bytes())
            .and_then(|()| file.sync_all())
            .inspect_err(|_| drop(fs::remove_file(path)))
    };
    write().map_err(|error| unwritable(path, &error))
}

/// Writes a file whole or not at all: whoever looks sees the old or the new.
fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    // What a link points to is replaced, not the link.
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    put(&target, bytes).map_err(|error| unwritable(path, &error))
}

/// Puts a file in the place of another, or of nothing. A link is replaced, not
/// what it points to.
pub(crate) fn put(target: &Path, bytes: &[u8]) -> io::Result<()> {
    let draft = drafted(target, bytes)?;
    fs::rename(&draft, target).inspect_err(|_| drop(fs::remove_file(&draft)))?;
    sync_folder(target);
    Ok(())
}

/// Writes a draft beside a file, with its permissions and for its owner, and waits
/// until the disk has it.
fn drafted(target: &Path, bytes: &[u8]) -> io::Result<PathBuf> {
    let name = target.file_name().unwrap_or_default().to_string_lossy();
    let draft = target.with_file_name(format!(".{name}.{}.part", std::process::id()));
    // What bears our number is ours, or of one that was killed before we had it.
    if fs::symlink_metadata(&draft).is_ok_and(|found| !found.is_dir()) {
        fs::remove_file(&draft)?;
    }
    let old = fs::symlink_metadata(target).ok().filter(Metadata::is_file);
    if old.as_ref().is_some_and(|old| old.permissions().readonly()) {
        return Err(io::Error::new(
            ErrorKind::PermissionDenied,
            "it is marked as read-only",
        ));
    }
    let write = || {
        let mut file = OpenOptions::new()
            .write(true)
            .create_new(true)
            .open(&draft)?;
        // Before there is anything to read in it.
        if let Some(old) = &old {
            same_owner(&file, old);
            file.set_permissions(old.permissions())?;
        }
        file.write_all(bytes)?;
        file.sync_all()
    };
    match write() {
        Ok(()) => Ok(draft),
        Err(error) => {
            fs::remove_file(&draft).ok();
            Err(error)
        }
    }
}

/// Gives a file to the owner of another, where that is allowed.
#[cfg(unix)]
fn same_owner(file: &File, as_of: &Metadata) {
    use std::os::unix::fs::{MetadataExt, fchown};
    let owner = |of: &Metadata| (of.uid(), of.gid());
    if file.metadata().is_ok_and(|own| owner(&own) != owner(as_of)) {
        fchown(file, Some(as_of.uid()), Some(as_of.gid())).ok();
    }
}

/// As above, where a new file is its writer's.
#[cfg(not(unix))]
fn same_owner(_: &File, _: &Metadata) {}

/// Makes sure that a new name in a folder outlasts a failing mains. Some file
/// systems cannot promise that, and the file is whole either way.
#[cfg(unix)]
fn sync_folder(of: &Path) {
    let folder = of.parent().filter(|folder| !folder.as_os_str().is_empty());
    if let Ok(folder) = File::open(folder.unwrap_or(Path::new("."))) {
        folder.sync_all().ok();
    }
}

/// As above, where folders cannot be opened.
#[cfg(not(unix))]
fn sync_folder(_: &Path) {}

/// Removes what writers that were killed have left beside a file.
pub(crate) fn sweep(target: &Path) {
    let Some(name) = target.file_name().map(|name| name.to_string_lossy()) else {
        return;
    };
    let front = format!(".{name}.");
    let left = |found: &str| {
        let number = found
            .strip_prefix(&front)
            .and_then(|rest| rest.strip_suffix(".part"));
        number.is_some_and(|number| number.parse::<u32>().is_ok())
    };
    let folder = target
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty());
    let Ok(entries) = fs::read_dir(folder.unwrap_or(Path::new("."))) else {
        return;
    };
    for entry in entries.flatten() {
        let old = entry.metadata().is_ok_and(|found| {
            let age = found.modified().ok().and_then(|time| time.elapsed().ok());
            found.is_file() && age.is_some_and(|age| age > LONGEST_WRITE)
        });
        if old && entry.file_name().to_str().is_some_and(left) {
            fs::remove_file(entry.path()).ok();
        }
    }
}

/// Replaces a text, unless someone else has changed it since it was read.
pub(crate) fn replace(path: &Path, before: &str, after: &str) -> Result<(), Failure> {
    if text(path)? != before {
        return Err(Failure::mended(
            format!(
                "{} was changed meanwhile and stays as it is",
                path.display()
            ),
            "run the command again",
        ));
    }
    write_whole(path, after.as_bytes())
}

fn unwritable(path: &Path, error: &io::Error) -> Failure {
    Failure::plain(format!("cannot write {}: {error}", path.display()))
}
