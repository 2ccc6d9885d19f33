//! Why there is no answer.

use super::layout::wrapped;
use super::plain::{plain, plain_source};
use crate::failure::{Failure, Named, Project};
use crate::terminal::{Ink, Tone, WIDTH, complaints_are_watched};
use miette::{GraphicalReportHandler, GraphicalTheme, LabeledSpan, NamedSource, SourceCode};
use std::fmt;

/// A failure in words.
pub(crate) fn failure(failure: &Failure, ink: Ink) -> String {
    match failure {
        Failure::Texts(project, found) => texts(project, found, ink),
        Failure::Plain { message, mend } => {
            let mut out = wrapped("boxwright: ", message).replacen(
                "boxwright:",
                &ink.paint(Tone::Stop, "boxwright:"),
                1,
            );
            if let Some(mend) = mend {
                out += &wrapped("     mend: ", mend);
            }
            out
        }
    }
}

fn texts(project: &Project, found: &[design::Diagnostic], ink: Ink) -> String {
    let mut out = String::new();
    for diagnostic in found {
        let file = project.file(diagnostic.place.file);
        let handler = GraphicalReportHandler::new_themed(theme(ink))
            .with_links(false)
            .with_width(WIDTH)
            .with_footer(format!("mend: {}", plain(&diagnostic.mend)));
        let located = Located::new(diagnostic, file);
        // Writing into a String does not fail.
        handler.render_report(&mut out, &located).ok();
        out.push('\n');
    }
    let count = match found.len() {
        1 => "One thing is wrong.".to_owned(),
        count => format!("{count} things are wrong."),
    };
    out + &count + "\n"
}

fn theme(ink: Ink) -> GraphicalTheme {
    match (complaints_are_watched(), ink.colour) {
        (_, true) => GraphicalTheme::unicode(),
        (true, false) => GraphicalTheme::unicode_nocolor(),
        (false, false) => GraphicalTheme::none(),
    }
}

/// A diagnostic with the text it points into.
#[derive(Debug)]
struct Located<'a> {
    diagnostic: &'a design::Diagnostic,
    source: NamedSource<String>,
    label: LabeledSpan,
}

impl<'a> Located<'a> {
    fn new(diagnostic: &'a design::Diagnostic, file: Named) -> Self {
        let place = diagnostic.place;
        let span = (place.start, place.end.saturating_sub(place.start));
        let label = LabeledSpan::new_primary_with_span(Some(plain(&diagnostic.label)), span);
        Self {
            diagnostic,
            source: NamedSource::new(plain(&file.name), plain_source(&file.text)),
            label,
        }
    }
}

impl fmt::Display for Located<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&plain(&self.diagnostic.message))
    }
}

impl std::error::Error for Located<'_> {}

impl miette::Diagnostic for Located<'_> {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        Some(Box::new(self.diagnostic.code))
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(&self.source)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        Some(Box::new(std::iter::once(self.label.clone())))
    }
}
