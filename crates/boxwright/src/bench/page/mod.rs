//! The page as HTML.

use super::state::{State, Studied};
use maud::{DOCTYPE, Markup, html};

/// What of the design is looked at.
#[derive(Clone, Debug, Default)]
pub(super) struct View;

impl View {
    pub(super) fn from_query(_: &[(String, String)]) -> Self {
        Self
    }
}

/// The whole page.
pub(super) fn whole(state: &State, view: &View, token: &str) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="token" content=(token);
                title { "Boxwright" }
                link rel="stylesheet" href="/asset/bench.css";
                script src="/asset/bench.js" defer {}
            }
            body { (parts(state, view)) }
        }
    }
}

/// The parts of the page that may change.
pub(super) fn parts(state: &State, _: &View) -> Markup {
    html! {
        main id="bench" {
            h1 { (state.file) }
            @for problem in &state.problems { p { (problem.message) } }
            @if let Some(studied) = &state.studied {
                @for promise in &studied.report.promises { p { (promise.title) } }
                @for finding in &studied.report.findings { p { (finding.title) } }
            }
            pre { (state.text) }
        }
    }
}

/// What a trial would change.
pub(super) fn tried(before: &Studied, after: &Studied) -> Markup {
    html! {
        div id="tried" {
            @for (old, new) in before.report.promises.iter().zip(&after.report.promises) {
                p { (old.title) " " (old.value) " → " (new.value) }
            }
        }
    }
}
