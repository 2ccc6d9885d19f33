//! The signal's way, in a few lines.

use super::layout::{heading, left, wrapped};
use super::plain::plain;
use crate::terminal::Ink;
use studies::Report;
use studies::signal::{Coupled, Filtered, SourcePath};
use studies::words::{number, prefixed};

/// Width of the column of names.
const NAME: usize = 10;

/// Each source on its way, and what capacitors and filter do.
pub(super) fn signal(report: &Report, ink: Ink) -> String {
    let signal = &report.signal;
    let mut out = heading("Signal", ink);
    let mut line = |name: &str, words: &str| {
        out += &wrapped(&format!("  {}", left(name, NAME)), &plain(words));
    };
    for path in &signal.sources {
        line("source", &source(path));
    }
    for one in &signal.coupled {
        line("capacitor", &coupled(one));
    }
    if let Some(found) = &signal.filter {
        line("filter", &filter(found));
    }
    out
}

fn source(path: &SourcePath) -> String {
    let turn = |words: &str, turn: Option<f64>| {
        turn.map(|turn| format!("{words} {:.0} % of the turn", 100.0 * turn))
    };
    let each = [
        Some(format!(
            "{}: {}{}, {} lost fully up",
            path.name,
            prefixed(path.stages.first().map_or(0.0, |stage| stage.full), "V"),
            if path.level_known { "" } else { " (a guess)" },
            number(path.loss, "dB")
        )),
        turn("the brief plays at", path.brief_turn),
        turn("clips from", path.clip_turn),
    ];
    let words: Vec<String> = each.into_iter().flatten().collect();
    words.join("; ")
}

fn coupled(one: &Coupled) -> String {
    format!(
        "{} {}: takes {} at {}",
        prefixed(one.capacitance, "F"),
        one.name,
        number(one.loss.max(0.0), "dB"),
        number(one.lowest, "Hz")
    )
}

fn filter(found: &Filtered) -> String {
    let (peak, place) = found.peak;
    let damped = match (&found.damped, found.damped_now) {
        (_, true) => ", damped as designed".to_owned(),
        (Some(damped), _) => format!(
            "; {} and {} across each output hold it to {}",
            prefixed(damped.resistance, "Ω"),
            prefixed(damped.capacitance, "F"),
            number(damped.peak, "dB")
        ),
        (None, false) => String::new(),
    };
    format!(
        "{} at 20 kHz at most, peak {} at {}{damped}",
        number(found.audible.max(0.0), "dB"),
        number(peak, "dB"),
        prefixed(place, "Hz")
    )
}
