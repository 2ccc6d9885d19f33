//! Taking values and tables out.

use super::layout::{after_line, line_start, sections};
use super::locate::{Step, walk};
use super::{EditError, Key, spliced};
use std::ops::Range;
use toml_edit::{Document, Item, TableLike, Value};

/// The text without what stands at `path`.
pub(super) fn at<S>(text: &str, document: &Document<S>, path: &[Key]) -> Result<String, EditError> {
    let (at, depth) = walk(document.as_item(), path);
    if depth < path.len() || path.is_empty() {
        return Err(EditError::Absent);
    }
    let mut taken = Vec::new();
    match at {
        Step::Item(Item::Value(value)) => {
            return value_out(text, document, path, value);
        }
        Step::Item(Item::Table(table)) if !table.is_dotted() => sections(table, &mut taken),
        Step::Item(Item::ArrayOfTables(tables)) => {
            for table in tables.iter() {
                sections(table, &mut taken);
            }
        }
        Step::Entry(table) => sections(table, &mut taken),
        Step::Element(element) if matches!(path.last(), Some(Key::Index(_))) => {
            return element_out(text, document, &path[..path.len() - 1], element);
        }
        Step::Item(_) | Step::Element(_) => return Err(EditError::Impossible),
    }
    Ok(without_sections(text, taken))
}

fn value_out<S>(
    text: &str,
    document: &Document<S>,
    path: &[Key],
    value: &Value,
) -> Result<String, EditError> {
    let span = value.span().ok_or(EditError::Impossible)?;
    let (Some(Key::Name(name)), front) = (path.last(), &path[..path.len() - 1]) else {
        return Err(EditError::Impossible);
    };
    let holder: &dyn TableLike = match walk(document.as_item(), front).0 {
        Step::Item(Item::Value(Value::InlineTable(table)))
        | Step::Element(Value::InlineTable(table)) => {
            return member_out(text, table, name, &span);
        }
        Step::Item(item) => item.as_table_like().ok_or(EditError::Impossible)?,
        Step::Entry(table) => table,
        Step::Element(_) => return Err(EditError::Impossible),
    };
    let key = holder
        .get_key_value(name)
        .and_then(|(key, _)| key.span())
        .ok_or(EditError::Impossible)?;
    let start = line_start(text, key.start);
    let (end, _) = after_line(text, span.end);
    Ok(spliced(text, start, end, ""))
}

/// A member of a table between braces goes with one of the commas beside it.
fn member_out(
    text: &str,
    table: &dyn TableLike,
    name: &str,
    value: &Range<usize>,
) -> Result<String, EditError> {
    let key = table
        .get_key_value(name)
        .and_then(|(key, _)| key.span())
        .ok_or(EditError::Impossible)?;
    Ok(without_comma(text, key.start..value.end))
}

/// An element of a list in brackets: with its line where it has one of its own,
/// with a comma beside it otherwise.
fn element_out<S>(
    text: &str,
    document: &Document<S>,
    list: &[Key],
    element: &Value,
) -> Result<String, EditError> {
    let Some(Value::Array(array)) = walk(document.as_item(), list).0.value() else {
        return Err(EditError::Impossible);
    };
    let (Some(brackets), Some(span)) = (array.span(), element.span()) else {
        return Err(EditError::Impossible);
    };
    let start = line_start(text, span.start);
    let (end, _) = after_line(text, span.end);
    let others = array.iter().filter_map(Value::span);
    let alone = text[start..span.start].trim().is_empty()
        && end <= brackets.end
        && others
            .filter(|other| *other != span)
            .all(|other| other.end <= start || end <= other.start);
    if alone {
        Ok(spliced(text, start, end, ""))
    } else {
        Ok(without_comma(text, span))
    }
}

/// Takes one of several out, with one of the commas beside it.
fn without_comma(text: &str, taken: Range<usize>) -> String {
    let before = text[..taken.start].trim_end();
    let after = &text[taken.end..];
    let gap = after.len() - after.trim_start().len();
    if before.ends_with(',') {
        spliced(text, before.len() - 1, taken.end, "")
    } else if after[gap..].starts_with(',') {
        let rest = &after[gap + 1..];
        let space = rest.len() - rest.trim_start_matches(' ').len();
        spliced(text, taken.start, taken.end + gap + 1 + space, "")
    } else {
        spliced(text, taken.start, taken.end, "")
    }
}

/// Takes sections out, each with its lines and the blank line below, or the one
/// above where nothing follows.
fn without_sections(text: &str, mut taken: Vec<Range<usize>>) -> String {
    taken.sort_by_key(|section| std::cmp::Reverse(section.start));
    let mut out = text.to_owned();
    for section in taken {
        let start = line_start(&out, section.start);
        let (end, _) = after_line(&out, section.end);
        let end = blank_line(&out, end).unwrap_or(end);
        let blank_before = start > 0 && blank_line(&out, line_start(&out, start - 1)).is_some();
        let start = if blank_before && end == out.len() {
            line_start(&out, start - 1)
        } else {
            start
        };
        out = spliced(&out, start, end, "");
    }
    out
}

/// One past a blank line that begins at `at`.
fn blank_line(text: &str, at: usize) -> Option<usize> {
    let (end, closed) = after_line(text, at);
    (closed && text[at..end].trim().is_empty()).then_some(end)
}
