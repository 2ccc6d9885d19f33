//! Component values with a letter in place of the decimal point, as IEC 60062
//! codes them: `4k7`, `R22`, `10u`.

use super::Dimension;
use super::nominal::Nominal;
use super::number::Number;
use super::unit::{self, Found};

/// Letters that stand for the decimal point, and their powers of ten.
fn marks(dimension: Dimension) -> (&'static [(char, i32)], &'static str) {
    match dimension {
        Dimension::Resistance => (&[('R', 0), ('k', 3), ('K', 3), ('M', 6), ('G', 9)], "Ω"),
        Dimension::Capacitance => (
            &[
                ('p', -12),
                ('n', -9),
                ('u', -6),
                ('µ', -6),
                ('\u{3bc}', -6),
                ('m', -3),
                ('F', 0),
            ],
            "F",
        ),
        Dimension::Inductance => (
            &[
                ('n', -9),
                ('u', -6),
                ('µ', -6),
                ('\u{3bc}', -6),
                ('m', -3),
                ('H', 0),
            ],
            "H",
        ),
        _ => (&[], ""),
    }
}

/// Reads a coded component value; nothing when the text is not one.
pub(crate) fn read(text: &str, dimension: Dimension) -> Option<Nominal> {
    let (marks, base) = marks(dimension);
    let at = text.find(|c: char| !(c.is_ascii_digit() || c == '.'))?;
    let mark = text[at..].chars().next()?;
    let power = marks.iter().find(|(c, _)| *c == mark)?.1;
    let before = &text[..at];
    let rest = &text[at + mark.len_utf8()..];
    let count = rest
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(rest.len());
    let (after, unit_text) = rest.split_at(count);
    let both_kinds_of_point = before.contains('.') && !after.is_empty();
    let no_digits = !before.contains(|c: char| c.is_ascii_digit()) && after.is_empty();
    if both_kinds_of_point || no_digits || before.matches('.').count() > 1 {
        return None;
    }
    if after.is_empty() && !unit_text.is_empty() {
        return None;
    }
    let unit = match unit::find(base, dimension) {
        Found::Unit(unit) => unit,
        Found::Other(_) | Found::Nothing => return None,
    };
    let closes = unit_text.is_empty()
        || matches!(unit::find(unit_text, dimension), Found::Unit(u) if u.symbol == base);
    let digits = if before.contains('.') {
        before.to_owned()
    } else {
        format!("{before}.{after}")
    };
    let number = Number::Decimal { digits, power };
    (closes && number.value().is_finite()).then_some(Nominal {
        number,
        unit: Some(unit),
    })
}
