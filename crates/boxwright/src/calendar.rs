//! Today's date, for the title block.

use drawings::Date;
use std::time::{SystemTime, UNIX_EPOCH};

/// Today in universal time, or the day named by `SOURCE_DATE_EPOCH`, which
/// makes the same pack on any day.
pub(crate) fn today() -> Option<Date> {
    let seconds = match std::env::var("SOURCE_DATE_EPOCH") {
        Ok(text) => text.parse().ok()?,
        Err(_) => SystemTime::now().duration_since(UNIX_EPOCH).ok()?.as_secs(),
    };
    date(seconds / 86_400)
}

/// The date so many days after the first of January 1970 in the Gregorian calendar.
fn date(mut days: u64) -> Option<Date> {
    let mut year: u16 = 1970;
    while days >= year_length(year) {
        days -= year_length(year);
        year = year.checked_add(1).filter(|year| *year < 10_000)?;
    }
    for month in 1..=12 {
        let length = month_length(year, month);
        if days < length {
            let day = u8::try_from(days + 1).ok()?;
            return Some(Date { year, month, day });
        }
        days -= length;
    }
    None
}

const fn is_leap(year: u16) -> bool {
    year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400))
}

const fn year_length(year: u16) -> u64 {
    if is_leap(year) { 366 } else { 365 }
}

const fn month_length(year: u16, month: u8) -> u64 {
    match month {
        4 | 6 | 9 | 11 => 30,
        2 if is_leap(year) => 29,
        2 => 28,
        _ => 31,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Days counted by `date -u -d … +%s` of GNU coreutils, over 86 400.
    #[test]
    fn days_fall_on_their_dates() {
        for (days, said) in [
            (0, "1970-01-01"),
            (58, "1970-02-28"),
            (59, "1970-03-01"),
            (11_016, "2000-02-29"),
            (11_017, "2000-03-01"),
            (20_454, "2026-01-01"),
            (47_540, "2100-02-28"),
            (47_541, "2100-03-01"),
        ] {
            assert_eq!(date(days).unwrap().to_string(), said);
        }
        assert!(date(u64::MAX).is_none());
    }
}
