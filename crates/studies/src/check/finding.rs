//! The result of a check.

use serde::Serialize;

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
    /// The new value as TOML; absent where the key is to go.
    pub value: Option<String>,
}

/// A mend not yet tried.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Candidate {
    pub(crate) words: String,
    pub(crate) edits: Vec<Edit>,
}

impl Candidate {
    /// One key set to a string value.
    pub(crate) fn set(words: impl Into<String>, key: &str, text: &str) -> Self {
        Self {
            words: words.into(),
            edits: vec![Edit {
                key: key.into(),
                value: Some(format!("\"{text}\"")),
            }],
        }
    }
}

/// What a check says, before its mends are tried.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Verdict {
    pub(crate) severity: Severity,
    pub(crate) title: String,
    pub(crate) cause: String,
    pub(crate) advice: Option<String>,
    pub(crate) measured: Option<f64>,
    pub(crate) limit: Option<f64>,
    pub(crate) unit: &'static str,
    /// Mends to be tried, the smallest change first.
    pub(crate) mends: Vec<Candidate>,
}

impl Verdict {
    pub(crate) fn new(
        severity: Severity,
        title: impl Into<String>,
        cause: impl Into<String>,
    ) -> Self {
        Self {
            severity,
            title: title.into(),
            cause: cause.into(),
            advice: None,
            measured: None,
            limit: None,
            unit: "",
            mends: Vec::new(),
        }
    }

    /// With the measured value and what it is held against.
    pub(crate) fn measured(mut self, measured: f64, limit: f64, unit: &'static str) -> Self {
        (self.measured, self.limit, self.unit) = (Some(measured), Some(limit), unit);
        self
    }

    /// With advice in words.
    pub(crate) fn advice(mut self, advice: impl Into<String>) -> Self {
        self.advice = Some(advice.into());
        self
    }

    /// With mends to be tried in this order.
    pub(crate) fn mends(mut self, mends: impl IntoIterator<Item = Candidate>) -> Self {
        self.mends.extend(mends);
        self
    }
}
