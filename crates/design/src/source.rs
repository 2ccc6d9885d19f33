//! A text as TOML, read past its broken lines so that all of them are found.

use crate::diagnostic::Log;
use crate::fault::{SyntaxReason, TextFault};
use crate::place::{FileId, Place};
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
            let fault = fault(&error, text, &at, &line);
            // Without its header a table's keys seem to be said twice.
            if !(misplaced && matches!(fault, TextFault::KeyTwice { .. })) {
                log.add(fault, place(file, text, visible(text, at, &line)));
            }
            if readable[line.clone()].trim().is_empty() {
                break;
            }
            misplaced |= is_header(&text[line.clone()]);
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

/// Something to underline: the whole line where the error is between its bytes.
fn visible(text: &str, at: Range<usize>, line: &Range<usize>) -> Range<usize> {
    if !at.is_empty() {
        return at;
    }
    let written = &text[line.clone()];
    let front = written.len() - written.trim_start().len();
    line.start + front..line.start + front + written.trim().len()
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

fn fault(error: &TomlError, text: &str, at: &Range<usize>, line: &Range<usize>) -> TextFault {
    let message = error.message();
    let written = &text[line.clone()];
    if message.starts_with("duplicate key") {
        return TextFault::KeyTwice {
            key: text[at.clone()].to_owned(),
            is_table: is_header(written),
        };
    }
    if message.starts_with("string values must be quoted") && !at.is_empty() {
        let value = text[at.clone()].trim_matches(['“', '”', '„', '"', '\'']);
        let key = written.split('=').next().unwrap_or_default().trim();
        return TextFault::QuotesMissing {
            line: format!("{key} = \"{value}\""),
        };
    }
    TextFault::Syntax {
        reason: reason(message),
    }
}

fn is_header(line: &str) -> bool {
    line.trim_start().starts_with('[')
}

/// Our own reason for what the TOML reader says.
fn reason(message: &str) -> SyntaxReason {
    use SyntaxReason as R;
    const REASONS: &[(&str, R)] = &[
        ("string values must be quoted", R::ValueMissing),
        ("missing value", R::ValueMissing),
        ("key with no value", R::EqualsMissing),
        ("missing assignment", R::EqualsMissing),
        ("extra assignment", R::LeftOver),
        ("extra `=`", R::LeftOver),
        ("extra comma", R::Comma),
        ("missing comma", R::Comma),
        ("unquoted keys cannot be empty", R::NameMissing),
        ("invalid unquoted key", R::NameMissing),
        ("missing key", R::NameMissing),
        ("unclosed", R::BracketOpen),
        ("missing opening quote", R::QuoteOpen),
        ("invalid basic string", R::QuoteOpen),
        ("invalid literal string", R::QuoteOpen),
        ("invalid multi-line", R::QuoteOpen),
        ("unexpected key or value", R::LeftOver),
        ("unexpected content", R::LeftOver),
        ("floating-point number", R::Number),
        ("integer", R::Number),
        ("unexpected sign", R::Number),
        ("unexpected leading zero", R::Number),
        ("redundant", R::Number),
        ("`_` may only", R::Number),
        ("radix", R::Number),
        ("cannot extend value", R::NotATable),
        ("cannot recurse", R::TooDeep),
        ("recursion limit", R::TooDeep),
    ];
    REASONS
        .iter()
        .find(|(front, _)| message.starts_with(front))
        .map_or(R::Other, |(_, reason)| *reason)
}
