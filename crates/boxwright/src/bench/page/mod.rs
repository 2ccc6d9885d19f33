//! The page: pure fragments from a state and a view.

mod boxview;
mod brief;
mod build;
mod chooser;
mod curve;
mod field;
mod handout;
mod lengths;
mod levers;
mod meaning;
mod mend;
mod parts;
mod plot;
mod promises;
mod sheets;
mod sight;
mod sign;
#[cfg(test)]
mod tests;
mod text;
mod thin;
mod tried;
mod view;

pub(super) use chooser::chooser;
pub(super) use handout::handout;
pub(super) use parts::shelf;
pub(super) use tried::tried;
pub(super) use view::View;

use super::state::{Stage, State};
use maud::{DOCTYPE, Markup, html};
use sight::Sight;
use view::SheetOf;

/// The whole page.
pub(super) fn whole(state: &State, view: &View, token: &str) -> Markup {
    let name = state
        .studied
        .as_ref()
        .map_or(state.file.as_str(), |s| s.report.name.as_str());
    html! {
        (DOCTYPE)
        html lang="en" {
            head { (head(&format!("{name} · Boxwright"), token)) }
            body {
                a.skip href="#main" { "to the sheet" }
                (parts(state, view))
                aside #tried aria-label="What would change" hidden {
                    h2 #tried-title tabindex="-1" { "What would change" }
                    div #tried-found aria-live="polite" {}
                    div.tools {
                        button #tried-accept type="button" { "make the change" }
                        button.quiet #tried-leave type="button" { "leave it" }
                    }
                }
                dialog #explained aria-label="Explained" {
                    div #explained-text tabindex="0" {}
                    button #explained-close type="button" { "close" }
                }
                div #say role="status" aria-live="polite" {}
                script type="module" src="/asset/bench.js" {}
            }
        }
    }
}

fn head(title: &str, token: &str) -> Markup {
    html! {
        meta charset="utf-8";
        meta name="viewport" content="width=device-width, initial-scale=1";
        meta name="color-scheme" content="light dark";
        meta name="token" content=(token);
        title { (title) }
        link rel="icon" href="data:,";
        link rel="stylesheet" href="/asset/bench.css";
    }
}

/// Paper or blueprint.
fn theme_switch() -> Markup {
    html! {
        button.quiet #theme type="button" aria-pressed="false" aria-label="blueprint: light lines on dark" {
            "◐"
        }
    }
}

/// The parts of the page that may change, each with an id.
pub(super) fn parts(state: &State, view: &View) -> Markup {
    let sight = state
        .studied
        .as_deref()
        .map(|studied| Sight::new(state, view, studied));
    html! {
        (title(state, view))
        @if let Some(sight) = &sight { (brief::sentence(sight)) }
        (deeds(state))
        (text::troubles(state))
        @match &sight {
            Some(sight) => {
                (promises::promises(sight))
                (sheets_nav(sight))
                main #main { (sheets::sheet(sight)) }
                aside #side aria-label="What to mend, and what moves it"
                    data-shut[!view.side()] {
                    (fold(sight))
                    (mend::findings(sight))
                    (curve::in_hand(sight))
                    (levers::levers(sight))
                }
            }
            None => {
                main #main { @if state.problems.is_empty() { p.quiet { "Working it out …" } } }
            }
        }
        (text::editor(state))
    }
}

/// Folds away what stands beside the sheet, or opens it.
fn fold(sight: &Sight<'_>) -> Markup {
    let open = sight.view.side();
    html! {
        a #side-fold href=(sight.view.with_side(!open).address()) {
            @if open { "fold away ›" } @else { "‹ " (mend::wrong(sight)) " to mend, and what moves it" }
        }
    }
}

/// The name, and where it stands.
fn title(state: &State, view: &View) -> Markup {
    let report = state.studied.as_ref().map(|studied| &studied.report);
    let name = report.map_or(state.file.as_str(), |report| report.name.as_str());
    let place = SheetOf::ALL
        .iter()
        .position(|sheet| *sheet == view.sheet)
        .unwrap_or(0)
        + 1;
    html! {
        header #head data-number=(state.number) data-stage=(stage(state.stage)) {
            div.name {
                h1 { (name) }
                p.quiet {
                    "sheet " (place) " of " (SheetOf::ALL.len())
                    @if let Some(revision) = report.and_then(|report| report.revision) { " · revision " (revision) }
                    @if state.problems.is_empty() { " · " span title=(state.file) { "saved" } }
                }
            }
        }
    }
}

/// What can be done with the whole, and how far the studies are.
fn deeds(state: &State) -> Markup {
    html! {
        section #deeds aria-label="Undo, redo, print" {
            div.tools {
                button #undo type="button" data-do="undo" disabled[state.undo.is_none()]
                    title=[state.undo.as_deref()]
                    aria-label=(said("Undo", state.undo.as_deref())) { "Undo" }
                button #redo type="button" data-do="redo" disabled[state.redo.is_none()]
                    title=[state.redo.as_deref()]
                    aria-label=(said("Redo", state.redo.as_deref())) { "Redo" }
                (theme_switch())
                a.button.main #print href="/pack.pdf" download { "Print build pack" }
            }
            div #busy.busy role="status" {
                @if let Some((drawn, of)) = state.busy {
                    label for="drawn" { "builds drawn " }
                    progress #drawn max=(of.max(1)) value=(drawn) {}
                    button.quiet #stop type="button" data-do="stop" { "stop" }
                } @else {
                    span.quiet { (reached(state.stage)) }
                }
            }
        }
    }
}

fn said(what: &str, words: Option<&str>) -> String {
    words.map_or_else(|| what.to_owned(), |words| format!("{what}: {words}"))
}

const fn stage(stage: Stage) -> &'static str {
    match stage {
        Stage::Broken => "broken",
        Stage::Nominal => "nominal",
        Stage::Bands => "bands",
        Stage::Whole => "whole",
    }
}

const fn reached(stage: Stage) -> &'static str {
    match stage {
        Stage::Broken => "the file cannot be read",
        Stage::Nominal => "as designed; bands follow",
        Stage::Bands => "bands of a few builds; more follow",
        Stage::Whole => "every build drawn, every mend tried",
    }
}

fn sheets_nav(sight: &Sight<'_>) -> Markup {
    let view = sight.view;
    html! {
        nav #sheets aria-label="Sheets" {
            div.tabs {
                @for (index, sheet) in SheetOf::ALL.into_iter().enumerate() {
                    a id={ "sheet-" (sheet.word()) } href=(view.with_sheet(sheet).address())
                        aria-current=[(sheet == view.sheet).then_some("page")] {
                        strong { (index + 1) } " " span { (sheet.title()) }
                    }
                }
                // Where the side lies below the sheet, a way down to it.
                a #to-side href="#side" title="down to what is to mend" { strong { (mend::wrong(sight)) } " " span { "mend" } }
            }
        }
    }
}
