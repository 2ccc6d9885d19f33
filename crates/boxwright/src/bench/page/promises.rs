//! The promises with band, mark and odds.

use super::sight::Sight;
use super::sign::sign;
use maud::{Markup, html};
use studies::check::Severity;
use studies::report::{Better, Promise};
use studies::{Report, words};

/// Width of the strip that shows band and mark, in units of its own.
const WIDE: f64 = 200.0;
/// Room at its ends.
const PAD: f64 = 8.0;

/// All of them, and whether the box can be built.
pub(super) fn promises(sight: &Sight<'_>) -> Markup {
    let report = &sight.studied.report;
    html! {
        nav #promises aria-label="Promises" {
            @for promise in &report.promises {
                (tile(sight, promise))
            }
            (buildable(sight, report))
        }
    }
}

fn tile(sight: &Sight<'_>, promise: &Promise) -> Markup {
    let id: &'static str = promise.id;
    let here = sight.view.promise == id;
    let held = sight.state.held.as_deref();
    let ghost = held.and_then(|held| held.report.promises.iter().find(|p| p.id == id));
    let state = state(promise, &sight.studied.report);
    html! {
        a.promise id={ "promise-" (id) } href=(sight.view.with_promise(id).address())
            aria-current=[here.then_some("true")] {
            span.name { (promise.title) }
            span.value {
                strong { (words::bare(promise.value, &promise.unit)) } " "
                span.unit { (shown(&promise.unit)) }
            }
            span.about { (promise.about) }
            (scale(promise, ghost, state))
            span.odds.(tone(state)) {
                @if let Some(state) = state { (sign(state)) " " }
                (odds(promise))
            }
            @if let Some(ghost) = ghost {
                span.ghost { "held: " (words::number(ghost.value, &ghost.unit)) ", "
                    (words::change(promise.value - ghost.value, &promise.unit)) }
            }
        }
    }
}

fn buildable(sight: &Sight<'_>, report: &Report) -> Markup {
    let here = sight.view.promise == "buildable";
    let count = |severity| {
        let all = report.findings.iter();
        all.filter(|finding| finding.severity == severity).count()
    };
    let (stops, cautions) = (count(Severity::Stop), count(Severity::Caution));
    let state = match (stops, cautions) {
        (0, 0) => Severity::Good,
        (0, _) => Severity::Caution,
        _ => Severity::Stop,
    };
    let worst = report
        .findings
        .first()
        .filter(|f| f.severity < Severity::Good);
    html! {
        a.promise #promise-buildable href=(sight.view.with_promise("buildable").address())
            aria-current=[here.then_some("true")] {
            span.name { "Buildable" }
            span.value { strong { (stops + cautions) } " " span.unit { "to mend" } }
            span.about { (several(stops, "stop")) " · " (several(cautions, "caution")) }
            span.odds.(tone(Some(state))) {
                (sign(state)) " "
                @match worst { Some(worst) => (worst.title), None => "nothing found wrong" }
            }
        }
    }
}

/// "1 stop", "2 stops".
pub(super) fn several(count: usize, one: &str) -> String {
    match count {
        1 => format!("1 {one}"),
        count => format!("{count} {one}s"),
    }
}

/// A unit as it is shown.
pub(super) fn shown(unit: &str) -> &str {
    match unit {
        "EUR" => "€",
        "USD" => "$",
        "GBP" => "£",
        other => other,
    }
}

fn tone(state: Option<Severity>) -> &'static str {
    match state {
        Some(Severity::Stop) => "stop",
        Some(Severity::Caution) => "caution",
        Some(Severity::Good) => "good",
        None => "plain",
    }
}

/// How a wish stands: missed as designed, kept only on paper, or kept.
fn state(promise: &Promise, report: &Report) -> Option<Severity> {
    promise.target?;
    let check = format!("brief-{}", promise.id);
    let found = report.findings.iter().find(|finding| finding.id == check);
    Some(match found.map(|finding| finding.severity) {
        _ if !promise.kept() => Severity::Stop,
        Some(Severity::Stop | Severity::Caution) => Severity::Caution,
        Some(Severity::Good) | None => Severity::Good,
    })
}

fn odds(promise: &Promise) -> String {
    let Some(target) = promise.target else {
        return "the brief does not ask".to_owned();
    };
    promise
        .odds_sentence()
        .unwrap_or_else(|| format!("brief: {}", words::stated(target, &promise.unit)))
}

/// Band, value, the brief's mark and the ghost on one line; what it shows is said beside it.
fn scale(promise: &Promise, ghost: Option<&Promise>, state: Option<Severity>) -> Markup {
    let values = [
        Some(promise.value),
        promise.p10,
        promise.p90,
        promise.target,
        ghost.map(|ghost| ghost.value),
    ];
    let finite = values
        .into_iter()
        .flatten()
        .filter(|value| value.is_finite());
    let (low, high) = finite.fold((f64::MAX, f64::MIN), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    if low > high {
        return html! {};
    }
    let about = ((high - low) / 2.0).max(0.12 * high.abs()).max(1e-9);
    let (from, to) = (low - 0.25 * about, high + 0.25 * about);
    let at = |value: f64| {
        let share = ((value - from) / (to - from)).clamp(0.0, 1.0);
        format!("{:.1}", PAD + share * (WIDE - 2.0 * PAD))
    };
    let kept_from_left = promise.better == Better::Lower;
    html! {
        svg.scale viewBox="0 0 200 22" aria-hidden="true" focusable="false" {
            @if let Some(target) = promise.target {
                // Where the wish is kept.
                @if kept_from_left {
                    path.kept d={ "M" (PAD) " 14H" (at(target)) } {}
                } @else {
                    path.kept d={ "M" (at(target)) " 14H" (WIDE - PAD) } {}
                }
            }
            path.axis d={ "M" (PAD) " 14H" (WIDE - PAD) } {}
            @if let (Some(low), Some(high)) = (promise.p10, promise.p90) {
                path.band.(tone(state)) d={ "M" (at(low)) " 9H" (at(high)) "V19H" (at(low)) "Z" } {}
            }
            @if let Some(ghost) = ghost {
                path.held d={ "M" (at(ghost.value)) " 6V22" } {}
            }
            path.now d={ "M" (at(promise.value)) " 6V22" } {}
            @if let Some(target) = promise.target {
                path.mark d={ "M" (at(target)) " 7l-5 -7h10z" } {}
            }
        }
    }
}
