//! How numbers and choices are said: the one place where figures are rounded.

use design::{Programme, Stands};

/// A number with its unit, rounded as a maker would say it.
#[must_use]
pub fn number(value: f64, unit: &str) -> String {
    let number = rounded(value, decimals(value, unit));
    if unit.is_empty() {
        return number;
    }
    match unit {
        "EUR" => format!("{number} €"),
        "USD" => format!("${number}"),
        "GBP" => format!("£{number}"),
        _ => format!("{number} {unit}"),
    }
}

/// A number somebody wrote down, with its unit and without needless zeros: "3 m", not "3.00 m".
#[must_use]
pub fn stated(value: f64, unit: &str) -> String {
    let said = number(value, unit);
    let bare = bare(value, unit);
    let Some((whole, part)) = bare.split_once('.') else {
        return said;
    };
    let part = part.trim_end_matches('0');
    let trimmed = if part.is_empty() {
        whole.to_owned()
    } else {
        format!("{whole}.{part}")
    };
    said.replacen(&bare, &trimmed, 1)
}

/// The number alone, rounded as [`number`] rounds it.
#[must_use]
pub fn bare(value: f64, unit: &str) -> String {
    rounded(value, decimals(value, unit))
}

fn rounded(value: f64, decimals: usize) -> String {
    if value.is_nan() {
        return "—".into();
    }
    if value.is_infinite() {
        return if value > 0.0 {
            "unlimited".into()
        } else {
            "−unlimited".into()
        };
    }
    let text = format!("{value:.decimals$}");
    // No "-0", and the typographic minus.
    let zero = text
        .trim_start_matches('-')
        .chars()
        .all(|c| c == '0' || c == '.');
    if zero {
        text.trim_start_matches('-').into()
    } else {
        text.replace('-', "−")
    }
}

fn decimals(value: f64, unit: &str) -> usize {
    let size = value.abs();
    match unit {
        "dB" | "dB(A)" | "dB at 1 m" => 1,
        "EUR" | "USD" | "GBP" | "%" | "of 100" => 0,
        "kg" => usize::from(size < 100.0),
        "" => 2,
        _ if size >= 99.95 => 0,
        _ if size >= 9.995 => 1,
        _ => 2,
    }
}

/// A price to the smallest coin that is paid.
#[must_use]
pub fn price(amount: f64, currency: &str) -> String {
    let said = number(amount, currency);
    said.replacen(&bare(amount, currency), &rounded(amount, 2), 1)
}

/// By how much a number changes: "+3.0 dB", "−0.40 h", and "same" below the last digit said.
#[must_use]
pub fn change(by: f64, unit: &str) -> String {
    let said = bare(by, unit);
    if said.chars().all(|c| c == '0' || c == '.') {
        return "same".into();
    }
    let plus = if by > 0.0 { "+" } else { "" };
    format!("{plus}{}", number(by, unit))
}

/// A value of a part with the prefix it is sold under: "4.7 kΩ", "100 nF".
#[must_use]
pub fn prefixed(value: f64, unit: &str) -> String {
    const PREFIXES: [(f64, &str); 7] = [
        (1e6, "M"),
        (1e3, "k"),
        (1.0, ""),
        (1e-3, "m"),
        (1e-6, "µ"),
        (1e-9, "n"),
        (1e-12, "p"),
    ];
    // 999.9 of the next smaller prefix are one of this.
    let reached = |(one, _): &&(f64, &str)| value.abs() >= 0.9995 * one;
    let (one, prefix) = PREFIXES.iter().find(reached).unwrap_or(&PREFIXES[2]);
    let scaled = value / one;
    let decimals = match scaled.abs() {
        size if size >= 99.95 => 0,
        size if size >= 9.995 => 1,
        _ => 2,
    };
    let text = format!("{scaled:.decimals$}");
    let text = if decimals > 0 {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    format!("{text} {prefix}{unit}")
}

/// Odds in builds of a hundred; only certainty reads 0 or 100.
#[must_use]
pub fn of_hundred(odds: f64) -> u32 {
    let rounded = (100.0 * odds).round().clamp(0.0, 100.0) as u32;
    match rounded {
        0 if odds > 0.0 => 1,
        100 if odds < 1.0 => 99,
        _ => rounded,
    }
}

/// What is played.
#[must_use]
pub const fn programme(programme: Programme) -> &'static str {
    match programme {
        Programme::Music => "music",
        Programme::Speech => "speech",
        Programme::SquashedMusic => "squashed music",
    }
}

/// A wall of the box.
#[must_use]
pub const fn wall(wall: wood::Wall) -> &'static str {
    wall.name()
}

/// At which side of the box something is.
#[must_use]
pub const fn at_wall(wall: wood::Wall) -> &'static str {
    match wall {
        wood::Wall::Front => "at the front",
        wood::Wall::Back => "at the back",
        wood::Wall::Left => "on the left",
        wood::Wall::Right => "on the right",
        wood::Wall::Top => "at the top",
        wood::Wall::Bottom => "at the bottom",
    }
}

/// Where it stands.
#[must_use]
pub const fn stands(stands: Stands) -> &'static str {
    match stands {
        Stands::Free => "free of everything",
        Stands::Ground => "outdoors on the ground",
        Stands::Wall => "outdoors against a wall",
        Stands::Indoors => "indoors",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prices_show_their_coins_and_changes_their_sign() {
        assert_eq!(price(0.35, "EUR"), "0.35 €");
        assert_eq!(price(12.0, "GBP"), "£12.00");
        assert_eq!(price(7.5, "CHF"), "7.50 CHF");
        for (by, unit, said) in [
            (3.04, "dB", "+3.0 dB"),
            (-0.4, "h", "−0.40 h"),
            (0.04, "dB", "same"),
            (-0.001, "h", "same"),
            (8.2, "EUR", "+8 €"),
            (-8.2, "USD", "$−8"),
        ] {
            assert_eq!(change(by, unit), said);
        }
    }

    #[test]
    fn values_of_parts_keep_three_digits_and_their_prefix() {
        for (value, unit, said) in [
            (4700.0, "Ω", "4.7 kΩ"),
            (100e-9, "F", "100 nF"),
            (2.2e-6, "F", "2.2 µF"),
            (1.02e6, "Ω", "1.02 MΩ"),
            (999.96, "Ω", "1 kΩ"),
            (97.6, "Ω", "97.6 Ω"),
            (120.0, "Ω", "120 Ω"),
            (47e-12, "F", "47 pF"),
            (0.0, "Ω", "0 Ω"),
        ] {
            assert_eq!(prefixed(value, unit), said);
        }
    }

    #[test]
    fn what_was_written_down_is_said_without_needless_zeros() {
        for (value, unit, said) in [
            (3.0, "m", "3 m"),
            (0.9, "V", "0.9 V"),
            (10.0, "h", "10 h"),
            (85.0, "dB", "85 dB"),
            (12.55, "h", "12.6 h"),
        ] {
            assert_eq!(stated(value, unit), said);
        }
    }

    #[test]
    fn numbers_are_said_as_makers_say_them() {
        for (value, unit, said) in [
            (74.3, "Hz", "74.3 Hz"),
            (103.6, "Hz", "104 Hz"),
            (-3.04, "dB", "−3.0 dB"),
            (-0.02, "dB", "0.0 dB"),
            (118.4, "EUR", "118 €"),
            (0.707, "", "0.71"),
            (f64::NAN, "Hz", "— Hz"),
        ] {
            assert_eq!(number(value, unit), said);
        }
    }
}
