//! What a page is drawn from.

use super::pictures::Pictures;
use design::{Diagnostic, Project};
use drawings::Paper;
use drawings::pack::{self, Leaf, Subject};
use std::collections::BTreeSet;
use std::sync::{Arc, OnceLock};
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
    /// All sheets of its pack, once one of them was asked for.
    leaves: OnceLock<Vec<Leaf>>,
}

impl Studied {
    pub(crate) fn new(project: Project, report: Report) -> Self {
        Self {
            project,
            report,
            leaves: OnceLock::new(),
        }
    }

    /// What the sheets about a subject show.
    pub(crate) fn leaves(&self, subject: Subject) -> Vec<Leaf> {
        pack::leaves(&self.project, &self.report, Paper::A4, subject)
    }

    /// The same with their numbers in the pack.
    pub(crate) fn numbered(&self, subject: Subject) -> impl Iterator<Item = &Leaf> {
        let all = self.all_leaves().iter();
        all.filter(move |leaf| leaf.subject == subject)
    }

    /// What every sheet of the pack shows, numbered.
    pub(crate) fn all_leaves(&self) -> &[Leaf] {
        let all = || pack::numbered(&self.project, &self.report, Paper::A4);
        self.leaves.get_or_init(all)
    }
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
