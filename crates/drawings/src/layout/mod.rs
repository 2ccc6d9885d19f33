//! The parts a printed sheet is put together from.
//!
//! A [`Block`] lays itself out into [`Piece`]s for a given width; a
//! [`flow`](flow()) stacks pieces into columns and moves on to a new page
//! when one is full.

mod bars;
mod block;
mod findings;
mod flow;
mod frame;
mod grid;
mod promise;
mod symbol;
mod table;
mod words;

pub use bars::{Bar, Bars};
pub use block::{Block, Piece, stacked};
pub use findings::FindingBlock;
pub use flow::flow;
pub(crate) use flow::is_slight;
pub use frame::{TitleBlock, content_area, notes_area};
pub use grid::Grid;
pub use promise::{Promise, PromiseStrip};
pub(crate) use symbol::role_of;
pub use symbol::symbol;
pub use table::{Align, Cell, Column, Ledger, Table};
pub use words::{Heading, Paragraph};

use crate::text::Lettering;

/// Letters for reading.
pub const BODY: Lettering = Lettering::regular(2.7);
/// Letters for reading that stand out.
pub const STRONG: Lettering = Lettering::bold(2.7);
/// Letters for side remarks.
pub const SMALL: Lettering = Lettering::regular(2.3);
/// Letters of headings.
pub const HEAD: Lettering = Lettering::bold(3.4);

#[cfg(test)]
mod tests;
