//! Where to begin, when no design was named.

use crate::bench::chooser::Chooser;
use maud::{DOCTYPE, Markup, html};

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
                    @if !chooser.recent.is_empty() {
                        section aria-labelledby="recent-title" {
                            h2 #recent-title { "Go on with" }
                            ul.choices { @for (index, known) in chooser.recent.iter().enumerate() {
                                li { button type="button" data-open=(index) { (known.name) }
                                    p.quiet { (known.path) } }
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
                                li { button type="button" data-begin=(example.id) { "like " (example.title) }
                                    p.quiet { (example.about) } }
                            }
                        }
                        p.quiet { "It gets a folder of its own in " (chooser.folder) "." }
                    }
                }
                script type="module" src="/asset/bench.js" {}
            }
        }
    }
}
