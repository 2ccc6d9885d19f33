//! The two states of the output.

/// Whether the lamp is lit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// The battery is well, the output high, the lamp dark.
    Dark,
    /// The battery is low, the output low, the lamp lit.
    Lit,
}
