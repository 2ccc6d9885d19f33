//! Findings, worst first, each with its cause and its mend.

use super::check::heading;
use super::layout::{left, wrapped};
use crate::terminal::{Ink, Tone};
use studies::check::{Edit, Finding, Severity};
use studies::words::number;

const BODY: &str = "             ";

/// The findings; what is in order takes one line each at the end.
pub(super) fn findings(findings: &[Finding], ink: Ink) -> String {
    let mut out = heading("Findings", ink);
    if findings.is_empty() {
        out += "  Nothing to say.\n";
    }
    for finding in findings {
        out += &one(finding, ink);
    }
    out
}

const fn sign(severity: Severity) -> (&'static str, Tone) {
    match severity {
        Severity::Stop => ("■ stop", Tone::Stop),
        Severity::Caution => ("◆ caution", Tone::Caution),
        Severity::Good => ("● good", Tone::Good),
    }
}

fn one(finding: &Finding, ink: Ink) -> String {
    let (sign, tone) = sign(finding.severity);
    let title = wrapped(BODY, &format!("{} [{}]", finding.title, finding.id));
    let (_, title) = title.split_at(BODY.len());
    let mut out = format!("  {} {title}", ink.paint(tone, &left(sign, BODY.len() - 3)));
    if finding.severity == Severity::Good {
        return out;
    }
    out += &wrapped(BODY, &finding.cause);
    if let (Some(measured), Some(limit)) = (finding.measured, finding.limit) {
        let measured = number(measured, finding.unit);
        let limit = number(limit, finding.unit);
        out += &wrapped(BODY, &format!("{measured}, held against {limit}"));
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
    out.push('\n');
    out
}

/// An edit as it will stand in the file.
fn edited(edit: &Edit) -> String {
    match &edit.value {
        Some(value) => format!("{} = {value}", edit.key),
        None => format!("{} taken out", edit.key),
    }
}
