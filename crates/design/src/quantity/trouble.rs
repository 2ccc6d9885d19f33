//! What can be wrong with a quantity; the sentences are elsewhere.

use super::Dimension;
use std::ops::Range;

/// What is wrong with the text of a quantity, and which bytes of it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Trouble {
    /// What is wrong.
    pub(crate) kind: TroubleKind,
    /// The offending bytes of the text.
    pub(crate) range: Range<usize>,
}

/// What is wrong with a quantity.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum TroubleKind {
    /// With its number.
    Number(BadNumber),
    /// With its unit.
    Unit(BadUnit),
    /// With its tolerance.
    Tolerance(BadTolerance),
}

/// What is wrong with a number.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum BadNumber {
    /// Nothing is written.
    Empty,
    /// Not a number.
    Unreadable {
        /// As written.
        text: String,
    },
    /// A comma with two readings.
    Ambiguous {
        /// As written.
        text: String,
        /// The two readings.
        readings: (String, String),
    },
    /// Too large to be held.
    TooLarge,
    /// Not three (or two) lengths.
    SizeCount {
        /// How many were wanted.
        wanted: usize,
        /// How many were found.
        found: usize,
    },
}

/// What is wrong with a unit.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum BadUnit {
    /// A number without a unit.
    Missing {
        /// The number.
        number: String,
    },
    /// No unit of this spelling is known.
    Unknown {
        /// As written.
        unit: String,
        /// What was probably meant.
        nearest: Option<&'static str>,
    },
    /// A unit of something else.
    Wrong {
        /// As written.
        unit: String,
        /// What that unit measures.
        measures: Dimension,
    },
    /// A pure number carries a unit.
    Unwanted {
        /// As written.
        unit: String,
    },
    /// No currency beside the amount.
    CurrencyMissing {
        /// The amount.
        number: String,
    },
    /// Something that is no currency.
    CurrencyUnknown {
        /// As written.
        text: String,
    },
}

/// What is wrong with a tolerance.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum BadTolerance {
    /// It cannot be read.
    Unreadable {
        /// As written.
        text: String,
    },
    /// Below zero.
    Negative,
    /// As large as the value itself.
    TooWide,
    /// In per cent of something that has no natural zero.
    Relative,
    /// "about" and ± together.
    Twice,
}

macro_rules! from {
    ($($kind:ident => $variant:ident),*) => {
        $(impl From<$kind> for TroubleKind {
            fn from(kind: $kind) -> Self {
                Self::$variant(kind)
            }
        })*
    };
}

from!(BadNumber => Number, BadUnit => Unit, BadTolerance => Tolerance);
