//! A text as TOML, read past its broken lines so that all of them are found.

use crate::diagnostic::Log;
use crate::fault::Fault;
use crate::{FileId, Place};
use std::ops::Range;
use toml_edit::{Document, TomlError};

/// A text with what could be read of it.
pub(crate) struct Source<'t> {
    pub(crate) file: FileId,
    pub(crate) text: &'t str,
    pub(crate) document: Document<String>,
    /// Lines were left out: what seems missing may stand in one of them.
    pub(crate) broken: bool,
    /// A table header was left out: keys may seem to stand in another table.
    pub(crate) misplaced: bool,
}

/// Broken lines looked for in one text.
const MOST_BROKEN_LINES: usize = 12;

impl<'t> Source<'t> {
    /// Reads a text; broken lines are reported and then passed over.
    pub(crate) fn read(file: FileId, text: &'t str, log: &mut Log) -> Self {
        let mut readable = text.to_owned();
        let mut broken = false;
        let mut misplaced = false;
        for _ in 0..MOST_BROKEN_LINES {
            let error = match Document::parse(readable.clone()) {
                Ok(document) => {
                    return Self {
                        file,
                        text,
                        document,
                        broken,
                        misplaced,
                    };
                }
                Err(error) => error,
            };
            broken = true;
            let at = within(text, error.span().unwrap_or(0..0));
            let line = line_around(text, at.start);
            log.add(&fault(&error, text, &at, &line), place(file, text, at));
            if readable[line.clone()].trim().is_empty() {
                break;
            }
            misplaced |= text[line.clone()].trim_start().starts_with('[');
            readable.replace_range(line.clone(), &" ".repeat(line.len()));
        }
        Self {
            file,
            text,
            document: Document::parse(String::new()).expect("an empty text is a document"),
            broken: true,
            misplaced: true,
        }
    }
}

/// A place for a stretch of a text: inside it, on whole characters.
pub(crate) fn place(file: FileId, text: &str, range: Range<usize>) -> Place {
    let range = within(text, range);
    Place {
        file,
        start: range.start,
        end: range.end,
    }
}

fn within(text: &str, range: Range<usize>) -> Range<usize> {
    let start = text.floor_char_boundary(range.start.min(text.len()));
    let end = text.ceil_char_boundary(range.end.clamp(start, text.len()));
    start..end
}

/// The line a byte stands on, without its line end.
pub(crate) fn line_around(text: &str, at: usize) -> Range<usize> {
    let bytes = text.as_bytes();
    let start = bytes[..at]
        .iter()
        .rposition(|b| *b == b'\n')
        .map_or(0, |i| i + 1);
    let end = bytes[at..]
        .iter()
        .position(|b| *b == b'\n')
        .map_or(text.len(), |i| at + i);
    start..end
}

fn fault(error: &TomlError, text: &str, at: &Range<usize>, line: &Range<usize>) -> Fault {
    let message = error.message();
    if message.starts_with("duplicate key") {
        return Fault::KeyTwice {
            key: text[at.clone()].to_owned(),
        };
    }
    if message.starts_with("string values must be quoted") && !at.is_empty() {
        let written = &text[line.clone()];
        let value = text[at.clone()].trim_matches(['“', '”', '„', '"', '\'']);
        let key = written.split('=').next().unwrap_or_default().trim();
        return Fault::QuotesMissing {
            line: format!("{key} = \"{value}\""),
        };
    }
    Fault::Syntax {
        reason: message.to_owned(),
    }
}
