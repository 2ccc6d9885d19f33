//! Work in wood that a design and its variants share: most changes leave most of it alone.

use super::access::Ways;
use super::gaps::Gaps;
use super::parts::Places;
use super::sheets::Layouts;
use super::solid::Bodies;

/// Work done so far.
#[derive(Clone, Debug, Default)]
pub(crate) struct Workshop {
    /// Layouts of sheets for a design and its variants.
    pub(super) layouts: Layouts,
    /// Layouts of sheets for designs as they are built, in full detail.
    pub(super) built: Layouts,
    /// Places of parts that nobody placed.
    pub(crate) places: Places,
    /// Gaps between parts and to the wood.
    pub(crate) gaps: Gaps,
    /// Ways out of the box.
    pub(crate) ways: Ways,
    /// The same of designs that are only tried, which are many.
    pub(crate) tried: Ways,
    /// Solid models.
    pub(crate) bodies: Bodies,
}

impl Workshop {
    /// The same for another design. Its variants are laid out in less detail, which must
    /// not stand for a design that is built.
    pub(crate) fn for_another(&self) -> Self {
        Self {
            layouts: Layouts::default(),
            ..self.clone()
        }
    }
}
