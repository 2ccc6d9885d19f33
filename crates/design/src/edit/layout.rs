//! Which bytes tables and values take.

use std::ops::Range;
use toml_edit::{Item, Table, TableLike};

/// Ends of every value of a table that is written under its own header.
fn value_spans(table: &dyn TableLike, spans: &mut Vec<Range<usize>>) {
    for (_, item) in table.iter() {
        match item {
            Item::Value(value) => spans.extend(value.span()),
            Item::Table(inner) if inner.is_dotted() => value_spans(inner, spans),
            Item::Table(_) | Item::ArrayOfTables(_) | Item::None => {}
        }
    }
}

/// The last byte of the last value written under a table's own header.
pub(super) fn last_value_end(table: &dyn TableLike) -> Option<usize> {
    let mut spans = Vec::new();
    value_spans(table, &mut spans);
    spans.into_iter().map(|span| span.end).max()
}

/// The first byte of the first one.
pub(super) fn first_value_start(table: &dyn TableLike) -> Option<usize> {
    let mut spans = Vec::new();
    value_spans(table, &mut spans);
    spans.into_iter().map(|span| span.start).min()
}

/// Header to last value of a table and of every table below it.
pub(super) fn sections(table: &Table, sections: &mut Vec<Range<usize>>) {
    if let Some(header) = table.span()
        && !table.is_dotted()
    {
        let end = last_value_end(table).unwrap_or(header.end).max(header.end);
        sections.push(header.start..end);
    }
    for (_, item) in table.iter() {
        match item {
            Item::Table(inner) => self::sections(inner, sections),
            Item::ArrayOfTables(tables) => {
                for inner in tables.iter() {
                    self::sections(inner, sections);
                }
            }
            Item::Value(_) | Item::None => {}
        }
    }
}

/// One past the line end of the line that holds byte `at`, and whether there is
/// a line end.
pub(super) fn after_line(text: &str, at: usize) -> (usize, bool) {
    match text[at..].find('\n') {
        Some(i) => (at + i + 1, true),
        None => (text.len(), false),
    }
}

/// First byte of the line that holds byte `at`.
pub(super) fn line_start(text: &str, at: usize) -> usize {
    text[..at].rfind('\n').map_or(0, |i| i + 1)
}

/// The line end this text uses.
pub(super) fn line_end(text: &str) -> &'static str {
    match text.find('\n') {
        Some(i) if text[..i].ends_with('\r') => "\r\n",
        _ => "\n",
    }
}

/// Spaces and tabs in front of a line.
pub(super) fn indent(text: &str, at: usize) -> &str {
    let line = &text[line_start(text, at)..];
    let end = line.find(|c| c != ' ' && c != '\t').unwrap_or(line.len());
    &line[..end]
}
