//! A state under one view, with what all fragments ask of it.

use super::View;
use crate::bench::state::{Stage, State, Studied};
use std::collections::BTreeMap;

/// A state whose design could be read, under one view.
pub(super) struct Sight<'a> {
    pub(super) state: &'a State,
    pub(super) view: &'a View,
    pub(super) studied: &'a Studied,
    /// Every value of the design with its key, as written.
    written: BTreeMap<String, String>,
    /// The keys in the order of the text.
    order: Vec<String>,
}

impl<'a> Sight<'a> {
    pub(super) fn new(state: &'a State, view: &'a View, studied: &'a Studied) -> Self {
        let written = design::written(&state.text);
        Self {
            state,
            view,
            studied,
            order: written.iter().map(|(key, _)| key.clone()).collect(),
            written: written.into_iter().collect(),
        }
    }

    /// The value at a key, as written.
    pub(super) fn at(&self, key: &str) -> Option<&str> {
        self.written.get(key).map(String::as_str)
    }

    /// Keys in the order of the text.
    pub(super) fn keys(&self) -> impl Iterator<Item = &str> {
        self.order.iter().map(String::as_str)
    }

    /// Keys and values of a table, those of tables within it left out.
    pub(super) fn table(&self, table: &str) -> impl Iterator<Item = (&str, &str)> {
        let before = format!("{table}.");
        self.order.iter().filter_map(move |key| {
            let rest = key.strip_prefix(&before)?;
            let own = rest.split_once('.').is_none_or(|(_, rest)| {
                // An entry of a list of values is the table's own.
                rest.bytes().all(|byte| byte.is_ascii_digit())
            });
            own.then(|| (key.as_str(), self.written[key].as_str()))
        })
    }

    /// Whether every drawn build stands behind what is shown, and every mend was tried.
    pub(super) fn is_whole(&self) -> bool {
        self.state.stage == Stage::Whole
    }
}
