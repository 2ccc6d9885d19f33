//! Why something was not done.

use crate::failure::{Failure, Project};
use serde::Serialize;

/// Why something was not done, in words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(crate) struct Refusal {
    pub(crate) message: String,
    pub(crate) advice: Option<String>,
}

impl Refusal {
    pub(crate) fn new(message: impl Into<String>, advice: impl Into<String>) -> Self {
        Self {
            message: message.into(),
            advice: Some(advice.into()),
        }
    }
}

impl From<Failure> for Refusal {
    fn from(failure: Failure) -> Self {
        match failure {
            Failure::Plain { message, mend } => Self {
                message,
                advice: mend,
            },
            Failure::Texts(_, found) => {
                let first = found.into_iter().next();
                first.map_or_else(
                    || Self::new("the text cannot be read", "look at the file"),
                    |first| Self::new(first.message, first.mend),
                )
            }
        }
    }
}

/// One thing that is wrong with a text, for the page.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(crate) struct Problem {
    pub(crate) place: String,
    pub(crate) message: String,
    pub(crate) advice: String,
}

/// What is wrong with the texts of a project, with line numbers.
pub(crate) fn problems(project: &Project, found: &[design::Diagnostic]) -> Vec<Problem> {
    let problem = |diagnostic: &design::Diagnostic| {
        let file = project.file(diagnostic.place.file);
        let before = &file.text[..file.text.floor_char_boundary(diagnostic.place.start)];
        let line = 1 + before.matches('\n').count();
        let place = match diagnostic.place.file {
            design::FileId::Design => format!("line {line}"),
            design::FileId::Shelf | design::FileId::BuiltIn => {
                format!("{}, line {line}", file.name)
            }
        };
        Problem {
            place,
            message: diagnostic.message.clone(),
            advice: diagnostic.mend.clone(),
        }
    };
    found.iter().map(problem).collect()
}
