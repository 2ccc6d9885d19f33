//! Spans of time and lists of walls in words.

use crate::math;
use crate::text::number;
use studies::finish::Layer;
use wood::Wall;

const HOUR: f64 = 3600.0;
const DAY: f64 = 24.0 * HOUR;

/// A span of time: "20 min", "4 h", "14 days".
pub(super) fn span(seconds: f64) -> String {
    if !seconds.is_finite() {
        return "any".to_owned();
    }
    if seconds < 1.5 * HOUR {
        return format!("{} min", number(seconds / 60.0, 0));
    }
    if seconds < 2.0 * DAY {
        let hours = seconds / HOUR;
        let halves = math::round(2.0 * hours) / 2.0;
        return format!("{} h", number(halves, usize::from(halves.fract() > 0.0)));
    }
    format!("{} days", number(math::ceil(seconds / DAY - 1e-9), 0))
}

/// "day 2" of a time from midnight before the first day.
pub(super) fn day(at: f64) -> usize {
    (at / DAY).floor() as usize + 1
}

/// "13:35" of the same.
pub(super) fn clock(at: f64) -> String {
    let minutes = math::round(at % DAY / 60.0) as u32;
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

/// The faces a layer goes on.
pub(super) fn on(layer: &Layer) -> String {
    if layer.on.len() == Wall::ALL.len() {
        return "all".to_owned();
    }
    let names: Vec<&str> = layer.on.iter().map(|wall| wall.name()).collect();
    names.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spans_are_said_as_a_maker_would() {
        assert_eq!(span(1200.0), "20 min");
        assert_eq!(span(4.0 * HOUR), "4 h");
        assert_eq!(span(2.5 * HOUR), "2.5 h");
        assert_eq!(span(14.0 * DAY), "14 days");
        assert_eq!(span(f64::INFINITY), "any");
    }

    #[test]
    fn times_are_told_by_day_and_clock() {
        assert_eq!(day(9.0 * HOUR), 1);
        assert_eq!(day(33.0 * HOUR), 2);
        assert_eq!(clock(37.0 * HOUR + 2100.0), "13:35");
    }
}
