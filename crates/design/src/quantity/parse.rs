//! Text such as `"6.2 L ± 10 %"` to a number in SI with its tolerance.

use super::component;
use super::nominal::Nominal;
use super::number::{self, Number, NumberTrouble};
use super::trouble::{BadNumber, BadTolerance, BadUnit, Trouble, TroubleKind};
use super::unit::{self, Found, Unit};
use super::{Dimension, decibel};
use crate::value::Tolerance;
use std::ops::Range;

/// A physical value read from text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Quantity {
    /// The nominal value in SI.
    pub(crate) si: f64,
    /// Its tolerance in SI.
    pub(crate) tolerance: Tolerance,
    /// The unit it was written in; pure numbers have none.
    pub(crate) unit: Option<&'static Unit>,
}

/// A piece of a text and where it starts.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Piece<'a> {
    pub(crate) text: &'a str,
    pub(crate) start: usize,
}

impl<'a> Piece<'a> {
    pub(crate) fn whole(text: &'a str) -> Self {
        Self { text, start: 0 }.trimmed()
    }

    pub(crate) fn part(self, range: Range<usize>) -> Self {
        Self {
            text: &self.text[range.clone()],
            start: self.start + range.start,
        }
        .trimmed()
    }

    pub(crate) fn from(self, start: usize) -> Self {
        self.part(start..self.text.len())
    }

    fn trimmed(self) -> Self {
        let front = self.text.len() - self.text.trim_start().len();
        Self {
            text: self.text.trim(),
            start: self.start + front,
        }
    }

    pub(crate) fn range(self) -> Range<usize> {
        self.start..self.start + self.text.len()
    }

    pub(crate) fn trouble(self, kind: impl Into<TroubleKind>) -> Trouble {
        Trouble {
            kind: kind.into(),
            range: self.range(),
        }
    }
}

/// Nominal part and tolerance part of a text.
pub(crate) struct Split<'a> {
    pub(crate) about: bool,
    pub(crate) nominal: Piece<'a>,
    pub(crate) tolerance: Option<Piece<'a>>,
}

/// Takes "about" off the front and the tolerance off the back.
pub(crate) fn split(text: &str) -> Result<Split<'_>, Trouble> {
    let all = Piece::whole(text);
    let mut about = false;
    let mut rest = all;
    for word in ["about ", "~", "≈"] {
        let at_front = rest
            .text
            .get(..word.len())
            .is_some_and(|front| front.eq_ignore_ascii_case(word));
        if at_front {
            about = true;
            rest = rest.from(word.len());
        }
    }
    let mark = ["±", "+/-", "+-", "+/−"]
        .iter()
        .filter_map(|m| rest.text.find(m).map(|at| (at, m.len())))
        .min();
    let (nominal, tolerance) = match mark {
        Some((at, length)) => (rest.part(0..at), Some(rest.from(at + length))),
        None => (rest, None),
    };
    if nominal.text.is_empty() {
        return Err(all.trouble(BadNumber::Empty));
    }
    if about && tolerance.is_some() {
        return Err(all.trouble(BadTolerance::Twice));
    }
    Ok(Split {
        about,
        nominal,
        tolerance,
    })
}

/// Reads a physical value of the wanted dimension.
pub(crate) fn quantity(text: &str, wanted: Dimension) -> Result<Quantity, Trouble> {
    let split = split(text)?;
    let unit_of_tolerance = split.tolerance.and_then(|t| unit_behind(t, wanted));
    let read = nominal(split.nominal, wanted, unit_of_tolerance)?;
    let si = read.si();
    if !si.is_finite() {
        return Err(split.nominal.trouble(BadNumber::TooLarge));
    }
    let tolerance = match (split.about, split.tolerance) {
        (true, _) => Tolerance::About,
        (false, None) => Tolerance::Unstated,
        (false, Some(piece)) => Tolerance::Within(self::tolerance(piece, wanted, &read)?),
    };
    Ok(Quantity {
        si,
        tolerance,
        unit: read.unit,
    })
}

/// Number and unit; `fallback` is the unit when none stands beside the number.
pub(crate) fn nominal(
    piece: Piece<'_>,
    wanted: Dimension,
    fallback: Option<&'static Unit>,
) -> Result<Nominal, Trouble> {
    if let Some(nominal) = component::read(piece.text, wanted) {
        return Ok(nominal);
    }
    let (number, used) = leading(piece)?;
    let rest = piece.from(used);
    if wanted == Dimension::Number {
        return if rest.text.is_empty() {
            Ok(Nominal { number, unit: None })
        } else {
            Err(rest.trouble(unwanted(rest)))
        };
    }
    if rest.text.is_empty() {
        return match fallback {
            Some(unit) => Ok(Nominal {
                number,
                unit: Some(unit),
            }),
            None => Err(piece.trouble(BadUnit::Missing {
                number: piece.text.to_owned(),
            })),
        };
    }
    let unit = known(rest, wanted)?;
    Ok(Nominal {
        number,
        unit: Some(unit),
    })
}

fn unwanted(rest: Piece<'_>) -> BadUnit {
    BadUnit::Unwanted {
        unit: rest.text.to_owned(),
    }
}

/// The number at the front of a piece.
pub(crate) fn leading(piece: Piece<'_>) -> Result<(Number, usize), Trouble> {
    number::leading(piece.text).map_err(|trouble| {
        piece.trouble(match trouble {
            NumberTrouble::Absent | NumberTrouble::Malformed => BadNumber::Unreadable {
                text: piece.text.to_owned(),
            },
            NumberTrouble::Ambiguous(a, b) => BadNumber::Ambiguous {
                text: piece.text.to_owned(),
                readings: (a, b),
            },
            NumberTrouble::TooLarge => BadNumber::TooLarge,
        })
    })
}

fn known(piece: Piece<'_>, wanted: Dimension) -> Result<&'static Unit, Trouble> {
    match unit::find(piece.text, wanted) {
        Found::Unit(unit) => Ok(unit),
        Found::Other(other) => Err(piece.trouble(BadUnit::Wrong {
            unit: piece.text.to_owned(),
            measures: other.dimension,
        })),
        Found::Nothing if piece.text.starts_with(|c: char| c.is_ascii_digit()) => Err(piece
            .trouble(BadNumber::Unreadable {
                text: piece.text.to_owned(),
            })),
        Found::Nothing => Err(piece.trouble(BadUnit::Unknown {
            unit: piece.text.to_owned(),
            nearest: unit::nearest(piece.text, wanted),
        })),
    }
}

/// The unit a tolerance is written in, when it is one of the wanted dimension.
pub(crate) fn unit_behind(piece: Piece<'_>, wanted: Dimension) -> Option<&'static Unit> {
    let (_, used) = number::leading(piece.text).ok()?;
    match unit::find(piece.from(used).text, wanted) {
        Found::Unit(unit) => Some(unit),
        _ => None,
    }
}

/// Half width of a tolerance in SI.
///
/// In the unit of the value it is absolute; in per cent it is a share of the
/// value, except on a share, where per cent is the value's own unit.
pub(crate) fn tolerance(piece: Piece<'_>, wanted: Dimension, of: &Nominal) -> Result<f64, Trouble> {
    let bad = || {
        piece.trouble(BadTolerance::Unreadable {
            text: piece.text.to_owned(),
        })
    };
    let (number, used) = number::leading(piece.text).map_err(|_| bad())?;
    let unit_piece = piece.from(used);
    if number.value() < 0.0 {
        return Err(piece.trouble(BadTolerance::Negative));
    }
    let absolute = match unit::find(unit_piece.text, wanted) {
        Found::Unit(unit) => Some(unit),
        _ if wanted == Dimension::Number && unit_piece.text.is_empty() => None,
        Found::Other(unit) if unit.dimension == Dimension::Share => {
            return relative(piece, wanted, of, number.value() / 100.0);
        }
        Found::Other(unit) => {
            return Err(unit_piece.trouble(BadUnit::Wrong {
                unit: unit_piece.text.to_owned(),
                measures: unit.dimension,
            }));
        }
        Found::Nothing => return Err(bad()),
    };
    let half_width = match absolute {
        Some(unit) if decibel::is_gain(unit) => of.si() * (decibel::ratio(number.value()) - 1.0),
        Some(unit) => number.scaled(unit),
        None => number.value(),
    };
    if half_width.is_finite() {
        Ok(half_width)
    } else {
        Err(bad())
    }
}

fn relative(piece: Piece<'_>, wanted: Dimension, of: &Nominal, share: f64) -> Result<f64, Trouble> {
    if !wanted.takes_relative_tolerance() {
        return Err(piece.trouble(BadTolerance::Relative));
    }
    if share >= 1.0 {
        return Err(piece.trouble(BadTolerance::TooWide));
    }
    Ok(of.si().abs() * share)
}
