//! A whole report.

use super::layout::{heading, wrapped};
use super::plain::plain;
use super::{
    figures, findings, finish, indicator, money, order, promises, signal, warmth, wiring, wood,
};
use crate::failure::Project;
use crate::terminal::{Ink, Tone};
use studies::Report;
use studies::check::{Finding, Severity};

/// A report as the answer of `check`.
pub(crate) fn check(project: &Project, report: &Report, all_figures: bool, ink: Ink) -> String {
    let mut out = head(report, ink);
    out += &promises::promises(report, ink);
    out += &findings::findings(project, &report.findings, ink);
    out += &wiring::wiring(report, ink);
    out += &signal::signal(report, ink);
    out += &indicator::indicator(report, ink);
    out += &warmth::warmth(report, ink);
    out += &wood::wood(report, ink);
    out += &money::money(&report.money, ink);
    out += &finish::finish(report, ink);
    out += &order::order(report, ink);
    out += &movers(report, ink);
    if let Some(versus) = report.versus.as_ref().filter(|_| !told_as_finding(report)) {
        out += &heading("Sealed or vented", ink);
        out += &wrapped("  ", &versus.sentence);
    }
    if all_figures {
        out += &figures::figures(&report.figures, ink);
        out += &figures::assumptions(&report.assumptions, ink);
    }
    out
}

/// Whether a finding has already said what venting wins and risks.
fn told_as_finding(report: &Report) -> bool {
    let told =
        |finding: &Finding| finding.id == "sealed-or-vented" && finding.severity != Severity::Good;
    report.findings.iter().any(told)
}

fn head(report: &Report, ink: Ink) -> String {
    let revision = report
        .revision
        .map_or_else(String::new, |revision| format!(", revision {revision}"));
    let name = ink.paint(Tone::Strong, &plain(&report.name));
    let builds = match report.builds {
        0 => "nominal build only, no bands or odds".to_owned(),
        builds => format!("{builds} builds drawn within the tolerances"),
    };
    format!("{name}{revision}\n{}\n", ink.paint(Tone::Faint, &builds))
}

/// Causes named for each promise.
const CAUSES: usize = 3;

/// What drives the spread of each promise, and what to measure first.
fn movers(report: &Report, ink: Ink) -> String {
    let mut out = String::new();
    for promise in &report.promises {
        let causes: Vec<String> = report
            .movers
            .iter()
            .filter(|mover| mover.promise == promise.id)
            .take(CAUSES)
            .map(|mover| format!("{} {:.0} %", mover.cause, 100.0 * mover.share))
            .collect();
        if !causes.is_empty() {
            let title = super::layout::left(promise.title, promises::TITLE);
            out += &wrapped(&format!("  {title}"), &causes.join(", "));
        }
    }
    if let Some(measurement) = &report.measurement {
        out += &wrapped("  Measure first: ", &narrowing(measurement));
    }
    if out.is_empty() {
        return out;
    }
    heading("What the spread comes from", ink) + &out
}

fn narrowing(measurement: &studies::report::Measurement) -> String {
    let number = studies::words::number;
    let wide = |(low, high): (f64, f64), unit| number(high - low, unit);
    format!(
        "{} ({} on the shelf). Eight builds of ten would then spread over {} instead of {} for how low it plays, and over {} instead of {} for how loud.",
        measurement.what,
        measurement.key,
        number(measurement.low_width_then, "Hz"),
        wide(measurement.low_now, "Hz"),
        number(measurement.loud_width_then, "dB"),
        wide(measurement.loud_now, "dB"),
    )
}
