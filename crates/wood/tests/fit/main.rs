//! What fits, what is in the way, and what comes out.

mod arrange;
mod boxes;
mod carry;
mod gaps;
mod library;
mod reach;
