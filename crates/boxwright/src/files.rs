//! Files read and written whole or not at all.

use crate::cli::DesignArgs;
use crate::failure::{Failure, Named, Project};
use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};

/// A text larger than this, in bytes, was never typed by a maker.
const MOST_BYTES: u64 = 4 << 20;

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
    let shelf = match &args.shelf {
        Some(path) => Some(path.clone()),
        None => Some(design.with_file_name(SHELF)).filter(|path| path.exists()),
    };
    Ok(Project {
        design: named(&design)?,
        shelf: shelf.as_deref().map(named).transpose()?,
    })
}

/// Reads a text together with its name.
pub(crate) fn named(path: &Path) -> Result<Named, Failure> {
    Ok(Named {
        name: path.display().to_string(),
        text: text(path)?,
    })
}

fn text(path: &Path) -> Result<String, Failure> {
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

fn unreadable(path: &Path, error: &std::io::Error) -> Failure {
    let name = path.display();
    match error.kind() {
        ErrorKind::NotFound => Failure::mended(
            format!("there is no file {name}"),
            format!("write one with: boxwright new {name}"),
        ),
        ErrorKind::PermissionDenied => {
            Failure::mended(format!("{name} may not be read"), "look at its permissions")
        }
        _ => Failure::plain(format!("cannot read {name}: {error}")),
    }
}
