//! The build order as one file of its own, to be sent to a phone: it asks nothing of any
//! network, and remembers what is checked off where it is.

use super::build;
use super::sheets;
use super::sight::Sight;
use super::view::{SheetOf, View};
use crate::bench::state::State;
use drawings::Date;
use maud::{DOCTYPE, Markup, PreEscaped, html};

const STYLE: &str = include_str!("../asset/bench.css");
const SCRIPT: &str = include_str!("../asset/handout.js");

/// Nothing is loaded, and no script runs but the one in the file, of which this is the
/// SHA-256 in base64.
const POLICY: &str = "default-src 'none'; img-src data:; style-src 'unsafe-inline'; \
    script-src 'sha256-UATGToMMEsZhXL0727pGzbH0fY0IQhtd/tqoIjd2LK8='; form-action 'none'; \
    base-uri 'none'";

/// The file; none until a text could be studied.
pub(crate) fn handout(state: &State, date: Option<Date>) -> Option<Markup> {
    let view = View::default().with_sheet(SheetOf::Build);
    let studied = state.studied.as_deref()?;
    let sight = Sight::new(state, &view, studied);
    let report = &studied.report;
    Some(html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(POLICY);
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (report.name) " · build" }
                style { (PreEscaped(STYLE)) }
            }
            body.handout {
                header #head {
                    div.name {
                        h1 { (report.name) }
                        p.quiet {
                            "build order"
                            @if let Some(revision) = report.revision { " · revision " (revision) }
                            @if let Some(date) = date { " · saved " (date) }
                        }
                    }
                }
                main #main {
                    p.warn #forgets hidden { "This viewer forgets what is checked off when it is closed: \
                        open the file in a browser." }
                    (build::steps(&sight))
                    (sheets::build_leaves(&sight))
                }
                script { (PreEscaped(SCRIPT)) }
            }
        }
    })
}
