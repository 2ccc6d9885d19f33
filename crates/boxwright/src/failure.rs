//! Why a command could not answer.

use design::{Diagnostic, FileId};

/// A text together with the name it is known by.
#[derive(Clone, Debug)]
pub(crate) struct Named {
    pub(crate) name: String,
    pub(crate) text: String,
}

/// The texts of a design: what places in diagnostics refer to.
#[derive(Clone, Debug)]
pub(crate) struct Project {
    pub(crate) design: Named,
    pub(crate) shelf: Option<Named>,
}

impl Project {
    /// The text a place lies in.
    pub(crate) fn file(&self, file: FileId) -> Named {
        match (file, &self.shelf) {
            (FileId::Design, _) => self.design.clone(),
            (FileId::Shelf, Some(shelf)) => shelf.clone(),
            (FileId::Shelf | FileId::BuiltIn, _) => Named {
                name: "built-in shelf".into(),
                text: design::BUILT_IN_SHELF.into(),
            },
        }
    }
}

/// Why a command could not answer.
#[derive(Debug)]
pub(crate) enum Failure {
    /// The texts are wrong at these places.
    Texts(Box<Project>, Vec<Diagnostic>),
    /// Something else, said in plain words.
    Plain {
        message: String,
        mend: Option<String>,
    },
}

impl Failure {
    pub(crate) fn plain(message: impl Into<String>) -> Self {
        Self::Plain {
            message: message.into(),
            mend: None,
        }
    }

    pub(crate) fn mended(message: impl Into<String>, mend: impl Into<String>) -> Self {
        Self::Plain {
            message: message.into(),
            mend: Some(mend.into()),
        }
    }
}
