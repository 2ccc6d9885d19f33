//! A layout as it is found: which bin is divided how.

use super::job::Job;
use super::tree::Tree;

/// One bin and how it is divided.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Pattern {
    pub(super) bin: usize,
    pub(super) tree: Tree,
}

/// Bins and how they are divided.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Found {
    pub(super) patterns: Vec<Pattern>,
}

impl Found {
    pub(super) fn bought(&self, job: &Job) -> usize {
        let bought = |pattern: &&Pattern| job.bins[pattern.bin].bought;
        self.patterns.iter().filter(bought).count()
    }

    /// Area of all bins used, in µm².
    pub(super) fn area(&self, job: &Job) -> i64 {
        let areas = self
            .patterns
            .iter()
            .map(|pattern| job.bins[pattern.bin].area);
        areas.sum()
    }

    /// Area of what is cut, kerfs included, in µm².
    pub(super) fn placed(&self, job: &Job) -> i64 {
        let mut kinds = Vec::new();
        for pattern in &self.patterns {
            pattern.tree.kinds(&mut kinds);
        }
        kinds.iter().map(|&kind| job.kinds[kind].shape.area()).sum()
    }
}
