//! Findings, worst first, each with its cause and its mend.

use super::layout::{heading, left, wrapped};
use super::plain::plain;
use crate::failure::{Named, Project};
use crate::terminal::{Ink, Tone};
use design::Place;
use studies::check::{Edit, Finding, Severity};

const BODY: &str = "             ";

/// Checks of what can hurt someone: told even where all is in order.
const ALWAYS_TOLD: [&str; 3] = ["lead-acid-airtight", "lithium-care", "hearing"];

/// The findings; what is in order is named at the end.
pub(super) fn findings(project: &Project, findings: &[Finding], ink: Ink) -> String {
    let (told, in_order): (Vec<&Finding>, Vec<&Finding>) = findings.iter().partition(|finding| {
        finding.severity != Severity::Good || ALWAYS_TOLD.contains(&finding.id)
    });
    let mut out = heading(&format!("Findings: {}", count(findings)), ink);
    for finding in told {
        out += &one(project, finding, ink);
    }
    let titles: Vec<&str> = in_order
        .iter()
        .map(|finding| finding.title.as_str())
        .collect();
    if !titles.is_empty() {
        let (sign, tone) = sign(Severity::Good);
        out += &signed(sign, tone, &(titles.join("; ") + "."), ink);
    }
    out
}

/// "1 stop, 2 cautions, 20 in order"; what there is none of is left out.
fn count(findings: &[Finding]) -> String {
    let of = |severity| {
        findings
            .iter()
            .filter(|finding| finding.severity == severity)
            .count()
    };
    let said = |count: usize, one: &str, many: &str| match count {
        0 => None,
        1 => Some(format!("1 {one}")),
        _ => Some(format!("{count} {many}")),
    };
    let parts = [
        said(of(Severity::Stop), "stop", "stops"),
        said(of(Severity::Caution), "caution", "cautions"),
        said(of(Severity::Good), "in order", "in order"),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

const fn sign(severity: Severity) -> (&'static str, Tone) {
    match severity {
        Severity::Stop => ("■ stop", Tone::Stop),
        Severity::Caution => ("◆ caution", Tone::Caution),
        Severity::Good => ("● good", Tone::Good),
    }
}

fn one(project: &Project, finding: &Finding, ink: Ink) -> String {
    let (sign, tone) = sign(finding.severity);
    let title = format!("{} [{}]", finding.title, finding.name);
    let mut out = signed(sign, tone, &title, ink);
    out += &wrapped(BODY, &finding.cause);
    if let Some(place) = finding.place {
        let said = format!("{BODY}at {}\n", located(&project.file(place.file), place));
        out += &ink.paint(Tone::Faint, &said);
    }
    if let Some(advice) = &finding.advice {
        out += &wrapped(&format!("{BODY}do: "), advice);
    }
    if let Some(mend) = &finding.mend {
        out += &wrapped(&format!("{BODY}mend: "), &mend.words);
        for edit in &mend.edits {
            out += &format!("{BODY}      {}\n", ink.paint(Tone::Strong, &edited(edit)));
        }
    }
    for brought in finding.brings.iter().take(BROUGHT) {
        let said = format!("{} [{}]", brought.title, brought.id);
        out += &wrapped(&format!("{BODY}with it: "), &said);
    }
    let more = finding.brings.len().saturating_sub(BROUGHT);
    if more > 0 {
        out += &format!("{BODY}with it: {more} more\n");
    }
    out.push('\n');
    out
}

/// What follows from a finding is named up to so many.
const BROUGHT: usize = 4;

/// "design.toml:12": a file and the line in it.
fn located(file: &Named, place: Place) -> String {
    let before = file.text.as_bytes().iter().take(place.start);
    let line = 1 + before.filter(|byte| **byte == b'\n').count();
    format!("{}:{line}", plain(&file.name))
}

/// A text with its sign before it.
fn signed(sign: &str, tone: Tone, text: &str, ink: Ink) -> String {
    let text = wrapped(BODY, text);
    let sign = ink.paint(tone, &left(sign, BODY.len() - 3));
    format!("  {sign} {}", &text[BODY.len()..])
}

/// An edit as it will stand in the file.
pub(super) fn edited(edit: &Edit) -> String {
    let edited = match &edit.value {
        Some(value) if is_bare(value) => format!("{} = {value}", edit.key),
        Some(value) => format!("{} = \"{value}\"", edit.key),
        None => format!("{} taken out", edit.key),
    };
    plain(&edited)
}

/// Whether a value stands in the file without quotes.
fn is_bare(value: &str) -> bool {
    matches!(value, "true" | "false") || value.parse::<f64>().is_ok()
}
