//! `boxwright new`.

use super::Ending;
use crate::cli::{Example, NewArgs};
use crate::failure::Failure;
use crate::{files, json, say, terminal};
use std::path::{Path, PathBuf};

/// A text to start from, and the shelf that belongs beside it.
struct Start {
    design: &'static str,
    shelf: Option<&'static str>,
}

const BLANK: Start = Start {
    design: include_str!("../new.toml"),
    shelf: None,
};

const fn example(example: Example) -> Start {
    match example {
        Example::BathingBeach => Start {
            design: include_str!("../../../../examples/bathing-beach/design.toml"),
            shelf: None,
        },
        Example::WorkshopMono => Start {
            design: include_str!("../../../../examples/workshop-mono/design.toml"),
            shelf: None,
        },
        Example::SalvageParty => Start {
            design: include_str!("../../../../examples/salvage-party/design.toml"),
            shelf: Some(include_str!(
                "../../../../examples/salvage-party/shelf.toml"
            )),
        },
    }
}

pub(crate) fn run(args: &NewArgs, as_json: bool) -> Result<Ending, Failure> {
    let written = begin(args)?;
    terminal::say(&if as_json {
        json::written(&written)
    } else {
        say::begun(&written)
    })?;
    Ok(Ending::Well)
}

/// Writes a design to start from; the files, the design first.
pub(crate) fn begin(args: &NewArgs) -> Result<Vec<PathBuf>, Failure> {
    let start = args.like.map_or(BLANK, example);
    let path = target(&args.path);
    let mut texts = vec![(path.clone(), named(start.design, args, &path)?)];
    texts.extend(
        start
            .shelf
            .map(|shelf| (path.with_file_name(files::SHELF), shelf.to_owned())),
    );
    for (path, _) in &texts {
        files::must_be_absent(path)?;
    }
    if let Some(folder) = path.parent() {
        files::make_folder(folder)?;
    }
    for (path, text) in &texts {
        files::write_new(path, text)?;
    }
    Ok(texts.into_iter().map(|(path, _)| path).collect())
}

/// The name of an example's design.
pub(crate) fn title(of: Example) -> Option<String> {
    design::value_at(example(of).design, &design::key_path("name"))
}

/// The file meant by a path that may name a folder.
fn target(given: &Path) -> PathBuf {
    if given.is_dir() || given.extension().is_none() {
        given.join(files::DESIGN)
    } else {
        given.to_owned()
    }
}

fn named(text: &str, args: &NewArgs, path: &Path) -> Result<String, Failure> {
    let name = match (&args.name, args.like) {
        (Some(name), _) if name.trim().is_empty() => {
            return Err(Failure::mended(
                "a design needs a name",
                "write one after --name, or leave --name out",
            ));
        }
        (Some(name), _) => name.clone(),
        (None, Some(_)) => return Ok(text.to_owned()),
        (None, None) => match guessed(path) {
            Some(name) => name,
            None => return Ok(text.to_owned()),
        },
    };
    design::set_value(text, &design::key_path("name"), &name)
        .map_err(|error| Failure::plain(format!("cannot name it {name:?}: {error}")))
}

/// A name from that of the file, or of its folder: `beach-box/design.toml` is "Beach box".
fn guessed(path: &Path) -> Option<String> {
    let stem = path.file_stem()?.to_str()?;
    let plain = Path::new(files::DESIGN).file_stem()?.to_str()?;
    let from = if stem == plain {
        path.parent()?.file_name()?.to_str()?
    } else {
        stem
    };
    let words = from.replace(['-', '_'], " ");
    let first = words.trim().chars().next()?;
    Some(
        first
            .to_uppercase()
            .chain(words.trim().chars().skip(1))
            .collect(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_guessed_from_paths() {
        for (path, name) in [
            ("beach-box/design.toml", Some("Beach box")),
            ("x/größer_als.toml", Some("Größer als")),
            ("design.toml", None),
            ("/design.toml", None),
        ] {
            assert_eq!(guessed(Path::new(path)).as_deref(), name, "{path}");
        }
    }
}
