//! The real binary, run the way a maker runs it.
//!
//! `BLESS=1 cargo test -p boxwright` writes the golden files anew; then read
//! the diff.

#![allow(
    clippy::unwrap_used,
    reason = "a test may stop where its setting fails"
)]

mod broken;
mod examples;
mod export;
mod files;
mod json;
mod machine;
mod manual;
mod mend;
mod new;
mod odd;
mod pack;
mod shelf;
mod support;
mod terminal;
