//! Every default, prior and spread a report stands on.

use crate::subject::Subject;
use crate::vary::{Origin, Shape};
use serde::Serialize;

/// One thing taken for granted.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Assumption {
    /// What it is about.
    pub label: String,
    /// Nominal value in `unit`.
    pub nominal: f64,
    /// SI unit; "×" for a factor on a stated value.
    pub unit: &'static str,
    /// How far it may be off: half width or standard deviation, as `kind` says, in per cent where relative.
    pub spread: String,
    /// stated, usual or prior.
    pub kind: &'static str,
    /// Source key or "common practice, no source".
    pub source: &'static str,
    /// Why this much.
    pub why: &'static str,
}

/// The assumptions of a subject, priors first.
pub(crate) fn assumptions(subject: &Subject) -> Vec<Assumption> {
    let mut list: Vec<Assumption> = subject
        .causes
        .list()
        .iter()
        .map(|cause| {
            let (kind, source, why) = match cause.origin {
                Origin::Stated(_) => (
                    "stated",
                    "the maker",
                    "stated in the design or on the shelf",
                ),
                Origin::Usual(row) => ("usual", row.source, row.why),
                Origin::Prior(row) => ("prior", row.source, row.why),
            };
            Assumption {
                label: cause.label.clone(),
                nominal: cause.nominal,
                unit: cause.unit,
                spread: spread(cause.shape, cause.nominal),
                kind,
                source,
                why,
            }
        })
        .collect();
    list.sort_by_key(|line| match line.kind {
        "prior" => 0,
        "usual" => 1,
        _ => 2,
    });
    list
}

fn spread(shape: Shape, nominal: f64) -> String {
    let percent = |part: f64| crate::words::number(100.0 * part, "").replace(".00", "");
    match shape {
        Shape::Fixed => "none".into(),
        Shape::Even { half } => format!("± {} %, even", percent(half / nominal.abs())),
        Shape::Factor { sigma } => format!("σ {} %, as a factor", percent(sigma)),
    }
}
