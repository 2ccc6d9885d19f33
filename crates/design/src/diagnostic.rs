//! Located errors.

use crate::fault::Fault;
use crate::place::Place;

/// One thing that is wrong with a text: where, why, and what to write instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// Stable id, such as "unit-missing"; one of [`DIAGNOSTIC_CODES`].
    pub code: &'static str,
    /// What is wrong, as one sentence.
    pub message: String,
    /// The same in a few words, said at the place itself.
    pub label: String,
    /// Where.
    pub place: Place,
    /// What to write instead.
    pub mend: String,
}

/// Every code a [`Diagnostic`] can carry.
pub const DIAGNOSTIC_CODES: &[&str] = &[
    "amplifier-channels",
    "bay-not-vented",
    "box-leans-shut",
    "box-no-room",
    "box-size-missing",
    "box-size-twice",
    "chambers-mono",
    "choice-unknown",
    "count-range",
    "currency-missing",
    "currency-unknown",
    "deeper-than-wall",
    "drawer-empty",
    "drawer-twice",
    "driver-bare",
    "edge-treated-twice",
    "format-missing",
    "format-newer",
    "format-unknown",
    "fuse-form",
    "hole-missing",
    "key-missing",
    "key-twice",
    "key-unknown",
    "key-without-use",
    "kind-table-missing",
    "kind-table-unwanted",
    "listed-twice",
    "name-empty",
    "name-twice",
    "number-ambiguous",
    "number-bad",
    "order-wrong",
    "pair-incomplete",
    "part-unknown",
    "part-wrong-kind",
    "placed-twice",
    "placed-without-outline",
    "places-uneven",
    "quotes-missing",
    "recess-too-deep",
    "role-wrong",
    "scale-bad",
    "shape-missing",
    "shape-twice",
    "sheet-too-small",
    "sides-mixed",
    "sides-uneven",
    "size-count",
    "syntax",
    "table-missing",
    "table-unknown",
    "terminal-bad",
    "tolerance-bad",
    "tolerance-relative",
    "tolerance-twice",
    "tolerance-wide",
    "type-wrong",
    "unit-missing",
    "unit-unknown",
    "unit-unwanted",
    "unit-wrong",
    "value-range",
    "wall-not-of-edge",
    "walls-apart",
    "wire-ends-same",
    "wiring-uneven",
];

/// The diagnostics found so far.
#[derive(Debug, Default)]
pub(crate) struct Log {
    found: Vec<Diagnostic>,
}

impl Log {
    pub(crate) fn add(&mut self, fault: impl Into<Fault>, place: Place) {
        let said = crate::say::say(&fault.into());
        self.found.push(Diagnostic {
            code: said.code,
            message: said.message,
            label: said.label,
            place,
            mend: said.mend,
        });
    }

    pub(crate) fn len(&self) -> usize {
        self.found.len()
    }

    /// The diagnostics in the order of the texts.
    pub(crate) fn into_sorted(mut self) -> Vec<Diagnostic> {
        self.found
            .sort_by_key(|d| (d.place.file, d.place.start, d.place.end));
        self.found
    }
}
