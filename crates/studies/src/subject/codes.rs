//! Codes of errors that only the study of a text finds which reads well.

/// Every code that a study's errors can carry beside those of reading.
pub const DIAGNOSTIC_CODES: &[&str] = &[
    "box-measure",
    "box-no-air",
    "box-no-inside",
    "box-setback-deep",
    "driver-impossible",
    "outlets-uneven",
    "rebate-deep",
];
