//! Checks in JSON.

use super::{FORMAT, layout};
use crate::bibliography;
use serde::Serialize;
use studies::check::Check;

#[derive(Serialize)]
struct Checks<'a> {
    format: u32,
    checks: Vec<Explained<'a>>,
}

#[derive(Serialize)]
struct Explained<'a> {
    id: &'a str,
    title: &'a str,
    what: &'a str,
    why: &'a str,
    limits: &'a str,
    bad: &'a str,
    good: &'a str,
    sources: Vec<Source<'a>>,
}

#[derive(Serialize)]
struct Source<'a> {
    key: &'a str,
    /// As a book list says it; null where the key is itself a remark.
    published: Option<String>,
}

/// The texts of checks.
pub(crate) fn checks(checks: &[&Check]) -> String {
    let source = |key| Source {
        key,
        published: bibliography::entry(key),
    };
    let explained = checks.iter().map(|check| Explained {
        id: check.id,
        title: check.title,
        what: check.what,
        why: check.why,
        limits: check.limits,
        bad: check.bad,
        good: check.good,
        sources: check.sources.iter().copied().map(source).collect(),
    });
    layout::text(&Checks {
        format: FORMAT,
        checks: explained.collect(),
    })
}
