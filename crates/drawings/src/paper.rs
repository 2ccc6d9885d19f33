//! The papers a pack can be printed on.

use crate::geometry::Rect;

/// Paper, always laid with its long side across.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// ISO 216 A4, 297 mm × 210 mm.
    #[default]
    A4,
    /// US Letter, 11 in × 8.5 in.
    Letter,
}

impl Paper {
    /// Width and height in mm, long side across.
    #[must_use]
    pub const fn size_mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (297.0, 210.0),
            Self::Letter => (279.4, 215.9),
        }
    }

    /// The name to print in a title block.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
        }
    }

    /// The whole paper as a rectangle.
    #[must_use]
    pub fn rect(self) -> Rect {
        let (w, h) = self.size_mm();
        Rect::new(0.0, 0.0, w, h)
    }
}
