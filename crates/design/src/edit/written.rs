//! Every value of a text, as it is written.

use toml_edit::{Array, Document, Item, TableLike, Value};

/// Every value of a text with its key, in the order of the text: table and key with points
/// between them, entries of lists counted from 1, values without their quotes.
///
/// Empty where the text cannot be read.
///
/// ```
/// let text = "[[drivers]]\ncount = 2\nat = [\"9 x 9 cm\"]\n";
/// let found = boxwright_design::written(text);
/// let found: Vec<(&str, &str)> = found.iter().map(|(k, v)| (&**k, &**v)).collect();
/// assert_eq!(found, [("drivers.1.count", "2"), ("drivers.1.at.1", "9 x 9 cm")]);
/// ```
#[must_use]
pub fn written(text: &str) -> Vec<(String, String)> {
    let Ok(document) = Document::parse(text) else {
        return Vec::new();
    };
    let mut out = Gathered {
        text,
        found: Vec::new(),
    };
    out.table(document.as_table(), "");
    out.found
}

struct Gathered<'t> {
    text: &'t str,
    found: Vec<(String, String)>,
}

impl Gathered<'_> {
    fn table(&mut self, table: &dyn TableLike, before: &str) {
        for (key, item) in table.iter() {
            let key = format!("{before}{key}");
            match item {
                Item::None => {}
                Item::Value(value) => self.value(value, &key),
                Item::Table(table) => self.table(table, &format!("{key}.")),
                Item::ArrayOfTables(tables) => {
                    for (index, table) in tables.iter().enumerate() {
                        self.table(table, &format!("{key}.{}.", index + 1));
                    }
                }
            }
        }
    }

    fn value(&mut self, value: &Value, key: &str) {
        match value {
            Value::String(text) => self.found.push((key.to_owned(), text.value().clone())),
            Value::Array(array) => self.list(array, key),
            Value::InlineTable(table) => self.table(table, &format!("{key}.")),
            other => {
                let written = other.span().and_then(|span| self.text.get(span));
                if let Some(written) = written {
                    self.found.push((key.to_owned(), written.to_owned()));
                }
            }
        }
    }

    fn list(&mut self, list: &Array, key: &str) {
        for (index, value) in list.iter().enumerate() {
            self.value(value, &format!("{key}.{}", index + 1));
        }
    }
}
