//! Checks: one file each, with the text that the manual and `explain` tell.

mod evidence;
mod finding;
mod lead_acid_airtight;
mod table;

pub use evidence::Evidence;
pub use finding::{Edit, Finding, Mend, Severity};
pub use table::ALL;

pub(crate) use finding::{Candidate, Verdict};

/// One check: what it looks at, why, where its limits lie, and the check itself.
#[derive(Clone, Copy)]
pub struct Check {
    /// Stable name.
    pub id: &'static str,
    /// As a heading.
    pub title: &'static str,
    /// What is checked.
    pub what: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// Where its limits lie and what it leaves out.
    pub limits: &'static str,
    /// An example that it finds fault with.
    pub bad: &'static str,
    /// An example that it passes.
    pub good: &'static str,
    /// Keys of the bibliography, or "common practice, no source".
    pub sources: &'static [&'static str],
    /// The check itself; no verdict where it does not apply.
    pub(crate) run: fn(&Evidence<'_>) -> Vec<Verdict>,
}

impl core::fmt::Debug for Check {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_struct("Check")
            .field("id", &self.id)
            .finish_non_exhaustive()
    }
}

/// The check of this name.
#[must_use]
pub fn find(id: &str) -> Option<&'static Check> {
    ALL.iter().copied().find(|check| check.id == id)
}
