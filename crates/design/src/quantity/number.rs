//! Numbers as people write them: decimals, decimal commas, exponents, and the
//! mixed fractions of an inch rule.

use super::unit::Unit;

/// A number as written, not yet multiplied by its unit.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Number {
    /// Decimal digits with a point, and a power of ten.
    Decimal {
        /// Sign, digits, optional point.
        digits: String,
        /// Power of ten.
        power: i32,
    },
    /// Whole and fraction.
    Fraction {
        /// All of it over the denominator.
        numerator: f64,
        /// Not zero.
        denominator: f64,
    },
}

/// Why a number could not be read.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum NumberTrouble {
    /// There are no digits at the front.
    Absent,
    /// Digits that are no number.
    Malformed,
    /// A comma that may part decimals or thousands; the two readings.
    Ambiguous(String, String),
    /// Too large to be held.
    TooLarge,
}

impl Number {
    /// The value in SI once `unit` is applied.
    pub(crate) fn in_unit(&self, unit: &Unit) -> f64 {
        self.scaled(unit) + unit.offset
    }

    /// A difference in SI: the offset of the unit does not apply.
    pub(crate) fn scaled(&self, unit: &Unit) -> f64 {
        match self {
            Self::Decimal { digits, power } => {
                shifted(digits, power.saturating_add(unit.power)) * unit.factor
            }
            Self::Fraction {
                numerator,
                denominator,
            } => {
                let top = numerator * unit.factor;
                let scale = shifted("1", unit.power.abs());
                if unit.power < 0 {
                    top / (denominator * scale)
                } else {
                    top * scale / denominator
                }
            }
        }
    }

    /// The bare value.
    pub(crate) fn value(&self) -> f64 {
        match self {
            Self::Decimal { digits, power } => shifted(digits, *power),
            Self::Fraction {
                numerator,
                denominator,
            } => numerator / denominator,
        }
    }
}

/// The double nearest to `digits × 10^power`.
fn shifted(digits: &str, power: i32) -> f64 {
    format!("{digits}e{power}").parse().unwrap_or(f64::NAN)
}

/// Reads the number at the front of `text`; gives it with the bytes it takes.
pub(crate) fn leading(text: &str) -> Result<(Number, usize), NumberTrouble> {
    let (sign, after_sign) = sign(text);
    let body = &text[after_sign..];
    let run = body
        .find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ','))
        .unwrap_or(body.len());
    let mut digits = body[..run].to_owned();
    let mut used = after_sign + run;
    // A trailing separator belongs to the sentence, not to the number.
    if digits.ends_with(',') {
        return Err(NumberTrouble::Malformed);
    }
    if !digits.contains(|c: char| c.is_ascii_digit()) {
        return match vulgar(body) {
            Some((value, length)) => {
                Ok((fraction(sign, 0.0, value.0, value.1), after_sign + length))
            }
            None => Err(NumberTrouble::Absent),
        };
    }
    if digits.contains(',') {
        digits = without_comma(&digits)?;
    }
    if digits.matches('.').count() > 1 {
        return Err(NumberTrouble::Malformed);
    }
    let is_whole = !digits.contains('.');
    if is_whole && let Some((parts, length)) = fraction_after(&digits, &text[used..])? {
        return Ok((fraction(sign, parts.0, parts.1, parts.2), used + length));
    }
    let (power, length) = exponent(&text[used..])?;
    used += length;
    let signed = if sign < 0.0 {
        format!("-{digits}")
    } else {
        digits
    };
    let number = Number::Decimal {
        digits: signed,
        power,
    };
    if number.value().is_finite() {
        Ok((number, used))
    } else {
        Err(NumberTrouble::TooLarge)
    }
}

fn fraction(sign: f64, whole: f64, numerator: f64, denominator: f64) -> Number {
    Number::Fraction {
        numerator: sign * (whole * denominator + numerator),
        denominator,
    }
}

fn sign(text: &str) -> (f64, usize) {
    match text.chars().next() {
        Some('-') => (-1.0, 1),
        Some('\u{2212}') => (-1.0, '\u{2212}'.len_utf8()),
        Some('+') => (1.0, 1),
        _ => (1.0, 0),
    }
}

/// A comma is a decimal sign unless it could part thousands.
fn without_comma(digits: &str) -> Result<String, NumberTrouble> {
    let Some((before, after)) = digits.split_once(',') else {
        return Ok(digits.to_owned());
    };
    let thousands = digits.replace(',', "");
    if after.contains(',') || digits.contains('.') {
        return Err(if thousands.matches('.').count() > 1 {
            NumberTrouble::Malformed
        } else {
            NumberTrouble::Ambiguous(digits.replace(['.', ','], ""), thousands)
        });
    }
    let groups_of_thousands =
        after.len() == 3 && (1..=3).contains(&before.len()) && !before.starts_with('0');
    if groups_of_thousands {
        return Err(NumberTrouble::Ambiguous(
            thousands,
            format!("{before}.{after}"),
        ));
    }
    Ok(format!("{before}.{after}"))
}

/// `e3`, `E-6`; nothing when the letter belongs to a unit.
fn exponent(rest: &str) -> Result<(i32, usize), NumberTrouble> {
    let Some(after) = rest.strip_prefix(['e', 'E']) else {
        return Ok((0, 0));
    };
    let digits_from = usize::from(after.starts_with(['+', '-']));
    let count = after[digits_from..]
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(after.len() - digits_from);
    if count == 0 {
        return Ok((0, 0));
    }
    let text = &after[..digits_from + count];
    match text.parse::<i32>() {
        Ok(power) if power.abs() <= 400 => Ok((power, 1 + text.len())),
        _ => Err(NumberTrouble::TooLarge),
    }
}

type Mixed = (f64, f64, f64);

/// After whole digits: `/32`, ` 1/2`, `-1/2` or `½`.
fn fraction_after(digits: &str, rest: &str) -> Result<Option<(Mixed, usize)>, NumberTrouble> {
    let whole: f64 = digits.parse().map_err(|_| NumberTrouble::Malformed)?;
    if let Some(after) = rest.strip_prefix(['/', '\u{2044}']) {
        let slash = rest.len() - after.len();
        let (denominator, length) = whole_number(after)?;
        return Ok(Some(((0.0, whole, denominator), slash + length)));
    }
    let gap = rest.len()
        - rest
            .trim_start_matches([' ', '\u{a0}', '\u{2009}', '\u{202f}'])
            .len();
    let skip = if gap == 0 {
        usize::from(rest.starts_with('-'))
    } else {
        gap
    };
    let after = &rest[skip..];
    if rest.starts_with('-') || gap > 0 {
        let count = after
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(after.len());
        let slash = &after[count..];
        if count > 0
            && let Some(below) = slash.strip_prefix(['/', '\u{2044}'])
        {
            let numerator = after[..count]
                .parse()
                .map_err(|_| NumberTrouble::Malformed)?;
            let (denominator, length) = whole_number(below)?;
            let used = skip + count + (slash.len() - below.len()) + length;
            return Ok(Some(((whole, numerator, denominator), used)));
        }
        if count > 0 {
            return Err(NumberTrouble::Malformed);
        }
    }
    Ok(vulgar(after).map(|((n, d), length)| ((whole, n, d), skip + length)))
}

fn whole_number(text: &str) -> Result<(f64, usize), NumberTrouble> {
    let count = text
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(text.len());
    match text[..count].parse::<f64>() {
        Ok(value) if value > 0.0 && value.is_finite() => Ok((value, count)),
        _ => Err(NumberTrouble::Malformed),
    }
}

/// One-character fractions.
fn vulgar(text: &str) -> Option<((f64, f64), usize)> {
    let c = text.chars().next()?;
    let value = match c {
        '½' => (1.0, 2.0),
        '¼' => (1.0, 4.0),
        '¾' => (3.0, 4.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        _ => return None,
    };
    Some((value, c.len_utf8()))
}
