//! The bench over raw sockets: what it must refuse, and what it must never lose.

#![allow(
    clippy::unwrap_used,
    reason = "a test may stop where its setting fails"
)]

mod attack;
mod bench;
mod drawer;
mod escape;
mod handout;
mod kill;
mod links;
mod mishaps;
mod quick;
mod session;
mod slow;
