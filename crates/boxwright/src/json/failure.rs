//! Failures in JSON.

use super::{FORMAT, layout};
use crate::failure::{Failure, Project};
use serde::Serialize;

#[derive(Serialize)]
struct Failed<'a> {
    format: u32,
    errors: Vec<Trouble<'a>>,
}

/// One thing that is wrong; what concerns no text has no place.
#[derive(Serialize)]
struct Trouble<'a> {
    code: Option<&'a str>,
    message: &'a str,
    label: Option<&'a str>,
    mend: Option<&'a str>,
    file: Option<String>,
    /// Counted from 1.
    line: Option<usize>,
    /// In characters, counted from 1.
    column: Option<usize>,
    /// First byte of the offending text.
    start: Option<usize>,
    /// One past its last byte.
    end: Option<usize>,
}

/// A failure as the answer of any command.
pub(crate) fn failure(failure: &Failure) -> String {
    let errors = match failure {
        Failure::Texts(project, found) => found.iter().map(|d| located(project, d)).collect(),
        Failure::Plain { message, mend } => vec![Trouble {
            code: None,
            message,
            label: None,
            mend: mend.as_deref(),
            file: None,
            line: None,
            column: None,
            start: None,
            end: None,
        }],
    };
    layout::text(&Failed {
        format: FORMAT,
        errors,
    })
}

fn located<'a>(project: &Project, diagnostic: &'a design::Diagnostic) -> Trouble<'a> {
    let file = project.file(diagnostic.place.file);
    let before = &file.text[..file.text.floor_char_boundary(diagnostic.place.start)];
    let line_start = before.rfind('\n').map_or(0, |at| at + 1);
    Trouble {
        code: Some(diagnostic.code),
        message: &diagnostic.message,
        label: Some(&diagnostic.label),
        mend: Some(&diagnostic.mend),
        line: Some(1 + before.matches('\n').count()),
        column: Some(1 + before[line_start..].chars().count()),
        start: Some(diagnostic.place.start),
        end: Some(diagnostic.place.end),
        file: Some(file.name),
    }
}
