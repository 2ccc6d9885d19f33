//! Values of a table: physical values, sizes, prices, words, counts, names.

use super::fields::{Entry, Fields, physical_text, wrong_type};
use super::nearest::nearest;
use crate::diagnostic::Log;
use crate::fault::{PartFault, TextFault, ValueFault, Wanted};
use crate::quantity::{self, BadTolerance, Dimension, Trouble, format_rounded};
use crate::{Choice, Money, Place, Size, Text, Tolerance, Value};
use toml_edit::{Item, Value as Toml};

/// What a value may be, beside being plausible for its dimension.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Bounds {
    /// Above zero, tolerance included.
    Positive,
    /// Zero or more.
    NotNegative,
    /// From the first to the second, in SI.
    Within(f64, f64),
}

use Bounds::Positive;

impl Bounds {
    fn allows(self, si: f64) -> bool {
        match self {
            Positive => si > 0.0,
            Self::NotNegative => si >= 0.0,
            Self::Within(least, most) => (least..=most).contains(&si),
        }
    }

    fn said(self, dimension: Dimension) -> String {
        match self {
            Positive => "more than zero".to_owned(),
            Self::NotNegative => "zero or more".to_owned(),
            Self::Within(least, most) => format!(
                "from {} to {}",
                format_rounded(least, dimension, 4),
                format_rounded(most, dimension, 4)
            ),
        }
    }
}

impl Fields<'_> {
    /// A physical value that may be absent.
    pub(crate) fn value(
        &self,
        key: &'static str,
        dimension: Dimension,
        bounds: Bounds,
        log: &mut Log,
    ) -> Option<Value> {
        self.value_in_unit(key, dimension, bounds, log).map(|v| v.0)
    }

    /// The same with the symbol of the unit it was written in.
    pub(crate) fn value_in_unit(
        &self,
        key: &'static str,
        dimension: Dimension,
        bounds: Bounds,
        log: &mut Log,
    ) -> Option<(Value, &'static str)> {
        let entry = self.entry(key)?;
        let wanted = Wanted::Quantity(dimension);
        let (si, tolerance, symbol) = match entry.item {
            Item::Value(Toml::Integer(n)) if dimension == Dimension::Number => {
                (*n.value() as f64, Tolerance::Unstated, "")
            }
            Item::Value(Toml::Float(x)) if dimension == Dimension::Number => {
                (*x.value(), Tolerance::Unstated, "")
            }
            _ => {
                let text = physical_text(&entry, key, wanted, log)?;
                let read = quantity::quantity(text, dimension)
                    .map_err(|trouble| unreadable(&entry, key, text, trouble, wanted, log))
                    .ok()?;
                (read.si, read.tolerance, read.unit.map_or("", |u| u.symbol))
            }
        };
        let value = Value {
            si,
            tolerance,
            place: entry.place(),
        };
        checked(key, value, dimension, bounds, log).map(|v| (v, symbol))
    }

    /// A physical value that must be there.
    pub(crate) fn need(
        &self,
        key: &'static str,
        dimension: Dimension,
        bounds: Bounds,
        log: &mut Log,
    ) -> Option<Value> {
        if self.entry(key).is_none() {
            let example = crate::say::example(key, Wanted::Quantity(dimension));
            self.missing(key, example, log);
        }
        self.value(key, dimension, bounds, log)
    }

    /// So many lengths.
    fn lengths<const N: usize>(
        &self,
        key: &'static str,
        log: &mut Log,
    ) -> Option<([Value; N], Place)> {
        let entry = self.entry(key)?;
        let wanted = Wanted::Size(N);
        let text = physical_text(&entry, key, wanted, log)?;
        let edges = quantity::edges(text, N)
            .map_err(|trouble| unreadable(&entry, key, text, trouble, wanted, log))
            .ok()?;
        let mut values = Vec::with_capacity(N);
        for edge in edges {
            let value = Value {
                si: edge.si,
                tolerance: edge.tolerance,
                place: entry.inner_place(text, edge.range),
            };
            values.push(checked(key, value, Dimension::Length, Positive, log));
        }
        let values: Vec<Value> = values.into_iter().collect::<Option<_>>()?;
        Some((values.try_into().ok()?, entry.place()))
    }

    /// Width × height × depth.
    pub(crate) fn size(&self, key: &'static str, log: &mut Log) -> Option<Size> {
        let ([width, height, depth], place) = self.lengths(key, log)?;
        Some(Size {
            width,
            height,
            depth,
            place,
        })
    }

    /// Diameter × length.
    pub(crate) fn diameter_and_length(
        &self,
        key: &'static str,
        log: &mut Log,
    ) -> Option<[Value; 2]> {
        self.lengths(key, log).map(|(values, _)| values)
    }

    /// A price.
    pub(crate) fn money(&self, key: &'static str, log: &mut Log) -> Option<Money> {
        let entry = self.entry(key)?;
        let text = physical_text(&entry, key, Wanted::Money, log)?;
        let read = quantity::amount(text)
            .map_err(|trouble| unreadable(&entry, key, text, trouble, Wanted::Money, log))
            .ok()?;
        let amount = Value {
            si: read.amount,
            tolerance: read.tolerance,
            place: entry.place(),
        };
        if !(0.0..=1e9).contains(&read.amount) {
            let fault = ValueFault::Range {
                key: key.to_owned(),
                found: text.to_owned(),
                allowed: "zero or more".to_owned(),
            };
            log.add(fault, amount.place);
            return None;
        }
        Some(Money {
            amount,
            currency: read.currency,
        })
    }

    /// A text that may be absent.
    pub(crate) fn text(&self, key: &'static str, log: &mut Log) -> Option<Text> {
        let entry = self.entry(key)?;
        let Some(text) = entry.item.as_str() else {
            wrong_type(&entry, key, "a text in quotes", "\"…\"", log);
            return None;
        };
        if text.trim().is_empty() {
            let key = key.to_owned();
            log.add(TextFault::NameEmpty { key }, entry.place());
            return None;
        }
        Some(Text {
            text: text.to_owned(),
            place: entry.place(),
        })
    }

    /// A text that must be there.
    pub(crate) fn need_text(
        &self,
        key: &'static str,
        example: &'static str,
        log: &mut Log,
    ) -> Option<Text> {
        if self.entry(key).is_none() {
            self.missing(key, example, log);
        }
        self.text(key, log)
    }

    /// One of a list of words; nothing when absent or not on the list.
    pub(crate) fn word<T: Copy>(
        &self,
        key: &'static str,
        words: &[(&'static str, T)],
        log: &mut Log,
    ) -> Option<Choice<T>> {
        let entry = self.entry(key)?;
        let list: Vec<&'static str> = words.iter().map(|(word, _)| *word).collect();
        let Some(text) = entry.item.as_str() else {
            let example = format!("\"{}\"", list.first().copied().unwrap_or_default());
            wrong_type(&entry, key, "a word in quotes", &example, log);
            return None;
        };
        if let Some((_, value)) = words.iter().find(|(word, _)| *word == text) {
            return Some(Choice {
                value: *value,
                place: Some(entry.place()),
            });
        }
        let fault = TextFault::ChoiceUnknown {
            key: key.to_owned(),
            word: text.to_owned(),
            nearest: nearest(text, list.iter().copied()),
            words: list,
        };
        log.add(fault, entry.place());
        None
    }

    /// One of a list of words, or the default.
    pub(crate) fn word_or<T: Copy>(
        &self,
        key: &'static str,
        words: &[(&'static str, T)],
        default: T,
        log: &mut Log,
    ) -> Choice<T> {
        self.word(key, words, log).unwrap_or(Choice {
            value: default,
            place: None,
        })
    }

    /// One of a list of words that must be said.
    pub(crate) fn need_word<T: Copy>(
        &self,
        key: &'static str,
        words: &[(&'static str, T)],
        log: &mut Log,
    ) -> Option<Choice<T>> {
        if self.entry(key).is_none() {
            let first = words.first().map_or("", |(word, _)| *word);
            self.missing(key, format!("\"{first}\""), log);
        }
        self.word(key, words, log)
    }

    /// True or false.
    pub(crate) fn flag(&self, key: &'static str, default: bool, log: &mut Log) -> Choice<bool> {
        let default = Choice {
            value: default,
            place: None,
        };
        let Some(entry) = self.entry(key) else {
            return default;
        };
        match entry.item.as_bool() {
            Some(value) => Choice {
                value,
                place: Some(entry.place()),
            },
            None => {
                wrong_type(&entry, key, "true or false, without quotes", "true", log);
                default
            }
        }
    }

    /// Notes when the first value is not less than the second.
    pub(crate) fn in_order(
        &self,
        lower: &'static str,
        low: Option<Value>,
        upper: &'static str,
        high: Option<Value>,
        log: &mut Log,
    ) {
        if let (Some(low), Some(high)) = (low, high)
            && low.si >= high.si
        {
            // An override is at fault, not the built-in value it disagrees with.
            let blamed = if low.place.file == self.header().file {
                low.place
            } else {
                high.place
            };
            log.add(PartFault::OrderWrong { lower, upper }, blamed);
        }
    }

    /// Notes when the first value is more than the second.
    pub(crate) fn not_above(
        &self,
        lower: &'static str,
        low: Option<Value>,
        upper: &'static str,
        high: Option<Value>,
        log: &mut Log,
    ) {
        let equal = matches!((low, high), (Some(low), Some(high)) if low.si == high.si);
        if !equal {
            self.in_order(lower, low, upper, high, log);
        }
    }

    /// A whole number that must be there.
    pub(crate) fn need_count(
        &self,
        key: &'static str,
        least: u32,
        most: u32,
        log: &mut Log,
    ) -> Option<u32> {
        if self.entry(key).is_none() {
            self.missing(key, least.max(1).to_string(), log);
        }
        self.count(key, least, most, log)
    }

    /// A whole number within bounds; nothing when absent or bad.
    pub(crate) fn count(
        &self,
        key: &'static str,
        least: u32,
        most: u32,
        log: &mut Log,
    ) -> Option<u32> {
        let entry = self.entry(key)?;
        let Some(found) = entry.item.as_integer() else {
            let example = least.max(1).to_string();
            wrong_type(&entry, key, "a whole number without quotes", &example, log);
            return None;
        };
        match u32::try_from(found) {
            Ok(count) if (least..=most).contains(&count) => Some(count),
            _ => {
                let fault = TextFault::CountRange {
                    key: key.to_owned(),
                    found,
                    least,
                    most,
                };
                log.add(fault, entry.place());
                None
            }
        }
    }
}

fn unreadable(
    entry: &Entry<'_>,
    key: &str,
    text: &str,
    trouble: Trouble,
    wanted: Wanted,
    log: &mut Log,
) {
    let place = entry.inner_place(text, trouble.range);
    let fault = ValueFault::Unreadable {
        key: key.to_owned(),
        trouble: trouble.kind,
        wanted,
    };
    log.add(fault, place);
}

/// The value, if it can be and its tolerance leaves it possible.
fn checked(
    key: &str,
    value: Value,
    dimension: Dimension,
    bounds: Bounds,
    log: &mut Log,
) -> Option<Value> {
    let (least, most) = dimension.plausible();
    let plausible = Bounds::Within(least, most);
    let broken = [bounds, plausible]
        .into_iter()
        .find(|b| !b.allows(value.si));
    if let Some(broken) = broken {
        let found = if value.si.is_finite() {
            format_rounded(value.si, dimension, 6)
        } else {
            "infinite".to_owned()
        };
        let fault = ValueFault::Range {
            key: key.to_owned(),
            found,
            allowed: broken.said(dimension),
        };
        log.add(fault, value.place);
        return None;
    }
    if let Tolerance::Within(half_width) = value.tolerance
        && !bounds.allows(0.0)
        && half_width >= value.si
    {
        let fault = ValueFault::Unreadable {
            key: key.to_owned(),
            trouble: BadTolerance::TooWide.into(),
            wanted: Wanted::Quantity(dimension),
        };
        log.add(fault, value.place);
        return None;
    }
    Some(value)
}
