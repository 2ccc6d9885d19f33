//! What moves the promise in hand: levers to pull, and what spreads it.

use super::curve::bar;
use super::sight::Sight;
use maud::{Markup, html};
use studies::levers::Lever;
use studies::report::Promise;
use studies::words;

/// Levers, the strongest first, and the causes behind the band.
pub(super) fn levers(sight: &Sight<'_>) -> Markup {
    let report = &sight.studied.report;
    let promise = report
        .promises
        .iter()
        .find(|promise| promise.id == sight.view.promise);
    let mut levers: Vec<&Lever> = report.levers.iter().collect();
    // A step that was tried may be smaller than the others: each is counted as a whole one.
    let moves = |lever: &Lever| {
        let change = promise.and_then(|p| lever.moves(p.id));
        let whole = lever.does.as_ref().map(|does| lever.step / does.step);
        change.zip(whole).map_or(0.0, |(c, w)| (c * w).abs())
    };
    levers.sort_by(|a, b| moves(b).total_cmp(&moves(a)));
    let ranked = levers.iter().any(|lever| lever.does.is_some());
    let most = levers.first().map_or(0.0, |lever| moves(lever));
    html! {
        section #levers aria-labelledby="levers-title" data-ranked=(ranked) data-promise=(sight.view.promise) {
            h2 #levers-title { "What moves it "
                @if let Some(promise) = promise { small { "· " (promise.title.to_lowercase()) } } }
            @for lever in levers { (one(lever, promise, moves(lever), most)) }
            (spreads(sight))
        }
    }
}

fn one(lever: &Lever, promise: Option<&Promise>, moves: f64, most: f64) -> Markup {
    let id = format!("lever-{}", lever.label.replace(' ', "-"));
    html! {
        div.lever id=(id) {
            div.line {
                label for={ (id) "-range" } { (lever.label) }
                output id={ (id) "-value" } for={ (id) "-range" } { (said(lever, lever.value)) }
            }
            input type="range" id={ (id) "-range" } data-unit=(lever.unit) data-label=(lever.label)
                min=(lever.within.0) max=(lever.within.1) step=(lever.fine) value=(lever.value)
                data-key=(lever.key) data-template=(lever.template) data-fraction[lever.fraction]
                data-output={ (id) "-value" };
            @if let (Some(promise), Some(does)) = (promise, &lever.does) {
                @let change = lever.moves(promise.id).unwrap_or_default();
                div.does {
                    span { (step(lever, does.step)) ": " (words::change(change, &promise.unit)) }
                    (bar(if most > 0.0 { moves / most } else { 0.0 }))
                }
            }
        }
    }
}

fn step(lever: &Lever, step: f64) -> String {
    let sign = if step < 0.0 { "−" } else { "+" };
    format!("{sign}{}", said(lever, step.abs()))
}

fn said(lever: &Lever, value: f64) -> String {
    format!("{} {}", lever.number(value), lever.unit)
        .trim_end()
        .to_owned()
}

/// The causes of the promise's spread.
fn spreads(sight: &Sight<'_>) -> Markup {
    let movers = &sight.studied.report.movers;
    let own: Vec<_> = movers
        .iter()
        .filter(|mover| mover.promise == sight.view.promise)
        .collect();
    if own.is_empty() {
        return html! {};
    }
    html! {
        h3 #spreads-title { "What spreads it from build to build" }
        table.bars aria-labelledby="spreads-title" {
            @for mover in own {
                tr {
                    th scope="row" { (mover.cause) }
                    td.number { (format!("{:.0} %", 100.0 * mover.share)) }
                    td.bar { (bar(mover.share)) }
                }
            }
        }
    }
}
