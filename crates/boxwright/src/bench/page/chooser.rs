//! Where to begin, when no design was named.

use maud::{DOCTYPE, Markup, html};

/// A shipped example.
#[derive(Clone, Debug)]
pub(crate) struct Example {
    /// Its name on the command line.
    pub(crate) name: String,
    /// What it is, in a sentence.
    pub(crate) about: String,
}

/// What there is to choose from.
#[derive(Clone, Debug, Default)]
pub(crate) struct Chooser {
    pub(crate) examples: Vec<Example>,
    /// Designs that were open lately, newest first.
    pub(crate) recent: Vec<String>,
    /// Something the maker should know.
    pub(crate) notice: Option<String>,
}

/// The page on which a design is chosen.
pub(crate) fn chooser(chooser: &Chooser, token: &str) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            head { (super::head("Boxwright", token)) }
            body.chooser data-chooser="true" {
                header #head { h1 { "Boxwright" } (super::theme_switch()) }
                main #main {
                    div #say role="status" aria-live="polite" {}
                    @if let Some(notice) = &chooser.notice { p.warn { (notice) } }
                    @if !chooser.recent.is_empty() {
                        section aria-labelledby="recent-title" {
                            h2 #recent-title { "Go on with" }
                            ul.choices { @for (index, name) in chooser.recent.iter().enumerate() {
                                li { button type="button" data-open=(index) { (name) } }
                            } }
                        }
                    }
                    section aria-labelledby="new-title" {
                        h2 #new-title { "Begin a new one" }
                        p { label for="new-name" { "name of the design" } " "
                            input.word #new-name type="text" value="My box" autocomplete="off" spellcheck="false"; }
                        ul.choices {
                            li { button type="button" data-begin="" { "from a page that explains every line" } }
                            @for example in &chooser.examples {
                                li { button type="button" data-begin=(example.name) { "like " (example.name) }
                                    p.quiet { (example.about) } }
                            }
                        }
                    }
                }
                script src="/asset/bench.js" defer {}
            }
        }
    }
}
