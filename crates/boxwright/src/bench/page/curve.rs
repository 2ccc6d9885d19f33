//! The curve of the promise in hand.

use super::plot::Plot;
use super::promises::several;
use super::sight::Sight;
use drawings::chart::{Chart, Mark, Series, SeriesStyle};
use drawings::pack::{chart_of, discharge_of};
use maud::{Markup, html};
use studies::report::Curve;
use studies::{Report, words};

/// Size of the chart at the side, mm.
const SIZE: (f64, f64) = (78.0, 62.0);

/// What shows the promise in hand best: a curve, or what it adds up from.
pub(super) fn in_hand(sight: &Sight<'_>) -> Markup {
    let report = &sight.studied.report;
    let shown = match sight.view.promise {
        "low" => chart(sight, "response"),
        "loud" => chart(sight, "max-level"),
        "long" => Some(discharge(sight)),
        _ => None,
    };
    html! {
        section #curve aria-label="The promise in hand" {
            @match (shown, sight.view.promise) {
                (Some(chart), _) => (Plot { id: "in-hand", chart: &chart, size: SIZE }.draw()),
                (None, "light") => (bars("What weighs", &weights(report))),
                (None, "cost") => (bars("What costs", &costs(report))),
                (None, _) => (built(report)),
            }
            (hold(sight))
        }
    }
}

/// Keeps the present state as a ghost, or lets it go.
fn hold(sight: &Sight<'_>) -> Markup {
    html! {
        div.tools {
            @if sight.state.held.is_some() {
                button #release type="button" data-do="release" { "let the held state go" }
                span.quiet { "Dash and dot: the state held to compare with." }
            } @else {
                button #hold type="button" data-do="hold" { "hold this to compare" }
            }
        }
    }
}

/// The curve of a name as a chart, with the ghost behind it.
pub(super) fn chart(sight: &Sight<'_>, id: &str) -> Option<Chart> {
    let find = |report: &'_ Report| -> Option<Curve> {
        report.curves.iter().find(|curve| curve.id == id).cloned()
    };
    let report = &sight.studied.report;
    let mut chart = chart_of(&find(report)?);
    if id == "response"
        && let Some(low) = report.promises.iter().find(|promise| promise.id == "low")
    {
        if let Some(target) = low.target {
            let name = format!("brief: {}", words::stated(target, &low.unit));
            chart.marks.push(Mark::AtX(target, name));
        }
        let name = format!("−6 dB: {}", words::number(low.value, &low.unit));
        chart.marks.push(Mark::AtX(low.value, name));
    }
    if let Some(held) = &sight.state.held
        && let Some(curve) = find(&held.report)
    {
        chart.series.push(ghost(chart_of(&curve)));
    }
    Some(chart)
}

/// The discharge, with the ghost behind it.
pub(super) fn discharge(sight: &Sight<'_>) -> Chart {
    let mut chart = discharge_of(&sight.studied.project, &sight.studied.report);
    if let Some(held) = &sight.state.held {
        chart
            .series
            .push(ghost(discharge_of(&held.project, &held.report)));
    }
    chart
}

fn ghost(chart: Chart) -> Series {
    let points = chart.series.into_iter().next().map(|series| series.points);
    Series {
        name: "held".to_owned(),
        points: points.unwrap_or_default(),
        band: None,
        style: SeriesStyle::Reference,
    }
}

/// A line of bars: what, said, and how much.
type Bar = (String, String, f64);

fn weights(report: &Report) -> Vec<Bar> {
    let lines = report.accounts.weight.iter();
    let lines = lines.map(|line| {
        let guessed = if line.known { "" } else { " (guessed)" };
        let name = format!("{}{guessed}", line.label);
        (name, words::number(line.kilograms, "kg"), line.kilograms)
    });
    heaviest(lines.collect())
}

fn costs(report: &Report) -> Vec<Bar> {
    let money = &report.money;
    let lines = money.lines.iter().filter_map(|line| {
        let till = line.till().filter(|till| *till > 0.0)?;
        let name = format!("{} {}", line.label, line.about);
        Some((
            name.trim().to_owned(),
            words::number(till, &money.currency),
            till,
        ))
    });
    heaviest(lines.collect())
}

/// Bars shown one by one.
const SHOWN: usize = 12;

fn heaviest(mut bars: Vec<Bar>) -> Vec<Bar> {
    bars.sort_by(|a, b| b.2.total_cmp(&a.2));
    bars.truncate(SHOWN);
    bars
}

/// Bars with a heading.
fn bars(title: &str, bars: &[Bar]) -> Markup {
    let most = bars.iter().map(|bar| bar.2).fold(0.0, f64::max);
    html! {
        h2 { (title) }
        table.bars {
            @for (name, said, amount) in bars {
                tr {
                    th scope="row" { (name) }
                    td.number { (said) }
                    td.bar { (bar(if most > 0.0 { amount / most } else { 0.0 })) }
                }
            }
        }
    }
}

/// A bar of a share of the greatest.
pub(super) fn bar(share: f64) -> Markup {
    let width = format!("{:.1}", 100.0 * share.clamp(0.0, 1.0));
    html! {
        svg.bar viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true" focusable="false" {
            rect x="0" y="1" width=(width) height="6" {}
        }
    }
}

fn built(report: &Report) -> Markup {
    let order = &report.order;
    let hours = order.total.hands.usual / 3600.0;
    html! {
        h2 { "Building it" }
        p { (several(order.steps.len(), "step")) ", " (several(order.holds.len(), "test")) ", about "
            (words::stated(hours.round(), "h")) " with hands on it." }
    }
}
