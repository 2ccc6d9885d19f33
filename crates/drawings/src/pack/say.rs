//! How numbers are written on the sheets.

use crate::math;
use crate::text::number;
use studies::words;

/// A value in an SI unit as a maker reads it: three significant figures and
/// the customary prefix (7.2 g, 0.48 mH, 6.2 L).
pub(crate) fn engineering(value: f64, unit: &str) -> String {
    if unit == "×" {
        return format!("× {}", significant(value));
    }
    if matches!(unit, "H" | "F") {
        return words::prefixed(value, unit).replace(' ', "\u{a0}");
    }
    let (factor, shown) = customary(value, unit);
    let figure = significant(value * factor);
    if shown.is_empty() {
        figure
    } else {
        format!("{figure}\u{a0}{shown}")
    }
}

/// Factor and unit that bring a value near to one.
fn customary(value: f64, unit: &str) -> (f64, &str) {
    let size = value.abs();
    match unit {
        "m" if size < 1.0 => (1e3, "mm"),
        "m²" if size < 1e-4 => (1e6, "mm²"),
        "m²" if size < 1.0 => (1e4, "cm²"),
        "m³" if size < 1.0 => (1e3, "L"),
        "kg" if size < 1.0 => (1e3, "g"),
        "s" if size >= 3600.0 => (1.0 / 3600.0, "h"),
        "s" if size < 1.0 => (1e3, "ms"),
        "m/N" if size < 1.0 => (1e3, "mm/N"),
        "Ω" if size < 1.0 => (1e3, "mΩ"),
        "A" if size < 1.0 => (1e3, "mA"),
        "A·s" | "C" => (1.0 / 3600.0, "Ah"),
        other => (1.0, other),
    }
}

/// Three significant figures, no exponent.
fn significant(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return number(value, 0);
    }
    let places = 2.0 - math::floor(math::log10(value.abs()) + 1e-12);
    number(value, places.clamp(0.0, 6.0) as usize)
}

/// A number as the maker wrote it: idle decimals left out, number and unit
/// held together.
pub(crate) fn plain(value: f64, unit: &str) -> String {
    let said = words::number(value, unit);
    let (figure, rest) = match said.find(' ') {
        Some(at) => said.split_at(at),
        None => (said.as_str(), ""),
    };
    let short = if figure.contains('.') {
        figure.trim_end_matches('0').trim_end_matches('.')
    } else {
        figure
    };
    format!("{short}{rest}").replace(' ', "\u{a0}")
}

/// "3 × name", or the name alone.
pub(crate) fn times(count: u32, name: &str) -> String {
    if count == 1 {
        name.to_owned()
    } else {
        format!("{count} × {name}")
    }
}

/// A weight in kg to the gram that matters.
pub(crate) fn kilograms(weight: f64) -> String {
    format!("{} kg", number(weight, 2))
}

/// P10 to P90 as text; empty without a band.
pub(crate) fn band(p10: Option<f64>, p90: Option<f64>, unit: &str) -> String {
    match (p10, p90) {
        (Some(low), Some(high)) => {
            format!("{} – {}", words::bare(low, unit), words::bare(high, unit))
        }
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn idle_decimals_are_left_out() {
        for (value, unit, said) in [
            (3.0, "m", "3\u{a0}m"),
            (88.0, "dB", "88\u{a0}dB"),
            (12.5, "h", "12.5\u{a0}h"),
            (100.0, "Hz", "100\u{a0}Hz"),
            (120.0, "EUR", "120\u{a0}€"),
        ] {
            assert_eq!(plain(value, unit), said);
        }
    }

    #[test]
    fn values_carry_the_customary_prefix() {
        for (value, unit, said) in [
            (0.0072, "kg", "7.20\u{a0}g"),
            (0.000_48, "H", "480\u{a0}µH"),
            (0.001, "F", "1\u{a0}mF"),
            (47e-6, "F", "47\u{a0}µF"),
            (0.0062, "m³", "6.20\u{a0}L"),
            (0.0055, "m²", "55.0\u{a0}cm²"),
            (0.012, "m", "12.0\u{a0}mm"),
            (3.4, "Ω", "3.40\u{a0}Ω"),
            (1234.5, "Hz", "1234\u{a0}Hz"),
            (0.5, "", "0.500"),
            (1.0, "×", "× 1.00"),
            (43_200.0, "A·s", "12.0\u{a0}Ah"),
            (0.0, "kg", "0\u{a0}g"),
        ] {
            assert_eq!(engineering(value, unit), said);
        }
    }
}
