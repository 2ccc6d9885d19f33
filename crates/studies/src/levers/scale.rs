//! A value as written, taken apart so that its number alone can change.

/// Units a lever may be written in, each with its size in SI.
const UNITS: [(&str, f64); 13] = [
    ("mm", 1e-3),
    ("cm", 1e-2),
    ("m", 1.0),
    ("in", 0.0254),
    ("%", 0.01),
    ("V", 1.0),
    ("mV", 1e-3),
    ("g", 1e-3),
    ("kg", 1.0),
    ("°C", 1.0),
    ("h", 3600.0),
    ("L", 1e-3),
    ("", 1.0),
];

/// A value as written.
#[derive(Debug, PartialEq)]
pub(super) struct Scale {
    /// The number.
    pub(super) value: f64,
    /// Its unit.
    pub(super) unit: &'static str,
    /// The text with `{}` in the place of the number.
    pub(super) template: String,
    /// The unit's size in SI.
    pub(super) per: f64,
}

impl Scale {
    /// Takes a text apart: the one number of a value, or one of the lengths of a size; `None`
    /// where it is written in a way that is better left to its writer.
    pub(super) fn of(text: &str, length: Option<usize>, usual: &'static str) -> Option<Self> {
        let numbers = numbers(text);
        let (from, to) = *numbers.get(length.unwrap_or(0))?;
        let lengths = if length.is_some() { 3 } else { 1 };
        let last = numbers.get(lengths - 1)?.1;
        let rest = text[last..].trim_start();
        let symbol: &str = rest.split([' ', '±', '+', '(']).next().unwrap_or_default();
        let unit = if rest.is_empty() { usual } else { symbol };
        let (unit, per) = *UNITS.iter().find(|(known, _)| *known == unit)?;
        // Between the lengths of a size stand crosses and nothing else.
        let plain = numbers[..lengths]
            .windows(2)
            .all(|pair| matches!(text[pair[0].1..pair[1].0].trim(), "x" | "×" | "X"));
        // A fraction of an inch has two numbers.
        let fraction = text[to..].trim_start().starts_with('/')
            || (lengths == 1
                && numbers.len() > 1
                && !text[to..numbers[1].0].contains(['±', '+', '-']));
        if !plain || fraction {
            return None;
        }
        Some(Self {
            value: text[from..to].parse().ok()?,
            unit,
            template: format!("{}{{}}{}", &text[..from], &text[to..]),
            per,
        })
    }
}

/// Where numbers stand in a text.
fn numbers(text: &str) -> Vec<(usize, usize)> {
    let mut out: Vec<(usize, usize)> = Vec::new();
    for (at, letter) in text.char_indices() {
        if !letter.is_ascii_digit() && letter != '.' {
            continue;
        }
        match out.last_mut() {
            Some(last) if last.1 == at => last.1 = at + 1,
            _ => out.push((at, at + 1)),
        }
    }
    out
}

/// A number without idle zeros, to the thousandth.
pub(super) fn number(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

/// The nearest of 1, 2, 5 times a power of ten.
pub(super) fn round(step: f64) -> f64 {
    let power = physics::math::pow(10.0, physics::math::log10(step).floor());
    let near = |a: &f64, b: &f64| {
        let off = |v: f64| (physics::math::ln(v * power / step)).abs();
        off(*a).total_cmp(&off(*b))
    };
    let best = [1.0, 2.0, 5.0, 10.0].into_iter().min_by(near);
    best.unwrap_or(1.0) * power
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_number_alone_changes() {
        for (text, length, value, unit, moved) in [
            (
                "360 x 200 x 188 mm",
                Some(2),
                188.0,
                "mm",
                "360 x 200 x 190 mm",
            ),
            (
                "36 x 20 x 18.8 cm",
                Some(0),
                36.0,
                "cm",
                "190 x 20 x 18.8 cm",
            ),
            ("11.8 mm ± 0.2 mm", None, 11.8, "mm", "190 mm ± 0.2 mm"),
            ("about 6 L", None, 6.0, "L", "about 190 L"),
            ("50 %", None, 50.0, "%", "190 %"),
            ("2", None, 2.0, "", "190"),
        ] {
            let found = Scale::of(text, length, "").unwrap();
            assert_eq!((found.value, found.unit), (value, unit), "{text}");
            assert_eq!(found.template.replace("{}", "190"), moved);
        }
    }

    #[test]
    fn what_is_written_otherwise_is_left_to_its_writer() {
        for (text, length) in [
            ("3 1/2 in", None),
            ("1/2 in", None),
            ("14 in x 20 cm x 3 in", Some(0)),
            ("four", None),
            ("6 furlongs", None),
        ] {
            assert_eq!(Scale::of(text, length, ""), None, "{text}");
        }
    }

    #[test]
    fn steps_are_round() {
        for (step, near) in [
            (0.01, 0.01),
            (0.394, 0.5),
            (10.0, 10.0),
            (3.0, 2.0),
            (0.079, 0.1),
        ] {
            assert!(
                (round(step) / near - 1.0).abs() < 1e-9,
                "{step}: {}",
                round(step)
            );
        }
        assert_eq!(
            [number(12.50), number(-0.0001), number(3.0)],
            ["12.5", "0", "3"]
        );
    }
}
