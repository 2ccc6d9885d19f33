//! The steps of one design and what each comes after.

mod bench;
mod coats;
mod fitting;
mod shut;
mod trials;
mod wood;

pub(crate) use coats::{Late, late};

use super::draft::Drafts;
use crate::carpentry::{Carpentry, PartKind, Stage};
use crate::finish::Finish;
use ::wood::Wall;
use design::{Closing, Design};

/// What steps are made from.
pub(crate) struct Site<'a> {
    pub(crate) design: &'a Design,
    pub(crate) carpentry: &'a Carpentry,
    pub(crate) finish: &'a Finish,
    /// Wires of the harness, where they are known.
    pub(crate) wires: Option<usize>,
    /// Whether something is built that disconnects the load of an empty battery.
    pub(crate) cuts_off: bool,
    /// The wall that closes the box.
    pub(crate) last: Wall,
    /// Whether it comes off again.
    pub(crate) screwed: bool,
}

impl<'a> Site<'a> {
    pub(crate) fn new(
        design: &'a Design,
        carpentry: &'a Carpentry,
        finish: &'a Finish,
        wires: Option<usize>,
    ) -> Self {
        let said = &design.enclosure.carpentry;
        Self {
            design,
            carpentry,
            finish,
            wires,
            cuts_off: false,
            last: crate::carpentry::wall(said.last.value),
            screwed: said.last_with.value == Closing::Screws,
        }
    }

    /// How many parts of a kind there are.
    fn count(&self, kind: PartKind) -> usize {
        let parts = self.carpentry.parts.iter();
        parts.filter(|part| part.kind == kind).count()
    }

    /// Whether the design has an indicator.
    pub(crate) fn has_indicator(&self) -> bool {
        let modules = &self.design.modules;
        self.design.indicator.is_some()
            || modules
                .iter()
                .any(|used| used.part.kind.value == design::ModuleKind::Indicator)
    }

    /// Whether something stands in the box that goes in only before its last wall is on.
    pub(crate) fn is_hidden_for_good(&self) -> bool {
        let mut lines = self.carpentry.access.iter();
        !self.screwed && lines.any(|line| line.goes_in < Stage::Closed)
    }

    /// The step after which what the box hides is no longer reached: the last wall, or where
    /// that is glued on empty, the drivers in their holes.
    pub(crate) fn shutting(&self) -> &'static str {
        if self.screwed || self.is_hidden_for_good() {
            "close"
        } else {
            "fit-drivers"
        }
    }
}

/// All steps, and every reason why one comes after another; `late` coats are sanded before.
pub(crate) fn gather(site: &Site<'_>, late: &Late) -> Drafts {
    let mut drafts = Drafts::default();
    wood::add(&mut drafts, site);
    bench::add(&mut drafts, site);
    coats::add(&mut drafts, site, late);
    fitting::add(&mut drafts, site);
    shut::add(&mut drafts, site);
    trials::add(&mut drafts, site);
    drafts
}
