//! Edits of one value that leave every other byte of a text as it was.

mod insert;
mod key;
mod layout;
mod locate;
mod remove;
mod render;
#[cfg(test)]
mod tests;
mod written;

pub use key::{Key, key_path};
pub use locate::path_at;
pub use render::quoted;
pub use written::written;

use locate::Target;
use toml_edit::Document;

/// Why an edit was not made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EditError {
    /// The text is not TOML; mend that first.
    Unreadable,
    /// The path leads through something that is no table.
    NoSuchPlace,
    /// The path names a table, not a value.
    NotAValue,
    /// There is nothing at the path.
    Absent,
    /// The edited text would not say what was asked for.
    Impossible,
}

impl std::fmt::Display for EditError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Unreadable => "the text has broken lines; mend them before editing",
            Self::NoSuchPlace => "there is no such place in the text",
            Self::NotAValue => "this is a table, not a value",
            Self::Absent => "there is nothing to take out",
            Self::Impossible => "the text is laid out in a way that cannot be edited here",
        })
    }
}

impl std::error::Error for EditError {}

/// Sets the value at `path` and gives the new text.
///
/// Comments, blank lines and every other byte stay. A key that is absent is
/// added below the last of its table; a table that is absent is added below
/// its parent, or at the end; an index one past the last adds an entry to a
/// list of tables or an element to a list of values. A text that stands where a
/// list could counts as a list of one.
///
/// `new` is the bare text of the value. It is written between quotes, except
/// where it replaces a number or true/false and is one itself, or where the key
/// is new and it is a number, true or false.
///
/// ```
/// use boxwright_design::{key_path, set_value};
/// let text = "[box]\nkind = \"sealed\"  # for the beach\n";
/// let edited = set_value(text, &key_path("box.kind"), "vented").unwrap();
/// assert_eq!(edited, "[box]\nkind = \"vented\"  # for the beach\n");
/// ```
///
/// # Errors
///
/// See [`EditError`].
pub fn set_value(text: &str, path: &[Key], new: &str) -> Result<String, EditError> {
    let document = parse(text)?;
    let list = locate::new_list(&document, path);
    let fresh = match list {
        Some(_) => format!("[{}]", render::fresh(new)),
        None => render::fresh(new),
    };
    let edited = match locate::target(&document, list.unwrap_or(path))? {
        Target::Value(value) => {
            let span = value.span().ok_or(EditError::Impossible)?;
            let rendered = render::over(value, &text[span.clone()], new);
            spliced(text, span.start, span.end, &rendered)
        }
        Target::AbsentKey { table, key } => {
            insert::key(text, &table, key, &fresh).ok_or(EditError::Impossible)?
        }
        Target::AbsentElement { list } => {
            insert::element(text, list, &fresh).ok_or(EditError::Impossible)?
        }
        Target::AbsentTable {
            parent,
            after,
            header,
            key,
        } => {
            let line = format!("{} = {fresh}", render::key(key));
            insert::table(text, &document, after.unwrap_or(parent), &header, &line)
        }
    };
    let holds = Document::parse(edited.as_str()).is_ok_and(|after| {
        matches!(locate::target(&after, path), Ok(Target::Value(value)) if render::says(value, new))
    });
    if holds {
        Ok(edited)
    } else {
        Err(EditError::Impossible)
    }
}

/// Takes the value or table at `path` out and gives the new text.
///
/// A value goes with its line and the remark on that line; remarks above stay.
/// An element of a list goes with one comma.
///
/// # Errors
///
/// See [`EditError`].
pub fn remove_value(text: &str, path: &[Key]) -> Result<String, EditError> {
    let document = parse(text)?;
    let edited = remove::at(text, &document, path)?;
    match Document::parse(edited.as_str()) {
        Ok(_) => Ok(edited),
        Err(_) => Err(EditError::Impossible),
    }
}

/// The value at `path` as it stands in the text, without its quotes.
///
/// `None` where the text cannot be read, or there is no single value.
#[must_use]
pub fn value_at(text: &str, path: &[Key]) -> Option<String> {
    let document = parse(text).ok()?;
    match locate::target(&document, path).ok()? {
        Target::Value(toml_edit::Value::String(value)) => Some(value.value().clone()),
        Target::Value(value) => Some(text.get(value.span()?)?.to_owned()),
        _ => None,
    }
}

fn parse(text: &str) -> Result<Document<&str>, EditError> {
    Document::parse(text).map_err(|_| EditError::Unreadable)
}

fn spliced(text: &str, start: usize, end: usize, new: &str) -> String {
    format!("{}{new}{}", &text[..start], &text[end..])
}
