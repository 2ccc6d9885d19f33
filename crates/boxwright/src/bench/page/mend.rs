//! What is wrong, worst first, and how to mend it.

use super::promises::several;
use super::sight::Sight;
use super::sign::sign;
use crate::bibliography;
use maud::{Markup, html};
use studies::check::{Finding, Severity};
use studies::words;

/// How many findings there are to mend.
pub(super) fn wrong(sight: &Sight<'_>) -> usize {
    let findings = sight.studied.report.findings.iter();
    findings
        .filter(|finding| finding.severity < Severity::Good)
        .count()
}

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
                @for finding in wrong.iter().take(FIRST) { (wrongly(sight, finding)) }
            }
            @if wrong.len() > FIRST {
                details #more {
                    summary { (wrong.len() - FIRST) " more" }
                    ul.findings {
                        @for finding in wrong.iter().skip(FIRST) { (wrongly(sight, finding)) }
                    }
                }
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

/// Findings shown before the rest is folded away: what moves a promise stands below them.
const FIRST: usize = 3;

/// A first sentence longer than this is cut at a semicolon.
const LONG: usize = 150;

/// The first sentence of a text, or of a long one the first part, and what follows.
fn split(text: &str) -> (&str, &str) {
    let end = |mark: char| {
        let mut ends = text.match_indices(mark).map(|(at, _)| at);
        ends.find(|at| text[at + 1..].starts_with(' ') && *at > 24)
    };
    let sentence = end('.').unwrap_or(text.len());
    let part = end(';').filter(|part| *part < sentence && sentence > LONG);
    match part.unwrap_or(sentence) {
        at if at < text.len() => (&text[..=at], text[at + 1..].trim_start()),
        _ => (text, ""),
    }
}

fn wrongly(sight: &Sight<'_>, finding: &Finding) -> Markup {
    let id = finding.name.replace('.', "-");
    let (first, rest) = split(&finding.cause);
    html! {
        li.finding id={ "finding-" (id) } data-about=(finding.about.join(" ")) {
            h3 { (sign(finding.severity)) " " (finding.title) }
            p { (first.trim_end_matches(';')) @if first.ends_with(';') { " …" } }
            @if let Some(mend) = &finding.mend {
                button.mend id={ "mend-" (id) } type="button" data-mend=(finding.name)
                    data-number=(sight.state.number) { (mend.words) }
            } @else if let Some(advice) = &finding.advice {
                p.advice { (advice) "." }
            }
            div.about {
                @if let Some(mend) = &finding.mend {
                    button.quiet id={ "try-" (id) } type="button" data-try-mend=(finding.name)
                        data-number=(sight.state.number)
                        aria-label={ "What would change: " (mend.words) } { "what would change?" }
                }
                details id={ "why-" (id) } {
                    summary { "why" }
                    @if !rest.is_empty() { p { (rest) } }
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
}

/// A link to the whole text about a check.
pub(super) fn explain(id: &str) -> Markup {
    html! {
        a.explain href={ "/explain/" (id) } data-explain=(id) aria-label={ "explain " (id) } { "explain" }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_sentence_comes_first_and_nothing_is_lost() {
        let long = "Vented to 60.6 Hz it plays down to 53.0 Hz; eight of ten builds spread over \
            50.5 Hz to 56.2 Hz instead of 75.6 Hz to 86.1 Hz; all builds reach 80 Hz against 50 of \
            a hundred sealed.";
        for (text, first) in [
            (
                "The box plays down to 79.9 Hz; the brief asks for 80.0 Hz.",
                "The box plays down to 79.9 Hz; the brief asks for 80.0 Hz.",
            ),
            (long, "Vented to 60.6 Hz it plays down to 53.0 Hz;"),
            (
                "Short. But the first must say something of worth, so it goes on. End.",
                "Short. But the first must say something of worth, so it goes on.",
            ),
            ("no end", "no end"),
            ("", ""),
        ] {
            let (start, rest) = split(text);
            assert_eq!(start, first);
            assert_eq!([start, rest].join(" ").trim(), text);
        }
    }
}
