//! What moves the promise in hand.

use super::curve::bar;
use super::sight::Sight;
use maud::{Markup, html};

/// Levers, and the spreads behind the band.
pub(super) fn levers(sight: &Sight<'_>) -> Markup {
    let movers = &sight.studied.report.movers;
    let own: Vec<_> = movers
        .iter()
        .filter(|mover| mover.promise == sight.view.promise)
        .collect();
    html! {
        section #levers aria-labelledby="levers-title" {
            h2 #levers-title { "What moves it" }
            @if !own.is_empty() {
                h3 { "What spreads it from build to build" }
                table.bars {
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
    }
}
