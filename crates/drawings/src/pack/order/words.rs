//! How times and readings are said.

use crate::pack::say::engineering;
use crate::text::number;
use studies::order::Expect;
use studies::words;

const MINUTE: f64 = 60.0;
const HOUR: f64 = 3600.0;
const DAY: f64 = 24.0 * HOUR;

/// A time as a maker plans it: to five minutes, then quarters of hours, then days.
pub(super) fn duration(seconds: f64) -> String {
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

/// What a reading should be.
pub(super) fn expected(expect: &Expect) -> String {
    match expect {
        Expect::Band {
            low, high, unit, ..
        } => {
            let (low, high) = (engineering(*low, unit), engineering(*high, unit));
            match (low.split_once('\u{a0}'), high.split_once('\u{a0}')) {
                // Said once where both have the same unit.
                (Some((low, unit)), Some((_, other))) if unit == other => format!("{low} – {high}"),
                _ => format!("{low} – {high}"),
            }
        }
        Expect::AtLeast { value, unit } if *unit == "Ω" && *value >= 1e6 => {
            format!("more than {} MΩ", words::stated(value / 1e6, ""))
        }
        Expect::AtLeast { value, unit } => format!("at least {}", engineering(*value, unit)),
        Expect::AtMost { value, unit } => format!("at most {}", milli(*value, unit)),
        Expect::Seen(what) => what.clone(),
    }
}

/// Volts below one are read in millivolts.
fn milli(value: f64, unit: &str) -> String {
    match unit {
        "V" if value < 1.0 => engineering(1e3 * value, "mV"),
        _ => engineering(value, unit),
    }
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
        let most = Expect::AtMost {
            value: 0.05,
            unit: "V",
        };
        assert_eq!(expected(&most), "at most 50.0\u{a0}mV");
    }
}
