//! The number that stands on the first line of every file.

/// The format of files this program reads and writes.
pub(crate) const FORMAT: i64 = 1;
