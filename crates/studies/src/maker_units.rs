//! Mends in the units the maker wrote: a design in inches is answered in inches.

use crate::check::{Candidate, Edit};

/// A unit of length other than the millimetres that mends are reckoned in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Unit {
    Centimetre,
    Inch,
}

/// Marks on a rule in inches: a thirty-second is 0.8 mm.
const MARKS: f64 = 32.0;

impl Unit {
    const fn millimetres(self) -> f64 {
        match self {
            Self::Centimetre => 10.0,
            Self::Inch => 25.4,
        }
    }

    const fn symbol(self) -> &'static str {
        match self {
            Self::Centimetre => "cm",
            Self::Inch => "in",
        }
    }

    /// The unit of lengths as written, tolerance left out.
    fn of(written: &str) -> Option<Self> {
        let value = written.split(['±', '+']).next()?.trim_end();
        [Self::Centimetre, Self::Inch]
            .into_iter()
            .find(|unit| value.ends_with(unit.symbol()))
    }

    /// So many millimetres, rounded to a mark of the rule: away from `from` where that is
    /// given, so that a change never falls short.
    fn say(self, millimetres: f64, from: Option<f64>) -> String {
        let length = millimetres / self.millimetres();
        if self == Self::Centimetre {
            let text = format!("{length:.2}");
            return text.trim_end_matches('0').trim_end_matches('.').to_owned();
        }
        let marks = MARKS * length;
        let marks = match from {
            Some(from) if from < millimetres => (marks - 1e-6).ceil(),
            Some(from) if from > millimetres => (marks + 1e-6).floor(),
            _ => marks.round(),
        };
        fraction(marks as u64)
    }
}

/// "3 1/2" for 112 thirty-seconds.
fn fraction(marks: u64) -> String {
    let (whole, mut over, mut under) = (marks / 32, marks % 32, 32);
    while over > 0 && over % 2 == 0 {
        (over, under) = (over / 2, under / 2);
    }
    match (whole, over) {
        (_, 0) => whole.to_string(),
        (0, _) => format!("{over}/{under}"),
        _ => format!("{whole} {over}/{under}"),
    }
}

/// A candidate with its lengths in the units of the keys it changes.
pub(crate) fn restated(design: &str, candidate: &Candidate) -> Candidate {
    let mut said: Vec<(String, String)> = Vec::new();
    let mut unit = None;
    let edits: Vec<Edit> = candidate
        .edits
        .iter()
        .map(|edit| {
            let written = written(design, edit);
            let own = written.as_deref().and_then(Unit::of);
            let value = edit.value.as_deref().filter(|value| are_lengths(value));
            let (Some(own), Some(value), Some(written)) = (own, value, written) else {
                return edit.clone();
            };
            unit = unit.or(Some(own));
            Edit {
                key: edit.key.clone(),
                value: Some(value_in(own, value, &written, &mut said)),
            }
        })
        .collect();
    let words = unit.map_or_else(
        || candidate.words.clone(),
        |unit| words_in(unit, &candidate.words, &said),
    );
    Candidate { words, edits }
}

/// What stands at the key of an edit, without its quotes; `None` where nothing does.
fn written(design: &str, edit: &Edit) -> Option<String> {
    // Another value there shows where the old one begins and ends.
    let other = design::set_value(design, &edit.path(), "\u{1}").ok()?;
    let same = |(a, b): &(u8, u8)| a == b;
    let head = design.bytes().zip(other.bytes()).take_while(same).count();
    let (old, new) = (&design.as_bytes()[head..], &other.as_bytes()[head..]);
    let ends = old.iter().rev().copied().zip(new.iter().rev().copied());
    let tail = ends.take_while(same).count();
    let old = core::str::from_utf8(&old[..old.len() - tail]).ok()?;
    let old = old.trim_matches('"').trim();
    (!old.is_empty()).then(|| old.to_owned())
}

/// The lengths of a value as written, each with its own text, in millimetres.
fn lengths(unit: Unit, written: &str) -> Vec<(String, f64)> {
    let value = written.split(['±', '+']).next().unwrap_or_default();
    let value = value.trim().trim_start_matches("about").trim();
    let bare = |text: &str| {
        text.trim()
            .trim_end_matches(unit.symbol())
            .trim()
            .to_owned()
    };
    value
        .split(" x ")
        .map(bare)
        .filter_map(|text| {
            let length = number(&text)?;
            Some((text, length * unit.millimetres()))
        })
        .collect()
}

/// Whether a value is lengths in millimetres, not the name of a part that ends like one.
fn are_lengths(value: &str) -> bool {
    let bare = value.split(" ± ").next().unwrap_or_default();
    let bare = bare.strip_prefix("about ").unwrap_or(bare);
    let edges = bare.strip_suffix(" mm");
    edges.is_some_and(|edges| edges.split(" x ").all(|edge| number(edge).is_some()))
}

/// A number, or one with a fraction: "3 1/2".
fn number(text: &str) -> Option<f64> {
    text.split_whitespace().try_fold(0.0, |sum, word| {
        let part: f64 = match word.split_once('/') {
            Some((over, under)) => over.parse::<f64>().ok()? / under.parse::<f64>().ok()?,
            None => word.parse().ok()?,
        };
        Some(sum + part)
    })
}

/// What counts as the same length, in mm: half of the tenth that is written.
const SAME: f64 = 0.051;

/// A value in millimetres in another unit; what did not change stays as it was written. What
/// each number became is added to `said`.
fn value_in(unit: Unit, value: &str, written: &str, said: &mut Vec<(String, String)>) -> String {
    let (about, rest) = value
        .strip_prefix("about ")
        .map_or(("", value), |rest| ("about ", rest));
    let (edges, tolerance) = rest
        .split_once(" ± ")
        .map_or((rest, None), |(edges, half)| (edges, Some(half)));
    let old = lengths(unit, written);
    let numbers = edges.trim_end_matches(" mm").split(" x ");
    let numbers = numbers.enumerate().map(|(index, text)| {
        let Some(millimetres) = number(text) else {
            return text.to_owned();
        };
        let was = old.get(index);
        let kept = was.filter(|(_, was)| (was - millimetres).abs() < SAME);
        let then = kept.map_or_else(
            || unit.say(millimetres, was.map(|(_, was)| *was)),
            |(text, _)| text.clone(),
        );
        said.push((text.to_owned(), then.clone()));
        then
    });
    let edges = numbers.collect::<Vec<_>>().join(" x ");
    let tolerance = tolerance.map_or_else(String::new, |half| format!(" ± {half}"));
    format!("{about}{edges} {}{tolerance}", unit.symbol())
}

/// Words with the lengths before each "mm" in another unit.
fn words_in(unit: Unit, words: &str, said: &[(String, String)]) -> String {
    let mut tokens: Vec<String> = words.split(' ').map(Into::into).collect();
    for end in 0..tokens.len() {
        let Some(rest) = tokens[end].strip_prefix("mm") else {
            continue;
        };
        let joins = |token: &str| matches!(token, "x" | "×" | "→");
        if !rest.chars().all(|c| c.is_ascii_punctuation()) {
            continue;
        }
        tokens[end] = format!("{}{rest}", unit.symbol());
        for token in tokens[..end].iter_mut().rev() {
            if joins(token) {
                continue;
            }
            let Ok(millimetres) = token.parse::<f64>() else {
                break;
            };
            let known = said.iter().find(|(text, _)| text == token);
            *token = known.map_or_else(|| unit.say(millimetres, None), |(_, then)| then.clone());
        }
    }
    tokens.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mended(written: &str, words: &str, value: &str) -> (String, String) {
        let design = format!("[box]\noutside = \"{written}\" # over the walls\n");
        let candidate = Candidate::set(words, "box.outside", value);
        let said = restated(&design, &candidate);
        (said.words, said.edits[0].value.clone().unwrap())
    }

    #[test]
    fn inches_are_answered_in_inches() {
        let (words, value) = mended(
            "17 1/2 x 9 1/2 x 8 in",
            "box width 444.5 → 420 mm",
            "420 x 241.3 x 203.2 mm",
        );
        // 420 mm are 16.535 in; smaller, so that it does not stay too large.
        assert_eq!(value, "16 17/32 x 9 1/2 x 8 in");
        assert_eq!(words, "box width 17 1/2 → 16 17/32 in");
    }

    #[test]
    fn what_grows_is_rounded_up() {
        let (words, value) = mended(
            "10 in x 8 in x 6 in",
            "box depth 152.4 → 161 mm, all",
            "254 x 203.2 x 161 mm",
        );
        assert_eq!(value, "10 x 8 x 6 11/32 in");
        assert_eq!(words, "box depth 6 → 6 11/32 in, all");
    }

    #[test]
    fn centimetres_and_tolerances_stay() {
        let (words, value) = mended(
            "about 44 x 24 x 20 cm",
            "box width 440 → 420.5 mm",
            "about 420.5 x 240 x 200 mm",
        );
        assert_eq!(value, "about 42.05 x 24 x 20 cm");
        assert_eq!(words, "box width 44 → 42.05 cm");
        let (_, value) = mended("44 cm ± 1 mm", "", "420 mm ± 1 mm");
        assert_eq!(value, "42 cm ± 1 mm");
    }

    #[test]
    fn millimetres_and_what_is_no_length_stay() {
        let kept = ("a 440 → 420 mm".to_owned(), "420 x 240 mm".to_owned());
        assert_eq!(mended("440 x 240 mm", &kept.0, &kept.1), kept);
        let swap = ("walls".to_owned(), "birch plywood 12 mm".to_owned());
        assert_eq!(mended("plywood 1/2 in", &swap.0, &swap.1), swap);
        let absent = Candidate::set("inset 12 mm", "box.inset", "12 mm");
        assert_eq!(restated("[box]\n", &absent), absent);
    }
}
