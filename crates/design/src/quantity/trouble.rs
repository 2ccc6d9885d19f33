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
    /// Nothing is written.
    Empty,
    /// A number without a unit.
    UnitMissing {
        /// The number.
        number: String,
    },
    /// No unit of this spelling is known.
    UnitUnknown {
        /// As written.
        unit: String,
        /// What was probably meant.
        nearest: Option<&'static str>,
    },
    /// A unit of something else.
    UnitWrong {
        /// As written.
        unit: String,
        /// What that unit measures.
        measures: Dimension,
    },
    /// A pure number carries a unit.
    UnitUnwanted {
        /// As written.
        unit: String,
    },
    /// Not a number.
    NumberBad {
        /// As written.
        text: String,
    },
    /// Two readings of a comma.
    NumberAmbiguous {
        /// As written.
        text: String,
        /// The two readings.
        readings: (String, String),
    },
    /// Too large to be held.
    NumberTooLarge,
    /// The tolerance cannot be read.
    ToleranceBad {
        /// As written.
        text: String,
    },
    /// A tolerance below zero.
    ToleranceNegative,
    /// A tolerance as large as the value itself.
    ToleranceTooWide,
    /// A tolerance in per cent of something that has no natural zero.
    ToleranceRelative,
    /// "about" and ± together.
    ToleranceTwice,
    /// Not three (or two) lengths.
    SizeCount {
        /// How many were wanted.
        wanted: usize,
        /// How many were found.
        found: usize,
    },
    /// No currency beside the amount.
    CurrencyMissing,
    /// Something that is no currency.
    CurrencyUnknown {
        /// As written.
        text: String,
    },
}
