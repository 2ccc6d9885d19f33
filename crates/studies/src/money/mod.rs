//! What the box takes and costs: the shopping list, what becomes of the
//! sheets, and what other parts of the shelf would change.

mod circuit;
mod extras;
mod found;
mod list;
mod model;
mod needs;
mod sheets;
mod wire;

pub use model::*;

pub(crate) use found::{Studied, found};
pub(crate) use list::Need;
pub(crate) use needs::named;

use crate::carpentry::Carpentry;
use crate::subject::Subject;

/// What the box takes and costs, before other parts are tried.
pub(crate) fn study(subject: &Subject, carpentry: &Carpentry, studied: &Studied<'_>) -> Shopping {
    let brief = &subject.project.design.brief;
    let bills = subject.sheets.iter();
    Shopping {
        currency: brief.currency.clone(),
        brief: brief.cost.map(|cost| cost.si),
        lines: subject.cost.lines().to_vec(),
        extras: extras::extras(subject, carpentry, studied),
        sheets: bills
            .map(|plan| sheets::bill(plan, &brief.currency))
            .collect(),
        swaps: Vec::new(),
    }
}
