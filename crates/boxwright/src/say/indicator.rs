//! The low-battery light, in a few lines.

use super::layout::{heading, left, wrapped};
use super::plain::plain;
use crate::terminal::Ink;
use studies::Report;
use studies::indicator::{Built, CutOff, Indicator, Kind};
use studies::words::{number, prefixed};

/// Width of the column of names.
const NAME: usize = 10;

/// When it lights, what is left then, and what it is made of.
pub(super) fn indicator(report: &Report, ink: Ink) -> String {
    let Some(indicator) = report.indicator.as_deref() else {
        return String::new();
    };
    let mut out = heading("Low-battery light", ink);
    let mut line = |name: &str, words: &str| {
        out += &wrapped(&format!("  {}", left(name, NAME)), &plain(words));
    };
    if let Some(built) = &indicator.built {
        line("lights", &lights(built));
        line("left", &minutes_left(indicator, built));
        line("made of", &parts(built));
        line("draws", &draws(built));
        if let Some(cut_off) = &built.cut_off {
            line("cut-off", &cut(cut_off));
        }
    }
    for remark in &indicator.remarks {
        line("mind", remark);
    }
    out
}

fn lights(built: &Built) -> String {
    let (falling, rising) = (&built.falling, &built.rising);
    format!(
        "below {:.2} V ({:.2} to {:.2} V in eight builds of ten), out again above {:.2} V ({:.2} to {:.2} V), after {}",
        falling.volts,
        falling.band.p10,
        falling.band.p90,
        rising.volts,
        rising.band.p10,
        rising.band.p90,
        number(built.delay, "s")
    )
}

fn minutes_left(indicator: &Indicator, built: &Built) -> String {
    let minutes = |seconds: f64| format!("{:.0}", seconds / 60.0);
    format!(
        "{} min of music ({} to {} min); less than the {} min wanted in {} builds",
        minutes(built.left),
        minutes(built.left_band.p10),
        minutes(built.left_band.p90),
        minutes(indicator.wanted.warning),
        number(100.0 * built.too_late, "of 100")
    )
}

fn parts(built: &Built) -> String {
    let resistors = built
        .parts
        .iter()
        .filter(|part| part.kind == Kind::Resistor);
    let to_buy = built.parts.iter().filter(|part| part.to_buy).count();
    format!(
        "{}, {}, {} resistors and {} other parts, {to_buy} to buy; the pack draws it",
        built.comparator,
        built.reference,
        resistors.clone().count(),
        built.parts.len() - resistors.count() - 2,
    )
}

fn draws(built: &Built) -> String {
    format!(
        "{} dark, {} lit ({} through the lamp), nothing when switched off",
        prefixed(built.dark, "A"),
        prefixed(built.lit, "A"),
        prefixed(built.lamp, "A")
    )
}

fn cut(cut_off: &CutOff) -> String {
    format!(
        "{} opens below {:.2} V ({:.2} to {:.2} V) and stays open until started anew; it draws {} meanwhile",
        cut_off.switch,
        cut_off.falling.volts,
        cut_off.falling.band.p10,
        cut_off.falling.band.p90,
        prefixed(cut_off.dark, "A")
    )
}
