//! Paths to values.

/// One step of a path to a value.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Key {
    /// A key or table by name.
    Name(String),
    /// An entry of a list of tables, counted from 0.
    Index(usize),
}

impl From<&str> for Key {
    fn from(name: &str) -> Self {
        Self::Name(name.to_owned())
    }
}

impl From<usize> for Key {
    fn from(index: usize) -> Self {
        Self::Index(index)
    }
}

/// The path written as `drivers.0.count`: names and numbers with points
/// between them.
#[must_use]
pub fn key_path(text: &str) -> Vec<Key> {
    text.split('.')
        .map(|step| match step.parse::<usize>() {
            Ok(index) => Key::Index(index),
            Err(_) => Key::from(step),
        })
        .collect()
}
