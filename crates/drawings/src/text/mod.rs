//! Exact measures of the embedded fonts, and the setting of lines.
//!
//! Both exporters place one glyph per character by its own advance, without
//! kerning or ligatures, so what is measured here is what is drawn.

mod font;
mod outline;
mod set;
pub mod stroke;

pub use font::{Weight, font_data, missing};
pub(crate) use font::{em, glyph_run, held, outline_of};
pub use outline::outlined;
pub use set::{number, signed};

use crate::math;

/// Size and weight of letters.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lettering {
    /// Size of the em in mm; a capital is 0.729 of it high.
    pub size_mm: f64,
    /// Regular or bold.
    pub weight: Weight,
}

impl Lettering {
    /// Regular letters with an em of so many mm.
    #[must_use]
    pub const fn regular(size_mm: f64) -> Self {
        Self {
            size_mm,
            weight: Weight::Regular,
        }
    }

    /// Bold letters with an em of so many mm.
    #[must_use]
    pub const fn bold(size_mm: f64) -> Self {
        Self {
            size_mm,
            weight: Weight::Bold,
        }
    }

    /// Width of a line in mm: the sum of its glyphs' advances.
    #[must_use]
    pub fn width(&self, text: &str) -> f64 {
        font::advance(text, self.weight) * self.size_mm
    }

    /// How far the ink of this very text reaches above and below the base
    /// line, in mm (both positive when it does).
    #[must_use]
    pub fn ink(&self, text: &str) -> (f64, f64) {
        let (above, below) = font::extent(text, self.weight);
        (above * self.size_mm, below * self.size_mm)
    }

    /// Height of a capital letter in mm.
    #[must_use]
    pub fn cap_height(&self) -> f64 {
        font::cap_height(self.weight) * self.size_mm
    }

    /// Height that any letter with accents stays within, above the base line.
    #[must_use]
    pub fn ascent(&self) -> f64 {
        font::ascent(self.weight) * self.size_mm
    }

    /// Depth that any letter stays within, below the base line (positive).
    #[must_use]
    pub fn descent(&self) -> f64 {
        font::descent(self.weight) * self.size_mm
    }

    /// Comfortable distance of base lines in mm.
    #[must_use]
    pub fn leading(&self) -> f64 {
        1.42 * self.size_mm
    }

    /// The text, shortened with an ellipsis where it is wider than `max` mm.
    #[must_use]
    pub fn ellipsis(&self, text: &str, max: f64) -> String {
        if self.width(text) <= max {
            return text.to_owned();
        }
        let mut kept = text.to_owned();
        while kept.pop().is_some() {
            let shown = format!("{}…", kept.trim_end());
            if self.width(&shown) <= max {
                return shown;
            }
        }
        String::new()
    }

    /// The text broken into lines no wider than `max` mm, at spaces; a word
    /// wider than that is broken between characters. A no-break space holds
    /// number and unit together and is drawn as a plain space.
    #[must_use]
    pub fn wrap(&self, text: &str, max: f64) -> Vec<String> {
        set::wrap(self, text, max)
    }

    /// The same letters, made smaller (not below `least` mm) until the text
    /// is no wider than `max` mm.
    #[must_use]
    pub fn fitted(&self, text: &str, max: f64, least: f64) -> Self {
        let width = self.width(text);
        let size_mm = if width > max {
            let tenths = math::floor(self.size_mm * max / width * 20.0) / 20.0;
            tenths.max(least).min(self.size_mm)
        } else {
            self.size_mm
        };
        Self { size_mm, ..*self }
    }
}

/// A text with its first letter raised, for the head of a line.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
}

/// The text as it can be drawn: line breaks, tabs and no-break spaces become
/// spaces, other control characters go.
#[must_use]
pub fn drawable(text: &str) -> String {
    text.chars()
        .map(|c| {
            if c.is_whitespace() || c == '\u{a0}' || c == '\u{202f}' {
                ' '
            } else {
                c
            }
        })
        .filter(|c| !c.is_control() && !('\u{fffe}'..='\u{ffff}').contains(c))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEN: Lettering = Lettering::regular(10.0);

    #[test]
    fn widths_are_those_of_the_font_file() {
        // The font file's own tables: 2048 units to the em, digits 1303 wide
        // in regular and 1425 in bold, capitals 1493 high.
        assert!((TEN.width("0123456789") - 10.0 * 10.0 * 1303.0 / 2048.0).abs() < 1e-9);
        let bold = Lettering::bold(10.0);
        assert!((bold.width("7") - 10.0 * 1425.0 / 2048.0).abs() < 1e-9);
        assert!((TEN.cap_height() - 10.0 * 1493.0 / 2048.0).abs() < 1e-9);
        let (above, below) = TEN.ink("H");
        assert!((above - TEN.cap_height()).abs() < 0.01 && below.abs() < 0.01);
        assert!(TEN.ink("g").1 > 1.5, "g hangs below the line");
    }

    #[test]
    fn every_sign_we_draw_is_in_both_fonts() {
        let signs = "Ωµ±×→−≥≤²³°€“”‘’…·–—≈√∞⌀½αηρπσΔ▲▼●◆■☐ₑ₀₁₄£¥ÄÖÜäöüßéèçñåø";
        for weight in [Weight::Regular, Weight::Bold] {
            assert_eq!(missing(signs, weight), Vec::<char>::new(), "{weight:?}");
        }
        assert_eq!(missing("語", Weight::Regular), vec!['語']);
    }

    #[test]
    fn a_question_mark_stands_in_for_what_the_font_lacks() {
        assert_eq!(held("Kiste 語 2", Weight::Bold), "Kiste ? 2");
        assert_eq!(TEN.width("a語"), TEN.width("a?"));
        let glyphs = |text| glyph_run(text, Weight::Regular)[0].glyph;
        assert_eq!(glyphs("語"), glyphs("?"));
    }

    #[test]
    fn ellipsis_keeps_within_the_width() {
        let text = "amplifier board, bridged, two channels";
        let max = TEN.width("amplifier boa…");
        assert_eq!(TEN.ellipsis(text, max), "amplifier boa…");
        assert_eq!(TEN.ellipsis("short", 1000.0), "short");
        assert_eq!(TEN.ellipsis("short", 0.1), "");
    }

    #[test]
    fn fitting_stops_at_the_least_size() {
        let fitted = TEN.fitted("a rather long line", 40.0, 1.0);
        assert!(fitted.width("a rather long line") <= 40.0 && fitted.size_mm > 1.0);
        assert!((TEN.fitted("x", 0.001, 2.0).size_mm - 2.0).abs() < 1e-12);
        assert_eq!(TEN.fitted("x", 100.0, 2.0), TEN);
    }

    #[test]
    fn control_characters_are_not_drawn() {
        assert_eq!(drawable("a\tb\u{0}\u{7}c\u{a0}d\ne"), "a bc d e");
    }
}
