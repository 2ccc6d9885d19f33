//! New keys and new tables.

use super::layout::{after_line, first_value_start, indent, last_value_end, line_end, sections};
use super::locate::{Form, Holder};
use super::render;
use super::spliced;
use toml_edit::{Document, Table};

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

/// Adds a table with one key: below its parent, or at the end of the text.
pub(super) fn table<S>(
    text: &str,
    document: &Document<S>,
    parent: &Table,
    header: &str,
    key: &str,
    value: &str,
) -> String {
    let eol = line_end(text);
    let line = format!("{} = {value}", render::key(key));
    let mut below_parent = Vec::new();
    let is_top = std::ptr::eq(parent, document.as_table());
    if !is_top {
        sections(parent, &mut below_parent);
    }
    match below_parent.iter().map(|section| section.end).max() {
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
            out + header + eol + &line + eol
        }
    }
}
