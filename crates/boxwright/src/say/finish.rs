//! The finish, in a few lines.

use super::layout::{heading, left, wrapped};
use super::plain::plain;
use crate::terminal::Ink;
use studies::Report;
use studies::finish::{Cans, Finish, Layer};

/// Width of the column of names.
const NAME: usize = 10;

const DAY: f64 = 86_400.0;

/// What goes on, how much of it and until when.
pub(super) fn finish(report: &Report, ink: Ink) -> String {
    let finish = &report.finish;
    let mut out = heading("Finish", ink);
    if let Some(raw) = finish.raw {
        return out + &wrapped("  ", raw);
    }
    let layers: Vec<String> = finish.layers.iter().map(layer).collect();
    let cans: Vec<String> = finish.cans.iter().map(can).collect();
    for (name, words) in [
        ("layers", layers.join(", then ")),
        ("cans", cans.join("; ")),
        ("days", days(finish)),
    ] {
        out += &wrapped(&format!("  {}", left(name, NAME)), &plain(&words));
    }
    out
}

fn layer(layer: &Layer) -> String {
    let coats = match layer.coats {
        1 => String::new(),
        coats => format!("{coats} × "),
    };
    format!("{coats}{}", layer.name)
}

fn can(cans: &Cans) -> String {
    format!(
        "{} of {} ({:.2} to {:.2} L), {} to buy",
        cans.wanted,
        cans.name,
        1e3 * cans.band.0,
        1e3 * cans.band.1,
        cans.to_buy
    )
}

fn days(finish: &Finish) -> String {
    let on = |at: Option<f64>| at.map_or(0.0, |at| (at / DAY).floor() + 1.0);
    let area: f64 = finish.faces.iter().map(|face| face.area).sum();
    format!(
        "fitted out from day {:.0}, cured on day {:.0}, {:.1} h of work on {:.2} m²",
        on(finish.handled()),
        on(finish.cured()),
        finish.hands_on() / 3600.0,
        area
    )
}
