//! Checks told.

use super::layout::heading;
use super::layout::{columns, left, wrapped};
use crate::bibliography;
use crate::terminal::{Ink, Tone};
use studies::check::Check;

/// Every check by id and title.
pub(crate) fn checks(checks: &[&Check], ink: Ink) -> String {
    let widest = checks
        .iter()
        .map(|check| columns(check.id))
        .max()
        .unwrap_or(0);
    let mut out = String::new();
    for check in checks {
        let id = left(check.id, widest + 2);
        out += &wrapped(&id, check.title).replacen(check.id, &ink.paint(Tone::Strong, check.id), 1);
    }
    out + "\nboxwright explain ID tells one whole.\n"
}

/// One check whole.
pub(crate) fn explained(check: &Check, ink: Ink) -> String {
    let mut out = format!("{}  [{}]\n", ink.paint(Tone::Strong, check.title), check.id);
    for (title, text) in [
        ("What is checked", check.what),
        ("Why", check.why),
        ("Limits", check.limits),
        ("Finds fault with", check.bad),
        ("Passes", check.good),
    ] {
        out += &heading(title, ink);
        out += &wrapped("  ", text);
    }
    out += &heading("Sources", ink);
    for key in check.sources {
        let told = bibliography::entry(key)
            .map_or_else(|| (*key).to_owned(), |entry| format!("{entry}. [{key}]"));
        out += &wrapped("  ", &told);
    }
    out
}
