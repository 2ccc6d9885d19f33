//! The file itself: what is wrong with its text, and the whole of it to edit.

use crate::bench::state::State;
use design::FileId;
use maud::{Markup, html};

/// What is wrong with the text, or with two texts of it.
pub(super) fn troubles(state: &State) -> Markup {
    html! {
        section #troubles aria-label="What is wrong with the file" hidden[state.problems.is_empty()
            && state.conflict.is_none() && state.notice.is_none()] {
            @if let Some(notice) = &state.notice { p.warn role="status" { (notice) } }
            @if let Some(conflict) = &state.conflict {
                div.conflict role="alert" {
                    h2 { "The file was changed by an editor, too" }
                    p { "Both changed the same lines. Which shall stand?" }
                    div.tools {
                        button #settle-mine type="button" data-settle="mine" { "what the bench has" }
                        button #settle-theirs type="button" data-settle="theirs" { "what the editor has" }
                    }
                    details #theirs { summary { "what the editor has" } pre tabindex="0" { (conflict.theirs) } }
                }
            }
            @if !state.problems.is_empty() {
                div role="alert" {
                    h2 { "The file cannot be read as it is" }
                    p { @if state.studied.is_some() { "Shown below is what it said before. " }
                        "Mend it here, or in your editor." }
                    ul.problems {
                        @for problem in &state.problems {
                            li {
                                strong { (place(state, problem)) } ": " (problem.message) " "
                                span.quiet { (problem.mend) }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn place(state: &State, problem: &design::Diagnostic) -> String {
    let text: &str = match problem.place.file {
        FileId::Design => &state.text,
        FileId::Shelf => state.shelf.as_deref().unwrap_or_default(),
        FileId::BuiltIn => "",
    };
    let before = &text[..text.floor_char_boundary(problem.place.start.min(text.len()))];
    let line = 1 + before.matches('\n').count();
    match problem.place.file {
        FileId::Design => format!("line {line}"),
        FileId::Shelf => format!("shelf, line {line}"),
        FileId::BuiltIn => "built-in shelf".to_owned(),
    }
}

/// The whole text, for what has no place of its own on the page.
pub(super) fn editor(state: &State) -> Markup {
    html! {
        footer #foot {
            details #file open[!state.problems.is_empty()] {
                summary { "The file: " (state.file) }
                label for="file-text" { "Every line of it, comments too" }
                textarea #file-text rows="24" spellcheck="false" data-number=(state.number) {
                    // The first line break in such a field does not count.
                    "\n" (state.text)
                }
                div.tools {
                    button #file-save type="button" data-save-text="true" { "save" }
                    span.error #file-error role="alert" data-keep {}
                }
            }
        }
    }
}
