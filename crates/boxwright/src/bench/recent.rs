//! Designs that were opened lately, in the user's own folder for such things.

use crate::files;
use std::env;
use std::path::{Path, PathBuf};

/// Designs remembered.
const MOST: usize = 12;

const NAME: &str = "recent-designs";

/// The file that lists them, one on a line, the latest first.
fn list() -> Option<PathBuf> {
    let set = |name: &str| env::var_os(name).filter(|value| !value.is_empty());
    let home = || set("HOME").map(|home| PathBuf::from(home).join(".local/state"));
    let state = set("XDG_STATE_HOME").map(PathBuf::from);
    let folder = state.filter(|path| path.is_absolute()).or_else(home);
    let folder = folder.or_else(|| set("LOCALAPPDATA").map(PathBuf::from))?;
    Some(folder.join("boxwright").join(NAME))
}

/// Those that are still there, the latest first.
pub(super) fn designs() -> Vec<PathBuf> {
    let Some(text) = list().and_then(|list| files::text(&list).ok()) else {
        return Vec::new();
    };
    let paths = text.lines().map(PathBuf::from);
    paths
        .filter(|path| path.is_absolute() && path.is_file())
        .take(MOST)
        .collect()
}

/// Remembers a design. Where that cannot be, it is found again without.
pub(super) fn remember(design: &Path) {
    let Some((list, path)) = list().zip(design.to_str()) else {
        return;
    };
    if path.contains(['\n', '\r']) {
        return;
    }
    let others = designs().into_iter().filter(|other| other != design);
    let others = others.filter_map(|other| Some(other.to_str()?.to_owned()));
    let paths: Vec<String> = std::iter::once(path.to_owned()).chain(others).collect();
    let text: String = paths
        .iter()
        .take(MOST)
        .map(|path| format!("{path}\n"))
        .collect();
    if let Some(folder) = list.parent()
        && files::make_folder(folder).is_ok()
    {
        files::put(&list, text.as_bytes()).ok();
    }
}
