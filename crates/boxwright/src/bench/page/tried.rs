//! What a change would do, before it is made.

use super::promises::shown;
use super::sign::sign;
use crate::bench::state::Studied;
use maud::{Markup, html};
use studies::check::{Finding, Severity};
use studies::report::{Better, Promise};
use studies::words;

/// Every promise before and after, and findings that come and go.
pub(crate) fn tried(before: &Studied, after: &Studied) -> Markup {
    let promises = before.report.promises.iter().zip(&after.report.promises);
    let (gone, come) = (beyond(before, after), beyond(after, before));
    html! {
        table.changes {
            thead { tr { th scope="col" { "" } th scope="col" { "now" } th scope="col" { "then" } th scope="col" { "" } } }
            @for (old, new) in promises { (line(old, new)) }
        }
        @if !come.is_empty() {
            h3 { "Comes" }
            ul.findings { @for finding in come {
                li data-about=(finding.about.join(" ")) data-severity=(word(finding.severity)) {
                    (sign(finding.severity)) " " (finding.title) ": " (finding.cause)
                }
            } }
        }
        @if !gone.is_empty() {
            h3 { "Goes" }
            ul.findings { @for finding in gone { li { (sign(finding.severity)) " " s { (finding.title) } } } }
        }
    }
}

const fn word(severity: Severity) -> &'static str {
    match severity {
        Severity::Stop => "stop",
        Severity::Caution => "caution",
        Severity::Good => "good",
    }
}

/// What is wrong with one and not, or less so, with the other.
fn beyond<'a>(one: &'a Studied, other: &Studied) -> Vec<&'a Finding> {
    let wrong = one
        .report
        .findings
        .iter()
        .filter(|finding| finding.severity < Severity::Good);
    wrong
        .filter(|finding| {
            let same = other
                .report
                .findings
                .iter()
                .find(|theirs| theirs.id == finding.id && theirs.about == finding.about);
            same.is_none_or(|theirs| theirs.severity > finding.severity)
        })
        .collect()
}

fn line(old: &Promise, new: &Promise) -> Markup {
    let by = new.value - old.value;
    let said = words::change(by, &old.unit);
    let better = match old.better {
        Better::Lower => by < 0.0,
        Better::Higher => by > 0.0,
    };
    let (tone, mark) = match (said.as_str(), better) {
        ("same", _) => ("plain", ""),
        (_, true) => ("good", "▲ better"),
        (_, false) => ("caution", "▼ worse"),
    };
    html! {
        tr {
            th scope="row" { (old.title) " " small { (shown(&old.unit)) } }
            td.number { (words::bare(old.value, &old.unit)) }
            td.number { (words::bare(new.value, &new.unit)) }
            td.(tone) { (said) @if !mark.is_empty() { " " (mark) } }
        }
    }
}
