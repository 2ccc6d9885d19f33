//! What is wrong, worst first, and how to mend it.

use super::promises::several;
use super::sight::Sight;
use super::sign::sign;
use crate::bibliography;
use maud::{Markup, html};
use studies::check::{Finding, Severity};
use studies::words;

/// To mend, then what is in order.
pub(super) fn findings(sight: &Sight<'_>) -> Markup {
    let findings = &sight.studied.report.findings;
    let (wrong, good): (Vec<&Finding>, Vec<&Finding>) = findings
        .iter()
        .partition(|finding| finding.severity < Severity::Good);
    html! {
        section #mend aria-labelledby="mend-title" {
            h2 #mend-title { "To mend " small { "· " (wrong.len()) " of " (findings.len()) " checks" } }
            @if wrong.is_empty() { p.quiet { "Nothing found wrong." } }
            ul.findings {
                @for finding in &wrong { (wrongly(sight, finding)) }
            }
            details #in-order {
                summary { (several(good.len(), "check")) " in order" }
                ul.findings {
                    @for finding in &good {
                        li { (sign(finding.severity)) " " (finding.title) " " (explain(finding.id)) }
                    }
                }
            }
        }
    }
}

fn wrongly(sight: &Sight<'_>, finding: &Finding) -> Markup {
    let id = finding.name.replace('.', "-");
    html! {
        li.finding id={ "finding-" (id) } data-about=(finding.about.join(" ")) {
            h3 { (sign(finding.severity)) " " (finding.title) }
            p { (finding.cause) }
            @if let Some(mend) = &finding.mend {
                div.mend {
                    button.mend id={ "mend-" (id) } type="button" data-mend=(finding.name)
                        data-number=(sight.state.number) { (mend.words) }
                    button.quiet id={ "try-" (id) } type="button" data-try-mend=(finding.name)
                        data-number=(sight.state.number)
                        aria-label={ "What would change: " (mend.words) } { "what would change?" }
                }
            } @else if let Some(advice) = &finding.advice {
                p.advice { (advice) }
            }
            details id={ "why-" (id) } {
                summary { "limit and source" }
                @if finding.mend.is_some() && let Some(advice) = &finding.advice { p { (advice) } }
                @if let (Some(measured), Some(limit)) = (finding.measured, finding.limit) {
                    p { (words::number(measured, finding.unit)) " against "
                        (words::number(limit, finding.unit)) "." }
                }
                @for key in finding.source {
                    p.source { (bibliography::entry(key).unwrap_or_else(|| (*key).to_owned())) }
                }
                @if !finding.brings.is_empty() {
                    p { "Brings with it:" }
                    ul {
                        @for brought in &finding.brings {
                            li { (sign(brought.severity)) " " (brought.title) ": " (brought.cause) }
                        }
                    }
                }
            }
            (explain(finding.id))
        }
    }
}

/// A link to the whole text about a check.
pub(super) fn explain(id: &str) -> Markup {
    html! {
        a.explain href={ "/explain/" (id) } data-explain=(id) aria-label={ "explain " (id) } { "explain" }
    }
}

/// The text about a check: the same that the command line tells.
pub(crate) fn explained(check: &studies::check::Check) -> Markup {
    html! {
        article.explained {
            h2 { (check.title) " " small { (check.id) } }
            @for (title, text) in [
                ("What is checked", check.what),
                ("Why", check.why),
                ("Limits", check.limits),
                ("Finds fault with", check.bad),
                ("Passes", check.good),
            ] {
                h3 { (title) }
                p { (text) }
            }
            h3 { "Sources" }
            @for key in check.sources {
                p.source {
                    @match bibliography::entry(key) {
                        Some(entry) => { (entry) ". [" (key) "]" }
                        None => (key)
                    }
                }
            }
        }
    }
}
