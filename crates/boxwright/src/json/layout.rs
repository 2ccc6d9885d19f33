//! JSON laid out so that a person can read it too: one key to a line, the
//! numbers of a list beside each other.

use serde::Serialize;
use serde_json::ser::{Formatter, Serializer};
use std::io::{self, Write};

/// A value as JSON text, ending in a line break.
pub(super) fn text(value: &impl Serialize) -> String {
    let mut bytes = Vec::new();
    value
        .serialize(&mut Serializer::with_formatter(
            &mut bytes,
            Lines::default(),
        ))
        .expect("plain types of numbers and texts can be written as JSON");
    bytes.push(b'\n');
    String::from_utf8(bytes).expect("JSON is UTF-8")
}

#[derive(Debug, Default)]
struct Lines {
    depth: usize,
    empty: bool,
}

impl Lines {
    fn line(&self, writer: &mut (impl Write + ?Sized)) -> io::Result<()> {
        writer.write_all(b"\n")?;
        (0..self.depth).try_for_each(|_| writer.write_all(b"  "))
    }
}

impl Formatter for Lines {
    fn begin_array_value<W: ?Sized + Write>(
        &mut self,
        writer: &mut W,
        first: bool,
    ) -> io::Result<()> {
        if first {
            Ok(())
        } else {
            writer.write_all(b", ")
        }
    }

    fn begin_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.depth += 1;
        self.empty = true;
        writer.write_all(b"{")
    }

    fn end_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        self.depth -= 1;
        if !std::mem::take(&mut self.empty) {
            self.line(writer)?;
        }
        writer.write_all(b"}")
    }

    fn begin_object_key<W: ?Sized + Write>(
        &mut self,
        writer: &mut W,
        first: bool,
    ) -> io::Result<()> {
        self.empty = false;
        if !first {
            writer.write_all(b",")?;
        }
        self.line(writer)
    }

    fn begin_object_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> io::Result<()> {
        writer.write_all(b": ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::{Value, json};

    #[test]
    fn what_is_laid_out_reads_back() {
        let value = json!({"a": [1.5, null, {"b": {}}, {"c": [], "d": "x\"y"}], "e": {"f": true}});
        let said = text(&value);
        assert_eq!(serde_json::from_str::<Value>(&said).unwrap(), value);
        assert!(said.contains("[1.5, null, {"));
    }

    #[test]
    fn numbers_that_are_none_are_null() {
        assert_eq!(text(&[f64::NAN, f64::INFINITY, 0.1]), "[null, null, 0.1]\n");
    }
}
