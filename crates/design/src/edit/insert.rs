//! New keys and new tables.

use super::layout::{
    after_line, first_value_start, indent, last_value_end, line_end, line_start, sections,
};
use super::locate::{Form, Holder};
use super::render;
use super::spliced;
use toml_edit::{Array, Document, Table};

/// Adds a key to a table that is there.
pub(super) fn key(text: &str, holder: &Holder<'_>, key: &str, value: &str) -> Option<String> {
    let line = format!("{} = {value}", render::key(key));
    match &holder.form {
        Form::Top => Some(match last_value_end(holder.table) {
            Some(end) => below(text, end, &line),
            None => {
                let start = usize::from(text.starts_with('\u{feff}')) * '\u{feff}'.len_utf8();
                spliced(text, start, start, &format!("{line}{}", line_end(text)))
            }
        }),
        Form::Header(header) => {
            let end = last_value_end(holder.table).unwrap_or(header.end);
            Some(below(text, end.max(header.end), &line))
        }
        Form::Dotted(names) => {
            let front: String = names.iter().map(|n| render::key(n) + ".").collect();
            let end = last_value_end(holder.table)?;
            Some(below(text, end, &format!("{front}{line}")))
        }
        Form::Inline(braces) => {
            let inner = last_value_end(holder.table);
            Some(match inner {
                Some(end) => spliced(text, end, end, &format!(", {line}")),
                None => spliced(text, braces.start, braces.end, &format!("{{ {line} }}")),
            })
        }
    }
}

/// Puts a line below the one that holds the end of something.
fn below(text: &str, end: usize, line: &str) -> String {
    let indent = indent(text, end).to_owned();
    let (at, closed) = after_line(text, end);
    let eol = line_end(text);
    let new = if closed {
        format!("{indent}{line}{eol}")
    } else {
        format!("{eol}{indent}{line}")
    };
    spliced(text, at, at, &new)
}

/// Adds an element behind the last of a list: on a line of its own where the
/// last one has one.
pub(super) fn element(text: &str, list: &Array, value: &str) -> Option<String> {
    let brackets = list.span()?;
    let Some(last) = list.iter().last() else {
        let inner = brackets.start + 1;
        return Some(spliced(text, inner, inner, value));
    };
    let last = last.span()?;
    let (line, closed) = after_line(text, last.end);
    let alone = text[line_start(text, last.start)..last.start]
        .trim()
        .is_empty();
    if !alone || !closed || line > brackets.end {
        return Some(spliced(text, last.end, last.end, &format!(", {value}")));
    }
    let has_comma = text[last.end..].trim_start().starts_with(',');
    let indent = indent(text, last.start);
    let comma = if has_comma { "," } else { "" };
    let below = spliced(
        text,
        line,
        line,
        &format!("{indent}{value}{comma}{}", line_end(text)),
    );
    let comma = if has_comma { "" } else { "," };
    Some(spliced(&below, last.end, last.end, comma))
}

/// Adds a table with one line: below another, or at the end of the text where
/// that is the whole of it.
pub(super) fn table<S>(
    text: &str,
    document: &Document<S>,
    above: &Table,
    header: &str,
    line: &str,
) -> String {
    let eol = line_end(text);
    let mut sections_above = Vec::new();
    let is_top = std::ptr::eq(above, document.as_table());
    if !is_top {
        sections(above, &mut sections_above);
    }
    match sections_above.iter().map(|section| section.end).max() {
        Some(end) => {
            let (at, closed) = after_line(text, end);
            let gap = if closed { "" } else { eol };
            spliced(text, at, at, &format!("{gap}{eol}{header}{eol}{line}{eol}"))
        }
        None => {
            let mut out = text.to_owned();
            if !out.is_empty() && !out.ends_with('\n') {
                out.push_str(eol);
            }
            if first_value_start(document.as_table()).is_some() || !out.trim().is_empty() {
                out.push_str(eol);
            }
            out + header + eol + line + eol
        }
    }
}
