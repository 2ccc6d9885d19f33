//! Promises as a table.

use super::check::heading;
use super::layout::{left, right, wrapped};
use crate::terminal::{Ink, Tone};
use studies::report::{Better, Promise};
use studies::words::{bare, number};

/// Width of the column of titles.
pub(super) const TITLE: usize = 8;
const VALUE: usize = 12;
const BAND: usize = 22;
const MARK: usize = 20;

/// The promises, each with value, band, mark and odds.
pub(super) fn promises(promises: &[Promise], ink: Ink) -> String {
    let head = format!(
        "  {}{}   {}{}",
        left("", TITLE),
        right("this build", VALUE),
        left("8 of 10 builds", BAND),
        "brief",
    );
    let mut out = heading("Promises", ink);
    out += &format!("{}\n", ink.paint(Tone::Faint, &head));
    for promise in promises {
        out += &row(promise, ink);
        if let Some(sentence) = promise.odds_sentence() {
            out += &wrapped(&format!("  {}", left("", TITLE)), &sentence);
        }
        let about = wrapped(&format!("  {}", left("", TITLE)), &promise.about);
        out += &ink.paint(Tone::Faint, about.trim_end());
        out.push('\n');
    }
    out
}

fn row(promise: &Promise, ink: Ink) -> String {
    let title = ink.paint(Tone::Strong, &left(promise.title, TITLE));
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
    format!("{}{}\n", line, verdict(promise, ink)).replace(" \n", "\n")
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

fn verdict(promise: &Promise, ink: Ink) -> String {
    match promise.target {
        None => String::new(),
        Some(_) if promise.kept() => ink.paint(Tone::Good, "● kept"),
        Some(_) => ink.paint(Tone::Stop, "■ missed"),
    }
}
