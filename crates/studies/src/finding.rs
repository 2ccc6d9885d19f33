//! What is found about a design, and the edits that mend it.

use design::{FileId, Key, Place};
use serde::{Serialize, Serializer};

/// How bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// Do not build it like this.
    Stop,
    /// It will work, but not as well as it should, or not surely.
    Caution,
    /// Looked at and in order.
    Good,
}

/// The result of one check on one design.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// The check's name.
    pub id: &'static str,
    /// Its own name: that of the check, and where the check finds fault more than once a
    /// number, as in `holes-clear.2`.
    pub name: String,
    /// How bad it is.
    pub severity: Severity,
    /// What was found, in a few words.
    pub title: String,
    /// Why, with the numbers.
    pub cause: String,
    /// What to change, in words.
    pub advice: Option<String>,
    /// An edit that was tried and clears it.
    pub mend: Option<Mend>,
    /// The measured value, where there is one.
    pub measured: Option<f64>,
    /// The value it is held against.
    pub limit: Option<f64>,
    /// Unit of both.
    pub unit: &'static str,
    /// Sources of the limit.
    pub source: &'static [&'static str],
    /// Where the text speaks of it, where it speaks of it in one place.
    #[serde(serialize_with = "bytes")]
    pub place: Option<Place>,
    /// Keys of what it is about, each of one thing or of two that meet, such as
    /// `battery drivers.1.at.1`; one empty key where its check speaks of one thing only.
    #[serde(skip)]
    pub about: Vec<String>,
    /// What other checks find for the same reason, and what should go with it.
    pub brings: Vec<Brought>,
}

/// What follows from a worse finding of another check.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Brought {
    /// The name of the check that finds it.
    pub id: &'static str,
    /// How bad it is.
    pub severity: Severity,
    /// What was found, in a few words.
    pub title: String,
    /// Why, with the numbers.
    pub cause: String,
    /// Keys of what it is about, as in a finding of its own.
    #[serde(skip)]
    pub about: Vec<String>,
}

/// A place as its text and the bytes in it.
fn bytes<S: Serializer>(place: &Option<Place>, serializer: S) -> Result<S::Ok, S::Error> {
    #[derive(Serialize)]
    struct Bytes {
        file: &'static str,
        start: usize,
        end: usize,
    }
    let said = place.map(|place| Bytes {
        file: match place.file {
            FileId::Design => "design",
            FileId::Shelf => "shelf",
            FileId::BuiltIn => "built-in shelf",
        },
        start: place.start,
        end: place.end,
    });
    said.serialize(serializer)
}

/// An edit to the design file that clears a finding; tried before it is offered.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Mend {
    /// In words: "box depth 180 → 196 mm".
    pub words: String,
    /// The edits, in order.
    pub edits: Vec<Edit>,
}

/// One edit to the design file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Edit {
    /// Table and key, such as `box.outside` or `drivers.1.part`, groups counted from 1.
    pub key: String,
    /// The new value as it stands between the quotes; absent where the key is to go.
    pub value: Option<String>,
}

impl Edit {
    pub(crate) fn set(key: impl Into<String>, value: impl Into<String>) -> Self {
        Self {
            key: key.into(),
            value: Some(value.into()),
        }
    }

    /// The path of its key, groups counted from 0.
    #[must_use]
    pub fn path(&self) -> Vec<Key> {
        let from_zero = |step| match step {
            Key::Index(index) => Key::Index(index.saturating_sub(1)),
            name @ Key::Name(_) => name,
        };
        let steps = design::key_path(&self.key).into_iter();
        steps.map(from_zero).collect()
    }

    pub(crate) fn remove(key: impl Into<String>) -> Self {
        Self {
            key: key.into(),
            value: None,
        }
    }
}
