//! Promises as a table.

use super::layout::{heading, left, right, wrapped};
use crate::terminal::{Ink, Tone};
use studies::Report;
use studies::check::{Finding, Severity};
use studies::report::{Better, Promise};
use studies::words::{bare, number};

/// Width of the column of titles.
pub(super) const TITLE: usize = 8;
const VALUE: usize = 12;
const BAND: usize = 22;
const MARK: usize = 20;

/// The promises, each with value, band, mark and odds.
pub(super) fn promises(report: &Report, ink: Ink) -> String {
    let head = format!(
        "  {}{}   {}{}",
        left("", TITLE),
        right("this build", VALUE),
        left("8 of 10 builds", BAND),
        "brief",
    );
    let mut out = heading("Promises", ink);
    out += &format!("{}\n", ink.paint(Tone::Faint, &head));
    for promise in &report.promises {
        out += &row(promise, &verdict(promise, &report.findings, ink));
        if let Some(sentence) = promise.odds_sentence() {
            out += &wrapped(&format!("  {}", left("", TITLE)), &sentence);
        }
        let about = wrapped(&format!("  {}", left("", TITLE)), &promise.about);
        out += &ink.paint(Tone::Faint, about.trim_end());
        out.push('\n');
    }
    out
}

fn row(promise: &Promise, verdict: &str) -> String {
    let title = left(promise.title, TITLE);
    let value = right(&number(promise.value, &promise.unit), VALUE);
    let band = match (promise.p10, promise.p90) {
        (Some(low), Some(high)) => format!(
            "{} to {}",
            bare(low, &promise.unit),
            number(high, &promise.unit)
        ),
        _ => "—".into(),
    };
    let line = format!(
        "  {title}{value}   {}{}",
        left(&band, BAND),
        left(&mark(promise), MARK)
    );
    format!("{}\n", format!("{line}{verdict}").trim_end())
}

fn mark(promise: &Promise) -> String {
    promise.target.map_or_else(String::new, |target| {
        let side = match promise.better {
            Better::Lower => "at most",
            Better::Higher => "at least",
        };
        format!("{side} {}", number(target, &promise.unit))
    })
}

/// Whether the mark is kept, as the check of this wish sees it: kept on paper
/// is not yet kept.
fn verdict(promise: &Promise, findings: &[Finding], ink: Ink) -> String {
    let of_wish = |finding: &&Finding| finding.id.strip_prefix("brief-") == Some(promise.id);
    let severity = findings
        .iter()
        .find(of_wish)
        .map(|finding| finding.severity);
    match (promise.target, promise.kept(), severity) {
        (None, ..) => String::new(),
        (Some(_), false, _) => ink.paint(Tone::Stop, "■ missed"),
        (Some(_), true, Some(Severity::Stop | Severity::Caution)) => {
            ink.paint(Tone::Caution, "◆ in doubt")
        }
        (Some(_), true, _) => ink.paint(Tone::Good, "● kept"),
    }
}
