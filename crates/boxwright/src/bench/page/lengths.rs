//! Lengths as a script writes them: each in its own unit, on the marks of its rule.

use design::{Dimension, hand_written, written_numbers};
use serde::Serialize;

/// A text with lengths in it, taken apart.
#[derive(Debug, Serialize)]
pub(super) struct Lengths {
    /// What stands before, between and behind the numbers.
    pieces: Vec<String>,
    numbers: Vec<Mark>,
}

/// One number of it.
#[derive(Debug, Serialize)]
struct Mark {
    /// As it stands in the text.
    said: String,
    unit: &'static str,
    /// What one of the unit is in mm.
    per: f64,
    /// From one mark of the rule to the next, in the unit.
    step: f64,
    fraction: bool,
    /// Marks that a large step makes.
    many: u32,
}

/// A step of about so much, in m, is what a hand makes in wood.
const STEP: f64 = 1e-3;

impl Lengths {
    /// Takes a text apart that has so many lengths.
    pub(super) fn of(text: &str, count: usize) -> Option<Self> {
        let numbers = written_numbers(text, Dimension::Length)?;
        if numbers.len() != count {
            return None;
        }
        let ends = numbers.iter().map(|number| number.range.end);
        let starts = numbers.iter().map(|number| number.range.start);
        let froms = std::iter::once(0).chain(ends);
        let pieces = froms
            .zip(starts.chain([text.len()]))
            .map(|(from, to)| text[from..to].to_owned());
        let marks = numbers.iter().map(|number| Mark {
            said: text[number.range.clone()].to_owned(),
            unit: number.unit,
            per: 1e3 * number.per,
            step: number.step(STEP),
            fraction: number.fraction,
            many: if number.fraction { 16 } else { 10 },
        });
        Some(Self {
            pieces: pieces.collect(),
            numbers: marks.collect(),
        })
    }

    /// The same for a place that no text says yet, in m, written as another text is.
    pub(super) fn like(other: Option<&str>, at: &[f64]) -> Option<Self> {
        let known = other.and_then(|text| written_numbers(text, Dimension::Length));
        let said = |unit: &str, per: f64, fraction: bool| {
            let numbers = at.iter().map(|m| hand_written(m / per, fraction));
            let numbers: Vec<String> = numbers.collect();
            format!("{} {unit}", numbers.join(" x "))
        };
        let text = match known.as_deref() {
            Some([first, ..]) => said(first.unit, first.per, first.fraction),
            _ => said("mm", 1e-3, false),
        };
        Self::of(&text, at.len())
    }

    /// One of them with its unit.
    pub(super) fn spoken(&self, index: usize) -> String {
        let mark = &self.numbers[index];
        format!("{} {}", mark.said, mark.unit)
    }

    /// For a script.
    pub(super) fn json(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn put_together(lengths: &Lengths) -> String {
        let numbers = lengths.numbers.iter().map(|mark| mark.said.as_str());
        let pieces = lengths.pieces.iter().map(String::as_str);
        let mut out = String::new();
        for (piece, number) in pieces.zip(numbers.chain([""])) {
            out += piece;
            out += number;
        }
        out
    }

    #[test]
    fn a_text_taken_apart_is_the_same_text() {
        for text in [
            "360 x 200 x 188 mm ± 1 mm",
            "about 14 x 8 x 7 1/2 in",
            "14in × 20 cm × 3 in",
        ] {
            let lengths = Lengths::of(text, 3).unwrap();
            assert_eq!(put_together(&lengths), text);
        }
        assert!(Lengths::of("360 x 200 mm", 3).is_none());
    }

    #[test]
    fn what_is_not_said_yet_is_said_in_the_unit_of_the_house() {
        for (other, said) in [
            (None, "12.5 x 38.1 mm"),
            (Some("36 x 20 x 18 cm"), "1.25 x 3.81 cm"),
            (Some("14 x 8 x 7 1/2 in"), "31/64 x 1 1/2 in"),
            (Some("14.5 x 8 x 7 in"), "0.492 x 1.5 in"),
            (Some("large"), "12.5 x 38.1 mm"),
        ] {
            let lengths = Lengths::like(other, &[0.0125, 0.0381]).unwrap();
            assert_eq!(put_together(&lengths), said);
        }
    }
}
