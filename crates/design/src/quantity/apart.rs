//! Written values taken apart, so that one of their numbers alone can be written anew.

use super::parse::{self, Piece};
use super::size;
use super::unit::Unit;
use super::{Dimension, decibel, number::Number};
use std::ops::Range;

/// One number of a value as it is written, in its own unit.
#[derive(Clone, Debug, PartialEq)]
pub struct WrittenNumber {
    /// The bytes of the text it stands on, without its unit.
    pub range: Range<usize>,
    /// Its value in its unit.
    pub value: f64,
    /// The usual spelling of its unit; empty for a pure number.
    pub unit: &'static str,
    /// What one of the unit is in SI.
    pub per: f64,
    /// What none of the unit is in SI: not 0 for degrees Fahrenheit.
    pub zero: f64,
    /// Whether it is written in fractions: lengths in inches, unless one of them has a
    /// decimal point.
    pub fraction: bool,
}

/// Steps in decimals that a hand is used to.
const DECIMAL: [f64; 22] = [
    0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0,
    200.0, 500.0, 1e3, 2e3, 5e3, 1e4,
];

/// Steps that an inch rule shows.
const MARKS: [f64; 9] = [
    1.0 / 64.0,
    1.0 / 32.0,
    1.0 / 16.0,
    0.125,
    0.25,
    0.5,
    1.0,
    2.0,
    4.0,
];

impl WrittenNumber {
    /// A value in SI in its unit.
    #[must_use]
    pub fn of_si(&self, si: f64) -> f64 {
        (si - self.zero) / self.per
    }

    /// The round step in its unit that is nearest to a difference in SI, greater than 0.
    #[must_use]
    pub fn step(&self, si: f64) -> f64 {
        let steps: &[f64] = if self.fraction { &MARKS } else { &DECIMAL };
        let wanted = si / self.per;
        let off = |step: f64| (step / wanted).max(wanted / step);
        let near = steps.iter().copied();
        near.min_by(|a, b| off(*a).total_cmp(&off(*b)))
            .unwrap_or(wanted)
    }
}

/// A number as a hand writes it: to the thousandth without idle zeros, or in fractions, to
/// the sixty-fourth.
#[must_use]
pub fn hand_written(value: f64, fraction: bool) -> String {
    if fraction {
        mixed(value)
    } else {
        decimal(value)
    }
}

/// The finest part of an inch that is written.
const FINEST: u64 = 64;

fn mixed(value: f64) -> String {
    let parts = (value.abs() * FINEST as f64).round() as u64;
    let sign = if value < 0.0 && parts > 0 { "-" } else { "" };
    let (whole, mut over, mut under) = (parts / FINEST, parts % FINEST, FINEST);
    while over > 0 && over % 2 == 0 {
        (over, under) = (over / 2, under / 2);
    }
    match (whole, over) {
        (_, 0) => format!("{sign}{whole}"),
        (0, _) => format!("{sign}{over}/{under}"),
        _ => format!("{sign}{whole} {over}/{under}"),
    }
}

fn decimal(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0" } else { text }.to_owned()
}

/// The numbers of a value, in their order: one, or as many as a size has lengths. The
/// tolerance is not among them. `None` where the text is no such value.
///
/// ```
/// use boxwright_design::{Dimension, hand_written, written_numbers};
/// let found = written_numbers("14 x 8 x 7 1/2 in ± 1/16 in", Dimension::Length).unwrap();
/// let said: Vec<String> = found.iter().map(|n| hand_written(n.value, n.fraction)).collect();
/// assert_eq!(said, ["14", "8", "7 1/2"]);
/// ```
#[must_use]
pub fn written_numbers(text: &str, dimension: Dimension) -> Option<Vec<WrittenNumber>> {
    let split = parse::split(text).ok()?;
    let pieces = match dimension {
        Dimension::Length => size::cut(split.nominal),
        _ => vec![split.nominal],
    };
    let behind = split
        .tolerance
        .and_then(|piece| parse::unit_behind(piece, dimension));
    let last = parse::nominal(*pieces.last()?, dimension, behind).ok()?;
    let found: Option<Vec<(WrittenNumber, Number)>> = pieces
        .iter()
        .map(|piece| one(*piece, dimension, last.unit))
        .collect();
    let found = found?;
    let pointed = found.iter().any(
        |(_, number)| matches!(number, Number::Decimal { digits, .. } if digits.contains('.')),
    );
    let found = found.into_iter().map(|(mut written, _)| {
        written.fraction = written.unit == "in" && !pointed;
        written
    });
    Some(found.collect())
}

fn one(
    piece: Piece<'_>,
    dimension: Dimension,
    fallback: Option<&'static Unit>,
) -> Option<(WrittenNumber, Number)> {
    let (number, used) = parse::leading(piece).ok()?;
    let unit = parse::nominal(piece, dimension, fallback).ok()?.unit;
    if unit.is_some_and(decibel::is_gain) {
        return None;
    }
    let once = Number::Decimal {
        digits: "1".to_owned(),
        power: 0,
    };
    let written = WrittenNumber {
        range: piece.start..piece.start + used,
        value: number.value(),
        unit: unit.map_or("", |unit| unit.symbol),
        per: unit.map_or(1.0, |unit| once.scaled(unit)),
        zero: unit.map_or(0.0, |unit| unit.offset),
        fraction: false,
    };
    Some((written, number))
}

#[cfg(test)]
mod tests {
    use super::*;
    use Dimension as D;

    fn moved(text: &str, dimension: D, index: usize, value: f64) -> String {
        let found = written_numbers(text, dimension).unwrap_or_else(|| panic!("{text}"));
        let number = &found[index];
        let mut out = text.to_owned();
        out.replace_range(number.range.clone(), &hand_written(value, number.fraction));
        out
    }

    #[test]
    fn the_number_alone_changes() {
        for (text, dimension, index, value, unit, to, after) in [
            (
                "360 x 200 x 188 mm",
                D::Length,
                2,
                188.0,
                "mm",
                190.0,
                "360 x 200 x 190 mm",
            ),
            (
                "36 × 20 × 18.8 cm",
                D::Length,
                0,
                36.0,
                "cm",
                19.0,
                "19 × 20 × 18.8 cm",
            ),
            (
                "14 in x 20 cm x 3 in",
                D::Length,
                1,
                20.0,
                "cm",
                20.5,
                "14 in x 20.5 cm x 3 in",
            ),
            (
                "14 x 8 x 7 1/2 in",
                D::Length,
                0,
                14.0,
                "in",
                14.0625,
                "14 1/16 x 8 x 7 1/2 in",
            ),
            (
                "14 x 8 x 7½ inches",
                D::Length,
                2,
                7.5,
                "in",
                7.75,
                "14 x 8 x 7 3/4 inches",
            ),
            (
                "1-1/2\" x 2\"",
                D::Length,
                0,
                1.5,
                "in",
                0.75,
                "3/4\" x 2\"",
            ),
            (
                "14.5 x 8 in",
                D::Length,
                1,
                8.0,
                "in",
                8.05,
                "14.5 x 8.05 in",
            ),
            ("3/4 in", D::Length, 0, 0.75, "in", 0.0, "0 in"),
            ("about 3/4 in", D::Length, 0, 0.75, "in", 2.0, "about 2 in"),
            (
                "11.8 ± 0.2 mm",
                D::Length,
                0,
                11.8,
                "mm",
                12.0,
                "12 ± 0.2 mm",
            ),
            ("12,5 mm", D::Length, 0, 12.5, "mm", 13.25, "13.25 mm"),
            ("about 6 L", D::Volume, 0, 6.0, "L", 7.0, "about 7 L"),
            ("-5 °C", D::Temperature, 0, -5.0, "°C", 5.0, "5 °C"),
            ("68 °F", D::Temperature, 0, 68.0, "°F", 70.0, "70 °F"),
            ("50%", D::Share, 0, 50.0, "%", 60.0, "60%"),
            ("2", D::Number, 0, 2.0, "", 3.0, "3"),
        ] {
            let found = written_numbers(text, dimension).unwrap_or_else(|| panic!("{text}"));
            assert_eq!(
                (found[index].value, found[index].unit),
                (value, unit),
                "{text}"
            );
            assert_eq!(moved(text, dimension, index, to), after);
        }
    }

    #[test]
    fn what_is_no_such_value_has_no_numbers() {
        for (text, dimension) in [
            ("four", D::Length),
            ("6 furlongs", D::Length),
            ("6", D::Length),
            ("1,234 mm", D::Length),
            ("14 in x", D::Length),
            ("6 dB", D::Gain),
            ("", D::Number),
        ] {
            assert_eq!(written_numbers(text, dimension), None, "{text}");
        }
    }

    #[test]
    fn steps_are_those_of_a_rule() {
        for (text, si, step) in [
            ("360 mm", 0.001, 1.0),
            ("36 cm", 0.001, 0.1),
            ("0.36 m", 0.001, 0.001),
            ("14 in", 0.001, 1.0 / 32.0),
            ("14 in", 0.01, 0.5),
            ("14.5 in", 0.001, 0.05),
            ("14.5 in", 0.01, 0.5),
        ] {
            let found = written_numbers(text, D::Length).unwrap();
            assert!((found[0].step(si) - step).abs() < 1e-12, "{text} {si}");
        }
        let fahrenheit = &written_numbers("68 °F", D::Temperature).unwrap()[0];
        assert!((fahrenheit.of_si(20.0) - 68.0).abs() < 1e-9);
    }

    #[test]
    fn parts_of_an_inch_are_read_as_they_were_meant() {
        for marks in -300..300 {
            let value = f64::from(marks) / 64.0;
            let text = format!("{} in", mixed(value));
            let found = written_numbers(&text, D::Length).unwrap();
            assert!((found[0].value - value).abs() < 1e-12, "{text}");
        }
        assert_eq!([mixed(0.1), mixed(-0.001)], ["3/32", "0"]);
    }
}
