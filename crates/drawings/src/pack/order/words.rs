//! How times and readings are said.

use crate::math;
use crate::text::number;
use studies::order::Expect;
use studies::words;

const MINUTE: f64 = 60.0;
const HOUR: f64 = 3600.0;
const DAY: f64 = 24.0 * HOUR;

/// A time as a maker plans it: to five minutes, then quarters of hours, then days.
#[must_use]
pub fn duration(seconds: f64) -> String {
    if seconds < 7.5 * MINUTE {
        format!("{} min", number((seconds / MINUTE).ceil().max(1.0), 0))
    } else if seconds < 1.5 * HOUR {
        format!("{} min", number(5.0 * (seconds / MINUTE / 5.0).round(), 0))
    } else if seconds < 48.0 * HOUR {
        let hours = number((4.0 * seconds / HOUR).round() / 4.0, 2);
        let short = hours.trim_end_matches('0').trim_end_matches('.');
        format!("{short} h")
    } else {
        let days = number((2.0 * seconds / DAY).round() / 2.0, 1);
        format!("{} days", days.trim_end_matches(".0"))
    }
}

/// A time from a quick hand to a slow one.
pub(super) fn span(quick: f64, slow: f64) -> String {
    format!("{} to {}", duration(quick), duration(slow))
}

/// What a reading should be, in steps that its instrument shows.
#[must_use]
pub fn expected(expect: &Expect) -> String {
    match expect {
        Expect::Band {
            low, high, unit, ..
        } => band(*low, *high, unit),
        Expect::AtLeast { value, unit } if *unit == "Ω" && *value >= 1e6 => {
            format!("more than {} MΩ", words::stated(value / 1e6, ""))
        }
        Expect::AtLeast { value, unit } => format!("at least {}", limit(*value, unit)),
        Expect::AtMost { value, unit } => format!("at most {}", limit(*value, unit)),
        Expect::Seen(what) => what.clone(),
    }
}

/// Parts of a band that its ends are told apart in at least.
const PARTS: f64 = 8.0;

/// A band with one prefix, in steps that its width deserves and its instrument shows, rounded
/// outwards.
fn band(low: f64, high: f64, unit: &str) -> String {
    let (factor, shown) = prefix(high, unit);
    let (low, high) = (factor * low, factor * high);
    let coarsest = match shown {
        "K" | "dB" | "Hz" | "ms" => 1.0,
        _ => 0.0,
    };
    let fine = (high - low).max(1e-3 * high.abs()) / PARTS;
    let step = math::pow(10.0, math::floor(math::log10(fine))).max(coarsest);
    let places = (-math::log10(step) + 0.5).max(0.0) as usize;
    let low = math::floor(low / step + 1e-9) * step;
    let high = math::ceil(high / step - 1e-9) * step;
    if low <= 0.0 {
        return format!("at most {}\u{a0}{shown}", number(high, places));
    }
    format!(
        "{} – {}\u{a0}{shown}",
        number(low, places),
        number(high, places)
    )
}

/// The prefix under which a meter shows a value.
fn prefix(value: f64, unit: &str) -> (f64, &str) {
    match unit {
        "V" if value < 1.0 => (1e3, "mV"),
        "A" if value < 1e-3 => (1e6, "µA"),
        "A" if value < 1.0 => (1e3, "mA"),
        "s" if value < 1.0 => (1e3, "ms"),
        "Hz" if value >= 1e3 => (1e-3, "kHz"),
        _ => (1.0, unit),
    }
}

/// A limit with two figures.
fn limit(value: f64, unit: &str) -> String {
    let (factor, shown) = prefix(value, unit);
    let value = factor * value;
    let step = if value > 0.0 {
        math::pow(10.0, math::floor(math::log10(value)) - 1.0)
    } else {
        1.0
    };
    let places = (-math::log10(step) + 0.5).max(0.0) as usize;
    let said = number(math::round(value / step) * step, places);
    let said = if said.contains('.') {
        said.trim_end_matches('0').trim_end_matches('.')
    } else {
        &said
    };
    format!("{said}\u{a0}{shown}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_said_as_makers_plan() {
        for (seconds, said) in [
            (20.0, "1 min"),
            (290.0, "5 min"),
            (1000.0, "15 min"),
            (5400.0, "1.5 h"),
            (24.0 * 3600.0, "24 h"),
            (7.0 * 86_400.0, "7 days"),
        ] {
            assert_eq!(duration(seconds), said);
        }
    }

    #[test]
    fn readings_carry_their_unit_once() {
        let band = Expect::Band {
            low: 3.31,
            nominal: 3.4,
            high: 3.62,
            unit: "Ω",
        };
        assert_eq!(expected(&band), "3.31 – 3.62\u{a0}Ω");
        for (low, high, unit, said) in [
            (0.0854, 0.0998, "A", "85 – 100\u{a0}mA"),
            (0.956, 1.05, "V", "0.95 – 1.05\u{a0}V"),
            (-0.00637, 0.0154, "V", "at most 16\u{a0}mV"),
            (11.8, 18.7, "K", "11 – 19\u{a0}K"),
            (0.0, 3.52, "K", "at most 4\u{a0}K"),
            (101.3, 118.9, "Hz", "101 – 119\u{a0}Hz"),
            (0.067, 0.2, "s", "60 – 200\u{a0}ms"),
        ] {
            let band = Expect::Band {
                low,
                nominal: low,
                high,
                unit,
            };
            assert_eq!(expected(&band), said);
        }
        let most = Expect::AtMost {
            value: 0.05,
            unit: "V",
        };
        assert_eq!(expected(&most), "at most 50\u{a0}mV");
    }
}
