//! Letters with accents, put together from letter and accent.

use super::glyphs;
use super::notation::{Glyph, steps};

/// Letters that are put together: with accent, without, and the accent, which
/// stands centred over the middle of the letter from the height of 0 upwards,
/// or hangs from the base line.
const COMPOSED: &[(&str, &str, Accent)] = &[
    ("ÀÈÌÒÙàèìòù", "AEIOUaeıou", over("M -1.25 2.3 L 0.75 0")),
    (
        "ÁÉÍÓÚÝĆŃŚŹáéíóúýćńśź",
        "AEIOUYCNSZaeıouycnsz",
        over("M 1.25 2.3 L -0.75 0"),
    ),
    (
        "ÂÊÎÔÛâêîôû",
        "AEIOUaeıou",
        over("M -1.75 0 L 0 2.2 L 1.75 0"),
    ),
    (
        "ČĎĚŇŘŠŤŽčďěňřšťž",
        "CDENRSTZcdenrstz",
        over("M -1.75 2.2 L 0 0 L 1.75 2.2"),
    ),
    (
        "ÃÑÕãñõ",
        "ANOano",
        over("M -2.5 0.8 A -1.25 0.8 -180 A 1.25 0.8 180"),
    ),
    (
        "ÄËÏÖÜŸäëïöüÿ",
        "AEIOUYaeıouy",
        over("M -1.5 0.7 L -1.5 1.5 M 1.5 0.7 L 1.5 1.5"),
    ),
    ("ÅŮåů", "AUau", over("M 1.25 1.25 A 0 1.25 360")),
    ("ĀĒĪŪāēīū", "AEIUaeıu", over("M -2 1 L 2 1")),
    ("ĂĞăğ", "AGag", over("M -1.75 2.2 A 0 2.2 180")),
    ("İŻż", "IZz", over("M 0 0.7 L 0 1.5")),
    (
        "ŐŰőű",
        "OUou",
        over("M -0.25 2.3 L -1.5 0 M 2 2.3 L 0.75 0"),
    ),
    (
        "ÇŞŢçşţ",
        "CSTcst",
        under("M 0 0 L 0 -1 A 0 -2.25 -180 L -1.25 -3.5"),
    ),
    ("ĄĘąę", "AEae", under("M 2 0 A 2 -1.5 180 L 3 -3")),
];

/// Raised figures: the figure, made smaller.
const RAISED: (&str, &str) = ("¹²³", "123");
const RAISED_SCALE: f64 = 0.55;

/// Fractions of one character: raised figure and figure below.
const FRACTIONS: [(char, char, char); 3] = [('¼', '¹', '4'), ('½', '¹', '2'), ('¾', '³', '4')];

/// Width left for the accent of a letter that is no more than a stem.
const NARROWEST: f64 = 3.0;

/// Clear height between a letter and what stands over it.
const CLEAR: f64 = 1.4;

struct Accent {
    strokes: &'static str,
    over: bool,
}

const fn over(strokes: &'static str) -> Accent {
    Accent {
        strokes,
        over: true,
    }
}

const fn under(strokes: &'static str) -> Accent {
    Accent {
        strokes,
        over: false,
    }
}

/// The glyph of a character that is put together.
pub(super) fn composed(c: char) -> Option<Glyph> {
    raised(c).or_else(|| fraction(c)).or_else(|| {
        COMPOSED
            .iter()
            .find_map(|(with, without, accent)| Some((partner(c, with, without)?, accent)))
            .and_then(|(bare, accent)| accented(bare, accent))
    })
}

/// The character of one list at the place another has in its own.
fn partner(c: char, list: &str, other: &str) -> Option<char> {
    let at = list.chars().position(|listed| listed == c)?;
    other.chars().nth(at)
}

fn raised(c: char) -> Option<Glyph> {
    let bare = glyphs::glyph(partner(c, RAISED.0, RAISED.1)?)?;
    let up = (0.0, super::CAP * (1.0 - RAISED_SCALE));
    let steps = bare.steps.into_iter().map(|s| s.placed(RAISED_SCALE, up));
    Some(Glyph {
        width: bare.width * RAISED_SCALE,
        steps: steps.collect(),
    })
}

/// Fractions of one character: both figures made smaller, a stroke between.
fn fraction(c: char) -> Option<Glyph> {
    let (above, below) = FRACTIONS.iter().find(|f| f.0 == c).map(|f| (f.1, f.2))?;
    let (above, below) = (raised(above)?, glyphs::glyph(below)?);
    let slash = glyphs::glyph('/')?;
    let middle = above.width;
    let right = middle + slash.width * 0.8;
    let slash = slash
        .steps
        .into_iter()
        .map(|s| s.placed(0.8, (middle, 1.6)));
    let foot = below
        .steps
        .into_iter()
        .map(|s| s.placed(RAISED_SCALE, (right, 0.0)));
    Some(Glyph {
        width: right + below.width * RAISED_SCALE,
        steps: above.steps.into_iter().chain(slash).chain(foot).collect(),
    })
}

fn accented(letter: char, accent: &Accent) -> Option<Glyph> {
    let bare = glyphs::glyph(letter)?;
    let width = bare.width.max(NARROWEST);
    let middle = ((width - bare.width) / 2.0, 0.0);
    let height = if accent.over {
        top(letter) + CLEAR
    } else {
        0.0
    };
    let hung = steps(accent.strokes).into_iter();
    let steps = bare.steps.into_iter().map(|s| s.placed(1.0, middle));
    let accents = hung.map(|s| s.placed(1.0, (width / 2.0, height)));
    Some(Glyph {
        width,
        steps: steps.chain(accents).collect(),
    })
}

/// Height of a letter.
fn top(letter: char) -> f64 {
    if letter.is_lowercase() && !"bdfhklt".contains(letter) {
        8.0
    } else {
        super::CAP
    }
}
