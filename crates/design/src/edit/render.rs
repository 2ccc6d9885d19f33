//! How a new value is written.

use toml_edit::Value;

/// A key as written: quoted only where it must be.
pub(super) fn key(name: &str) -> String {
    toml_edit::Key::new(name).display_repr().into_owned()
}

/// A value where another one stood, of which `written` is the text.
pub(super) fn over(old: &Value, written: &str, new: &str) -> String {
    match old {
        Value::Integer(_) if is_integer(new) => new.to_owned(),
        Value::Float(_) | Value::Integer(_) if is_float(new) => new.to_owned(),
        Value::Boolean(_) if is_bool(new) => new.to_owned(),
        _ => quoted_like(written, new),
    }
}

/// A value under a key that was not there.
pub(super) fn fresh(new: &str) -> String {
    if is_integer(new) || is_float(new) || is_bool(new) {
        new.to_owned()
    } else {
        quoted_like("\"", new)
    }
}

/// Whether the value says what was asked for.
pub(super) fn says(value: &Value, new: &str) -> bool {
    match value {
        Value::String(text) => text.value() == new,
        Value::Integer(n) => new.parse() == Ok(*n.value()),
        Value::Float(x) => new.parse() == Ok(*x.value()),
        Value::Boolean(b) => new.parse() == Ok(*b.value()),
        Value::Datetime(_) | Value::Array(_) | Value::InlineTable(_) => false,
    }
}

fn is_integer(text: &str) -> bool {
    text.parse::<i64>().is_ok() && !text.starts_with('+') && !has_leading_zero(text)
}

fn has_leading_zero(text: &str) -> bool {
    let digits = text.trim_start_matches('-');
    digits.len() > 1 && digits.starts_with('0')
}

fn is_float(text: &str) -> bool {
    let plain = |c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | 'e');
    text.chars().all(plain)
        && text.parse::<f64>().is_ok_and(f64::is_finite)
        && !has_leading_zero(text.split('.').next().unwrap_or_default())
        && !text.ends_with('.')
        && !text.starts_with('.')
}

fn is_bool(text: &str) -> bool {
    matches!(text, "true" | "false")
}

/// A text between quotes, whatever is in it.
#[must_use]
pub fn quoted(text: &str) -> String {
    quoted_like("\"", text)
}

/// Between the same quotes as before where that is possible.
fn quoted_like(written: &str, new: &str) -> String {
    let plain = |c: char| c != '\\' && !c.is_control();
    if written.starts_with('\'') && new.chars().all(|c| plain(c) && c != '\'') {
        return format!("'{new}'");
    }
    if new.chars().all(|c| plain(c) && c != '"') {
        return format!("\"{new}\"");
    }
    Value::from(new).to_string()
}
