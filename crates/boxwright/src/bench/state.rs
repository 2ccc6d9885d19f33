//! What a page is drawn from.

use super::pictures::Pictures;
use design::{Diagnostic, Project};
use std::collections::BTreeSet;
use std::sync::Arc;
use studies::Report;

/// How far the studies of the present text have come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Stage {
    Broken,
    Nominal,
    Bands,
    Whole,
}

/// One text that could be read, with what was found about it so far.
#[derive(Debug)]
pub(crate) struct Studied {
    pub(crate) project: Project,
    pub(crate) report: Report,
}

/// A change by an editor that meets one of the bench's own.
#[derive(Clone, Debug)]
pub(crate) struct Conflict {
    pub(crate) theirs: Arc<str>,
}

/// The present state of the bench.
#[derive(Debug)]
pub(crate) struct State {
    /// Rises with every text.
    pub(crate) number: u64,
    pub(crate) stage: Stage,
    /// Drawn builds so far, of how many.
    pub(crate) busy: Option<(usize, usize)>,
    /// Name for the maker.
    pub(crate) file: String,
    pub(crate) text: Arc<str>,
    pub(crate) shelf: Option<Arc<str>>,
    /// Of this text, or of the last good one while `problems` is not empty.
    pub(crate) studied: Option<Arc<Studied>>,
    /// The ghost.
    pub(crate) held: Option<Arc<Studied>>,
    pub(crate) problems: Vec<Diagnostic>,
    /// What would be undone, in words.
    pub(crate) undo: Option<String>,
    pub(crate) redo: Option<String>,
    /// Build steps checked off.
    pub(crate) done: BTreeSet<String>,
    pub(crate) conflict: Option<Conflict>,
    /// Boxes drawn lately.
    pub(crate) pictures: Arc<Pictures>,
    /// For instance: another bench has this file open.
    pub(crate) notice: Option<String>,
}
