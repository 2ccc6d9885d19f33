//! Shelf parts in JSON.

use super::{FORMAT, layout};
use crate::parts::{Fact, Part};
use serde::Serialize;

#[derive(Serialize)]
struct Shelf<'a> {
    format: u32,
    parts: Vec<PartJson<'a>>,
}

#[derive(Serialize)]
struct PartJson<'a> {
    kind: &'a str,
    name: &'a str,
    about: Option<&'a str>,
    generic: bool,
    price: Option<&'a str>,
    on_hand: u32,
    facts: Vec<FactJson<'a>>,
}

#[derive(Serialize)]
struct FactJson<'a> {
    key: &'a str,
    text: &'a str,
    si: Option<f64>,
    own: bool,
}

/// Parts with everything the shelf says about them.
pub(crate) fn shelf(parts: &[Part]) -> String {
    layout::text(&Shelf {
        format: FORMAT,
        parts: parts.iter().map(part).collect(),
    })
}

fn part(part: &Part) -> PartJson<'_> {
    PartJson {
        kind: part.kind,
        name: &part.name,
        about: part.about.as_deref(),
        generic: part.generic,
        price: part.price.as_deref(),
        on_hand: part.on_hand,
        facts: part.facts.iter().map(fact).collect(),
    }
}

fn fact(fact: &Fact) -> FactJson<'_> {
    FactJson {
        key: fact.key,
        text: &fact.text,
        si: fact.si,
        own: fact.own,
    }
}
