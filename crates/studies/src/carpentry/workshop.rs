//! Work in wood that a design and its variants share: most changes leave most of it alone.

use super::access::Ways;
use super::gaps::Gaps;
use super::parts::Places;
use super::sheets::Layouts;

/// Work done so far.
#[derive(Clone, Debug, Default)]
pub(crate) struct Workshop {
    /// Layouts of sheets.
    pub(crate) layouts: Layouts,
    /// Places of parts that nobody placed.
    pub(crate) places: Places,
    /// Gaps between parts and to the wood.
    pub(crate) gaps: Gaps,
    /// Ways out of the box.
    pub(crate) ways: Ways,
}

impl Workshop {
    /// The same, with no layout known.
    pub(crate) fn without_layouts(&self) -> Self {
        Self {
            layouts: Layouts::default(),
            ..self.clone()
        }
    }
}
