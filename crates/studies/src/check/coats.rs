//! Candidates that set the layers of the finish in another way.

use super::{Candidate, Edit, Evidence};
use design::{FinishPart, FinishUse, Wall};

/// A layer as the file says it.
#[derive(Clone, PartialEq)]
pub(super) struct Coats<'a> {
    pub(super) part: &'a str,
    pub(super) coats: Option<u32>,
    pub(super) on: &'a [Wall],
}

impl<'a> Coats<'a> {
    /// As many coats as usual.
    pub(super) fn of(part: &'a FinishPart, on: &'a [Wall]) -> Self {
        Self {
            part: &part.common.name.text,
            coats: None,
            on,
        }
    }
}

/// The layers of a design.
pub(super) fn now(said: &[FinishUse]) -> Vec<Coats<'_>> {
    said.iter()
        .map(|used| Coats {
            coats: used.coats,
            ..Coats::of(&used.part, &used.on)
        })
        .collect()
}

/// A finish on the shelf, of those that pass the one that costs least.
pub(super) fn on_shelf<'a>(
    evidence: &Evidence<'a>,
    passes: impl Fn(&FinishPart) -> bool,
) -> Option<&'a FinishPart> {
    let price = |part: &FinishPart| match &part.common.price {
        _ if part.common.on_hand > 0 => 0.0,
        Some(price) => price.amount.si / part.can.si / part.coverage.si,
        None => f64::INFINITY,
    };
    let shelf = evidence.subject.project.shelf.finishes.iter();
    shelf
        .filter(|part| passes(part))
        .min_by(|a, b| price(a).total_cmp(&price(b)))
}

/// Layers in place of the present ones; `None` where faces would have to be written anew.
pub(super) fn instead(
    words: impl Into<String>,
    said: &[FinishUse],
    wanted: &[Coats<'_>],
) -> Option<Candidate> {
    let before = now(said);
    let mut edits = Vec::new();
    for (index, to) in wanted.iter().enumerate() {
        let key = |name: &str| format!("finish.{}.{name}", index + 1);
        let from = before.get(index);
        if from.is_none_or(|from| from.part != to.part) {
            edits.push(Edit::set(key("part"), to.part));
        }
        match (from.and_then(|from| from.coats), to.coats) {
            (old, Some(new)) if old != Some(new) => {
                edits.push(Edit::set(key("coats"), new.to_string()));
            }
            (Some(_), None) => edits.push(Edit::remove(key("coats"))),
            _ => {}
        }
        match from {
            Some(from) if from.on != to.on => return None,
            Some(_) => {}
            None => edits.extend(to.on.iter().enumerate().map(|(k, wall)| {
                let key = format!("finish.{}.on.{}", index + 1, k + 1);
                Edit::set(key, crate::words::wall(crate::carpentry::wall(*wall)))
            })),
        }
    }
    let left_over = (wanted.len()..before.len()).rev();
    edits.extend(left_over.map(|index| Edit::remove(format!("finish.{}", index + 1))));
    Some(Candidate::new(words, edits))
}

/// One layer left out, the others as they are.
pub(super) fn without(said: &[FinishUse], index: usize) -> Candidate {
    let words = format!("no {}", said[index].part.common.name.text);
    Candidate::new(words, [Edit::remove(format!("finish.{}", index + 1))])
}
