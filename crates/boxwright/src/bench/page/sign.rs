//! How bad it is, by a shape as well as a colour.

use maud::{Markup, html};
use studies::check::Severity;

/// Disc, diamond or square, as on the sheets.
pub(super) fn sign(severity: Severity) -> Markup {
    let (name, path) = match severity {
        Severity::Good => ("good", "M5 1a4 4 0 1 0 .01 0z"),
        Severity::Caution => ("caution", "M5 0l5 5l-5 5l-5 -5z"),
        Severity::Stop => ("stop", "M1 1h8v8h-8z"),
    };
    html! {
        svg.sign.(name) viewBox="0 0 10 10" role="img" aria-label=(name) focusable="false" {
            path d=(path) {}
        }
    }
}
