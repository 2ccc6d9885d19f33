//! What a page can ask to be done.

use super::data_sheet::Typed;
use super::refusal::Refusal;
use super::session::Side;
use serde::Deserialize;
use studies::check::Edit;

/// What is to be done.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(tag = "what", rename_all = "lowercase")]
pub(super) enum Deed {
    /// Sets one value, written as the maker typed it, in the text that had this number.
    Set {
        key: String,
        value: String,
        number: Option<u64>,
    },
    /// Several edits at once, in the text that had this number.
    Edits {
        edits: Vec<Asked>,
        number: Option<u64>,
    },
    /// Makes the edits that a finding of the state with this number offers.
    Mend {
        finding: String,
        number: u64,
    },
    /// Puts a driver on the maker's shelf, and uses it at a key where one is named.
    Driver {
        values: Typed,
        key: Option<String>,
    },
    /// Puts a whole text in the place of the one that had this number, or of the present one.
    Text {
        value: String,
        number: Option<u64>,
    },
    Undo,
    Redo,
    /// Keeps the present state as a ghost.
    Hold,
    Release,
    /// Checks a build step off, or not.
    Step {
        id: String,
        done: bool,
    },
    /// Ends a conflict.
    Settle {
        keep: Keep,
    },
    /// Gives up long work.
    Stop,
    /// Opens a design that the chooser lists as one of the recent ones.
    Open {
        recent: usize,
    },
    /// Begins a design, from an example or from nothing.
    Begin {
        name: String,
        example: Option<String>,
    },
}

/// One edit as it is asked for.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Asked {
    key: String,
    value: Option<String>,
    #[serde(default)]
    remove: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Keep {
    Mine,
    Theirs,
}

impl From<Keep> for Side {
    fn from(keep: Keep) -> Self {
        match keep {
            Keep::Mine => Self::Mine,
            Keep::Theirs => Self::Theirs,
        }
    }
}

impl Asked {
    /// As the studies make it.
    pub(super) fn edit(&self) -> Result<Edit, Refusal> {
        let value = match (&self.value, self.remove) {
            (Some(value), false) => Some(value.clone()),
            (None, true) => None,
            (Some(_), true) | (None, false) => {
                return Err(Refusal::new(
                    format!("{} is to be neither set nor taken out", self.key),
                    "give a value, or ask for it to be removed",
                ));
            }
        };
        Ok(Edit {
            key: self.key.clone(),
            value,
        })
    }
}

impl Deed {
    /// The edits of a deed that makes some of its own.
    pub(super) fn edits(&self) -> Option<Result<Vec<Edit>, Refusal>> {
        match self {
            Self::Set { key, value, .. } => Some(Ok(vec![Edit {
                key: key.clone(),
                value: Some(value.clone()),
            }])),
            Self::Edits { edits, .. } => Some(edits.iter().map(Asked::edit).collect()),
            _ => None,
        }
    }

    /// The number of the text that its edits are meant for, where it says so.
    pub(super) fn meant_for(&self) -> Option<u64> {
        match self {
            Self::Set { number, .. } | Self::Edits { number, .. } => *number,
            _ => None,
        }
    }
}
