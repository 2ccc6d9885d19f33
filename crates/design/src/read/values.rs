//! Values with a unit: physical values, prices, and the bounds they keep.

use super::fields::{Element, Fields};
use crate::diagnostic::Log;
use crate::fault::{PartFault, ValueFault, Wanted};
use crate::quantity::{self, BadTolerance, Dimension, Trouble, format_rounded};
use crate::{Money, Tolerance, Value};
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
                let element = entry.element();
                let text = element.physical_text(key, wanted, log)?;
                let read = quantity::quantity(text, dimension)
                    .map_err(|trouble| unreadable(&element, key, text, trouble, wanted, log))
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

    /// A price.
    pub(crate) fn money(&self, key: &'static str, log: &mut Log) -> Option<Money> {
        let entry = self.entry(key)?;
        let element = entry.element();
        let text = element.physical_text(key, Wanted::Money, log)?;
        let read = quantity::amount(text)
            .map_err(|trouble| unreadable(&element, key, text, trouble, Wanted::Money, log))
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
}

pub(super) fn unreadable(
    element: &Element<'_>,
    key: &str,
    text: &str,
    trouble: Trouble,
    wanted: Wanted,
    log: &mut Log,
) {
    let place = element.inner_place(text, trouble.range);
    let fault = ValueFault::Unreadable {
        key: key.to_owned(),
        trouble: trouble.kind,
        wanted,
    };
    log.add(fault, place);
}

/// The value, if it can be and its tolerance leaves it possible.
pub(super) fn checked(
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
