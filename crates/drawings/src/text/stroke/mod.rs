//! Letters of single strokes, for engraving: every line is run along once by
//! a tool or a pen, and the width of the tool is the width of the stroke.
//!
//! The shapes are plain stretches and true circular arcs on a grid on which a
//! capital is twelve units high; letters with accents are put together.

mod accents;
mod glyphs;
mod notation;

use crate::geometry::Point;
use crate::path::{Path, Segment};
use crate::sheet::{Anchor, Text};
use crate::text::drawable;
use notation::{Glyph, Step};

/// Height of a capital on the grid of the glyphs.
const CAP: f64 = 12.0;
/// Between two letters, on that grid.
const SPACING: f64 = 3.0;
/// Width of a space, its spacing included.
const SPACE: f64 = 7.0;
/// What is drawn for a character that has no glyph.
const STAND_IN: char = '?';

/// Single-stroke letters of one size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StrokeLettering {
    /// Height of a capital in mm.
    pub cap_mm: f64,
}

impl StrokeLettering {
    /// Letters whose capitals are so many mm high.
    #[must_use]
    pub const fn new(cap_mm: f64) -> Self {
        Self { cap_mm }
    }

    /// Width of a line in mm, from the first stroke to the last.
    #[must_use]
    pub fn width(&self, text: &str) -> f64 {
        let units: f64 = text.chars().map(advance).sum();
        (units - SPACING).max(0.0) * self.cap_mm / CAP
    }

    /// The strokes of a line of text whose anchor stands at `at` on the base
    /// line, turned about it by degrees, clockwise as seen.
    #[must_use]
    pub fn path(&self, text: &str, at: Point, anchor: Anchor, turn_deg: f64) -> Path {
        let scale = self.cap_mm / CAP;
        let turn = turn_deg.to_radians();
        let mut x = match anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -self.width(text) / 2.0,
            Anchor::End => -self.width(text),
        };
        let mut path = Path::default();
        for c in text.chars() {
            let set = |(gx, gy): (f64, f64)| {
                let flat = at.moved(x + gx * scale, -gy * scale);
                if turn == 0.0 {
                    flat
                } else {
                    flat.turned(at, turn)
                }
            };
            let steps = glyph(c).into_iter().flat_map(|g| g.steps);
            path.segments.extend(steps.map(|step| match step {
                Step::Move(p) => Segment::Move(set(p)),
                Step::Line(p) => Segment::Line(set(p)),
                // Angles on the grid count against the clock.
                Step::Arc(centre, degrees) => Segment::Arc {
                    centre: set(centre),
                    sweep: -degrees.to_radians(),
                },
            }));
            x += advance(c) * scale;
        }
        path
    }

    /// The strokes of a text of a sheet: in its place, its capitals as high,
    /// and no wider than it.
    #[must_use]
    pub(crate) fn of(text: &Text) -> Path {
        let content = drawable(&text.content);
        let natural = Self::new(text.letters.cap_height());
        let wide = natural.width(&content);
        let fit = if wide > text.width() {
            text.width() / wide
        } else {
            1.0
        };
        Self::new(natural.cap_mm * fit).path(&content, text.at, text.anchor, text.turn_deg)
    }
}

/// Characters of the text that have no glyph, each once.
#[must_use]
pub fn missing(text: &str) -> Vec<char> {
    let mut out = Vec::new();
    for c in text.chars() {
        if !c.is_whitespace() && known(c).is_none() && !out.contains(&c) {
            out.push(c);
        }
    }
    out
}

fn known(c: char) -> Option<Glyph> {
    glyphs::glyph(c).or_else(|| accents::composed(c))
}

/// What is drawn for a character; nothing for a space.
fn glyph(c: char) -> Option<Glyph> {
    if c.is_whitespace() {
        return None;
    }
    known(c).or_else(|| known(STAND_IN))
}

/// From the start of one letter to the start of the next.
fn advance(c: char) -> f64 {
    glyph(c).map_or(SPACE, |g| g.width + SPACING)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Rect;
    use crate::text::Lettering;

    const TWELVE: StrokeLettering = StrokeLettering::new(12.0);

    fn bounds(text: &str) -> Rect {
        let path = TWELVE.path(text, Point::default(), Anchor::Start, 0.0);
        let points: Vec<Point> = path.flatten().into_iter().flat_map(|l| l.points).collect();
        Rect::around(&points).unwrap()
    }

    #[test]
    fn every_usual_sign_has_a_glyph() {
        let signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789\
            .,:;!?'\"()[]{}/\\|+-=<>*#%&@_~^$£€°µΩ×÷±²³¼½¾→←↑↓⌀·…–—−≤≥≈√∞‘’“”„«»¿¡\
            ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÑÒÓÔÕÖØÙÚÛÜÝàáâãäåæçèéêëìíîïñòóôõöøùúûüýÿßœŒ\
            ĀāĂăĄąĆćČčĎďĐđĒēĘęĚěĞğĪīİıŁłŃńŇňŐőŘřŚśŞşŠšŢţŤťŪūŮůŰűŹźŻżŽžþÞðÐ";
        assert_eq!(missing(signs), Vec::<char>::new());
        assert_eq!(missing("a語 b語"), ['語']);
    }

    #[test]
    fn capitals_and_digits_are_as_high_as_stated() {
        for c in ('A'..='Z').chain('0'..='9') {
            let b = bounds(&c.to_string());
            assert!((b.y + 12.0).abs() < 0.01, "{c}: {b:?}");
            assert!(b.bottom().abs() < 0.01 || c == 'Q', "{c}: {b:?}");
        }
        for c in "aceimnorsuvwxz".chars() {
            let b = bounds(&c.to_string());
            assert!(b.bottom().abs() < 0.01, "{c}: {b:?}");
            assert!((b.y + 8.0).abs() < 0.01 || c == 'i', "{c}: {b:?}");
        }
    }

    #[test]
    fn letters_stay_within_their_width() {
        let signs: Vec<char> = ('!'..='~').chain('¡'..='ſ').collect();
        for c in signs.into_iter().filter(|c| known(*c).is_some()) {
            let b = bounds(&c.to_string());
            let width = advance(c) - SPACING;
            // An accent may reach a little over a narrow letter.
            assert!(
                b.x > -1.8 && b.right() < width + 1.8,
                "{c}: {b:?} of {width}"
            );
            assert!(b.y > -16.5 && b.bottom() < 4.6, "{c}: {b:?}");
            if c.is_ascii() {
                assert!(
                    b.x > -0.01 && b.right() < width + 0.01,
                    "{c}: {b:?} of {width}"
                );
            }
        }
    }

    #[test]
    fn no_two_signs_look_alike() {
        let signs: Vec<char> = ('!'..='~').collect();
        for (i, a) in signs.iter().enumerate() {
            for b in &signs[i + 1..] {
                assert_ne!(known(*a), known(*b), "{a} and {b}");
            }
        }
    }

    #[test]
    fn anchors_and_turns_hold_the_line_in_place() {
        let at = Point::new(50.0, 20.0);
        let width = TWELVE.width("Volume");
        assert!((bounds("Volume").right() - width).abs() < 0.01);
        let spans = |anchor, turn| {
            let path = TWELVE.path("Volume", at, anchor, turn);
            let points: Vec<Point> = path.flatten().into_iter().flat_map(|l| l.points).collect();
            Rect::around(&points).unwrap()
        };
        assert!((spans(Anchor::End, 0.0).right() - 50.0).abs() < 0.01);
        assert!((spans(Anchor::Middle, 0.0).centre().x - 50.0).abs() < 0.01);
        let up = spans(Anchor::Start, -90.0);
        assert!((up.bottom() - 20.0).abs() < 0.01 && (up.h - width).abs() < 0.01);
        assert!(
            (up.right() - 50.0).abs() < 0.01,
            "the base line is at the right"
        );
    }

    #[test]
    fn a_text_of_a_sheet_is_no_wider_in_strokes() {
        for content in ["WWWWMM", "ill il", "Volume 10 Ω"] {
            let text = Text::new(Point::default(), content, Lettering::regular(4.0));
            let strokes = StrokeLettering::of(&text);
            let points: Vec<Point> = strokes
                .flatten()
                .into_iter()
                .flat_map(|l| l.points)
                .collect();
            assert!(
                Rect::around(&points).unwrap().w <= text.width() + 1e-6,
                "{content}"
            );
        }
    }
}
