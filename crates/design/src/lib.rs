//! The design file and the shelf: text, places, units, tolerances, located
//! errors, and edits that keep comments.

mod diagnostic;
mod edit;
mod fault;
mod format;
mod model;
mod place;
mod quantity;
mod read;
mod say;
mod source;
mod value;

pub use diagnostic::{DIAGNOSTIC_CODES, Diagnostic};
pub use edit::{
    EditError, Key, key_path, path_at, quoted, remove_value, set_value, value_at, written,
};
pub use model::*;
pub use place::{FileId, Place};
pub use quantity::{
    Dimension, Series, WrittenNumber, format_like, format_rounded, format_value, hand_written,
    written_numbers,
};
pub use read::{BUILT_IN_SHELF, Word, built_in_shelf, read, read_shelf};
pub use value::{Tolerance, Value};
