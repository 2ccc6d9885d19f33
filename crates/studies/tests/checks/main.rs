//! The checks as a whole: their texts, that each of them can find fault, and
//! that every mend offered does what it says.

mod any;
mod broken;
#[path = "../common/mod.rs"]
mod common;
mod fire;
mod mends;
mod safe;
mod texts;
