//! Prices: `€ 12`, `12 EUR`, `$12`.

use super::number::Number;
use super::parse::{self, Piece};
use super::trouble::{BadNumber, BadTolerance, BadUnit, Trouble};
use crate::value::Tolerance;

/// An amount in a currency.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Amount {
    pub(crate) amount: f64,
    pub(crate) tolerance: Tolerance,
    /// Three-letter code.
    pub(crate) currency: String,
}

/// Signs that stand for one currency by common use.
const SIGNS: [(char, &str); 3] = [('€', "EUR"), ('$', "USD"), ('£', "GBP")];

/// Reads a price.
pub(crate) fn amount(text: &str) -> Result<Amount, Trouble> {
    let split = parse::split(text)?;
    let (number, currency) = number_and_currency(split.nominal)?;
    let value = number.value();
    let tolerance = match (split.about, split.tolerance) {
        (true, _) => Tolerance::About,
        (false, None) => Tolerance::Unstated,
        (false, Some(piece)) => Tolerance::Within(half_width(piece, value, &currency)?),
    };
    Ok(Amount {
        amount: value,
        tolerance,
        currency,
    })
}

fn number_and_currency(piece: Piece<'_>) -> Result<(Number, String), Trouble> {
    let digits_at = piece
        .text
        .find(|c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | '\u{2212}'))
        .ok_or_else(|| {
            piece.trouble(BadNumber::Unreadable {
                text: piece.text.to_owned(),
            })
        })?;
    let front = piece.part(0..digits_at);
    let tail = piece.from(digits_at);
    let (number, used) = parse::leading(tail)?;
    let back = tail.from(used);
    let name = match (front.text.is_empty(), back.text.is_empty()) {
        (true, true) => {
            return Err(piece.trouble(BadUnit::CurrencyMissing {
                number: piece.text.to_owned(),
            }));
        }
        (false, true) => front,
        (true, false) => back,
        (false, false) => {
            return Err(piece.trouble(BadUnit::CurrencyUnknown {
                text: piece.text.to_owned(),
            }));
        }
    };
    Ok((number, code(name)?))
}

fn code(piece: Piece<'_>) -> Result<String, Trouble> {
    let mut chars = piece.text.chars();
    if let (Some(sign), None) = (chars.next(), chars.next())
        && let Some((_, code)) = SIGNS.iter().find(|(s, _)| *s == sign)
    {
        return Ok((*code).to_owned());
    }
    let is_code = piece.text.len() == 3 && piece.text.bytes().all(|b| b.is_ascii_alphabetic());
    if is_code {
        Ok(piece.text.to_ascii_uppercase())
    } else {
        Err(piece.trouble(BadUnit::CurrencyUnknown {
            text: piece.text.to_owned(),
        }))
    }
}

fn half_width(piece: Piece<'_>, value: f64, currency: &str) -> Result<f64, Trouble> {
    let bad = BadTolerance::Unreadable {
        text: piece.text.to_owned(),
    };
    let width = if let Some(share) = piece.text.strip_suffix('%') {
        let share = piece.part(0..share.len());
        let (number, used) = parse::leading(share)?;
        if !share.from(used).text.is_empty() {
            return Err(piece.trouble(bad));
        }
        value * number.value() / 100.0
    } else {
        match number_and_currency(piece) {
            Ok((number, same)) if same == currency => number.value(),
            _ => return Err(piece.trouble(bad)),
        }
    };
    if width < 0.0 {
        Err(piece.trouble(BadTolerance::Negative))
    } else if width >= value && width > 0.0 {
        Err(piece.trouble(BadTolerance::TooWide))
    } else {
        Ok(width)
    }
}
