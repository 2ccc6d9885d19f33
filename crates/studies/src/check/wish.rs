//! A wish of the brief against its promise.

use super::{Evidence, Severity, Verdict};
use crate::report::{Better, Promise};
use crate::words::number;

/// What is said about one wish, in the words of that wish.
pub(super) struct Wish {
    /// The promise.
    pub(super) promise: &'static str,
    /// Title when the wish is kept.
    pub(super) kept: &'static str,
    /// Title when it is not, or not surely.
    pub(super) missed: &'static str,
    /// What the box does, before the value: "plays down to".
    pub(super) does: &'static str,
    /// How far beyond the mark is much: a ratio, or a difference in dB.
    pub(super) much: f64,
}

/// Odds below which a build that keeps the wish is a stroke of luck.
const LUCK: f64 = 0.01;

/// The verdict on a wish, without mends; `None` where nothing was asked.
///
/// Kept when eight builds of ten keep it. A doubtful design is not forbidden:
/// a stop is said only when the wish is missed by much and next to no build keeps it.
pub(super) fn verdict(evidence: &Evidence<'_>, wish: &Wish) -> Option<Verdict> {
    let promise = evidence.promise(wish.promise)?;
    let target = promise.target?;
    let severity = severity(evidence, wish, promise, target);
    let title = match severity {
        Severity::Good => wish.kept.to_owned(),
        _ if promise.kept() => format!("{}: kept on paper, but not surely", promise.title),
        _ => wish.missed.to_owned(),
    };
    let value = number(promise.value, &promise.unit);
    let mark = number(target, &promise.unit);
    let mut cause = if value == mark && !promise.kept() {
        format!(
            "The box {} {value}, a hair on the wrong side of the {mark} asked for.",
            wish.does
        )
    } else {
        format!("The box {} {value}; the brief asks for {mark}.", wish.does)
    };
    if let Some(odds) = promise.odds_sentence() {
        cause += &format!(" {}{}.", odds[..1].to_uppercase(), &odds[1..]);
    }
    let mut verdict = Verdict::new(severity, title, cause);
    if let Some(unit) = fixed(&promise.unit) {
        verdict = verdict.measured(promise.value, target, unit);
    }
    Some(verdict)
}

fn severity(evidence: &Evidence<'_>, wish: &Wish, promise: &Promise, target: f64) -> Severity {
    let odds = promise
        .odds
        .unwrap_or(if promise.kept() { 1.0 } else { 0.0 });
    if odds >= evidence.good_odds() {
        return Severity::Good;
    }
    if odds < LUCK && beyond(promise, target) > wish.much {
        return Severity::Stop;
    }
    Severity::Caution
}

/// How far the value is on the wrong side of the mark: a ratio, or for levels dB.
fn beyond(promise: &Promise, target: f64) -> f64 {
    let (worse, better) = match promise.better {
        Better::Lower => (promise.value, target),
        Better::Higher => (target, promise.value),
    };
    if promise.id == "loud" {
        worse - better
    } else {
        worse / better
    }
}

/// The unit of a promise as one of the fixed words that findings carry; the
/// numbers of rarer currencies stand in the cause alone.
fn fixed(unit: &str) -> Option<&'static str> {
    const UNITS: [&str; 8] = ["Hz", "dB", "dB(A)", "h", "kg", "EUR", "USD", "GBP"];
    UNITS.into_iter().find(|known| *known == unit)
}
