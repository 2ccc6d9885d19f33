//! What the box takes and costs: the shopping list, what becomes of the
//! sheets, and what other parts of the shelf would change.

mod circuit;
mod extras;
mod found;
mod instead;
mod list;
mod model;
mod needs;
mod sheets;
mod swaps;

pub(crate) use model::nothing_priced;
pub use model::*;

pub(crate) use found::{Studied, found};
pub(crate) use list::Need;
pub(crate) use needs::named;

use crate::carpentry::Carpentry;
use crate::check::Evidence;
use crate::subject::Subject;
use crate::texts::Texts;

/// What the box takes and costs, before other parts are tried.
pub(crate) fn study(subject: &Subject, carpentry: &Carpentry, studied: &Studied<'_>) -> Shopping {
    let brief = &subject.project.design.brief;
    let bills = subject.sheets.iter();
    let each = subject.cost.lines().iter();
    let with = |line: &Line| Line {
        instead: instead::instead(subject, line),
        ..line.clone()
    };
    let mut lines: Vec<Line> = each.map(with).collect();
    lines.sort_by_key(|line| line.kind);
    Shopping {
        currency: brief.currency.clone(),
        brief: brief.cost.map(|cost| cost.si),
        lines,
        extras: extras::extras(subject, carpentry, studied),
        sheets: bills
            .map(|plan| sheets::bill(plan, &brief.currency))
            .collect(),
        swaps: Vec::new(),
    }
}

impl Shopping {
    /// With what other parts of the shelf would change: every one is tried on the text,
    /// and `progress` hears of it.
    pub(crate) fn with_swaps(
        self,
        texts: Texts<'_>,
        evidence: &Evidence<'_>,
        carpentry: &Carpentry,
        progress: &(dyn Fn(usize) + Sync),
    ) -> Self {
        let swaps = swaps::swaps(texts, evidence, carpentry, progress);
        let shelf = &evidence.subject.project.shelf;
        let lines = self.lines.into_iter().map(|line| {
            let mut instead = line.instead.clone();
            instead.extend(swaps::would_do(shelf, &line, &swaps));
            Line { instead, ..line }
        });
        Self {
            lines: lines.collect(),
            swaps,
            ..self
        }
    }
}
