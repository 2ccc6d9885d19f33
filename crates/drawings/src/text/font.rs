//! The two embedded faces and what their tables say.

use std::sync::OnceLock;
use ttf_parser::{Face, GlyphId, OutlineBuilder};

static REGULAR: &[u8] = include_bytes!("../../fonts/DejaVuSans.ttf");
static BOLD: &[u8] = include_bytes!("../../fonts/DejaVuSans-Bold.ttf");

/// Weight of letters.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Weight {
    /// For reading.
    #[default]
    Regular,
    /// For headings and values.
    Bold,
}

/// One character as a glyph.
pub(crate) struct GlyphRun {
    /// Number of the glyph in the font.
    pub(crate) glyph: u16,
    /// Bytes of the text it stands for.
    pub(crate) range: core::ops::Range<usize>,
    /// Its advance in em.
    pub(crate) advance: f64,
}

/// The font file of a weight, for those that embed or serve it.
#[must_use]
pub fn font_data(weight: Weight) -> &'static [u8] {
    match weight {
        Weight::Regular => REGULAR,
        Weight::Bold => BOLD,
    }
}

fn face(weight: Weight) -> &'static Face<'static> {
    static FACES: OnceLock<[Face<'static>; 2]> = OnceLock::new();
    let faces = FACES.get_or_init(|| {
        [REGULAR, BOLD].map(|data| Face::parse(data, 0).expect("an embedded font is well formed"))
    });
    match weight {
        Weight::Regular => &faces[0],
        Weight::Bold => &faces[1],
    }
}

pub(crate) fn em(weight: Weight) -> f64 {
    f64::from(face(weight).units_per_em())
}

/// The glyph of a character, of the stand-in where the font has none.
fn glyph(c: char, weight: Weight) -> GlyphId {
    let face = face(weight);
    let known = face.glyph_index(c);
    known
        .or_else(|| face.glyph_index(STAND_IN))
        .unwrap_or(GlyphId(0))
}

/// What is drawn for a character that the font does not hold.
const STAND_IN: char = '?';

/// The text with the stand-in for every character that the font does not hold.
pub(crate) fn held(text: &str, weight: Weight) -> String {
    let known = |c: &char| face(weight).glyph_index(*c).is_some();
    text.chars()
        .map(|c| if known(&c) { c } else { STAND_IN })
        .collect()
}

/// Characters of the text that the font has no glyph for, each once.
#[must_use]
pub fn missing(text: &str, weight: Weight) -> Vec<char> {
    let mut out = Vec::new();
    for c in text.chars() {
        if face(weight).glyph_index(c).is_none() && !out.contains(&c) {
            out.push(c);
        }
    }
    out
}

/// The text as glyphs, one per character.
pub(crate) fn glyph_run(text: &str, weight: Weight) -> Vec<GlyphRun> {
    let (face, em) = (face(weight), em(weight));
    text.char_indices()
        .map(|(at, c)| {
            let id = glyph(c, weight);
            GlyphRun {
                glyph: id.0,
                range: at..at + c.len_utf8(),
                advance: f64::from(face.glyph_hor_advance(id).unwrap_or(0)) / em,
            }
        })
        .collect()
}

/// Hands the outline of a glyph to a builder, in units of the em.
pub(crate) fn outline_of(glyph: u16, weight: Weight, builder: &mut dyn OutlineBuilder) {
    // A glyph without ink, such as a space, has no outline.
    let _ = face(weight).outline_glyph(GlyphId(glyph), builder);
}

/// Width of a line in em.
pub(crate) fn advance(text: &str, weight: Weight) -> f64 {
    let face = face(weight);
    let units: u32 = text
        .chars()
        .map(|c| u32::from(face.glyph_hor_advance(glyph(c, weight)).unwrap_or(0)))
        .sum();
    f64::from(units) / em(weight)
}

/// Reach of the ink above and below the base line in em.
pub(crate) fn extent(text: &str, weight: Weight) -> (f64, f64) {
    let face = face(weight);
    let boxes = text
        .chars()
        .filter_map(|c| face.glyph_bounding_box(glyph(c, weight)));
    let (above, below) = boxes.fold((0_i16, 0_i16), |(above, below), b| {
        (above.max(b.y_max), below.max(-b.y_min))
    });
    (f64::from(above) / em(weight), f64::from(below) / em(weight))
}

/// Height of a capital in em.
pub(crate) fn cap_height(weight: Weight) -> f64 {
    f64::from(face(weight).capital_height().unwrap_or(1493)) / em(weight)
}

/// Ascent in em.
pub(crate) fn ascent(weight: Weight) -> f64 {
    f64::from(face(weight).ascender()) / em(weight)
}

/// Descent in em, positive.
pub(crate) fn descent(weight: Weight) -> f64 {
    -f64::from(face(weight).descender()) / em(weight)
}
