//! SI values back to text a maker would write.

use super::Dimension;
use super::decibel;
use super::number::Number;
use super::parse;
use super::unit::{self, Found, Unit};

/// Writes an SI value in the unit a maker would choose for its size, with as
/// many digits as bring the same value back when read.
#[must_use]
pub fn format_value(si: f64, dimension: Dimension) -> String {
    with_unit(si, chosen_unit(si, dimension), None)
}

/// Writes an SI value in the unit a maker would choose, rounded to so many
/// significant digits.
#[must_use]
pub fn format_rounded(si: f64, dimension: Dimension, significant: usize) -> String {
    with_unit(si, chosen_unit(si, dimension), Some(significant))
}

/// Writes an SI value, rounded to so many significant digits, the way the
/// value it replaces was written: same unit, same "about", same tolerance.
///
/// Text that cannot be read as such a value is replaced as by
/// [`format_rounded`].
#[must_use]
pub fn format_like(si: f64, dimension: Dimension, written: &str, significant: usize) -> String {
    let Ok(old) = parse::quantity(written, dimension) else {
        return format_rounded(si, dimension, significant);
    };
    let Ok(split) = parse::split(written) else {
        return format_rounded(si, dimension, significant);
    };
    let value = with_unit(si, old.unit, Some(significant));
    match (split.about, split.tolerance) {
        (true, _) => format!("about {value}"),
        (false, Some(tolerance)) => format!("{value} ± {}", tolerance.text),
        (false, None) => value,
    }
}

fn with_unit(si: f64, unit: Option<&Unit>, significant: Option<usize>) -> String {
    let Some(unit) = unit else {
        return plain(si, 0, significant);
    };
    let number = if decibel::is_gain(unit) {
        plain(decibel::from_ratio(si), 0, significant.or(Some(15)))
    } else if unit.is_decimal() {
        plain(si, -unit.power, significant)
    } else {
        scaled(si, unit, significant)
    };
    // The sign of degrees stands close to its number, as the SI brochure has it.
    let gap = if unit.symbol == "°" { "" } else { " " };
    format!("{number}{gap}{}", unit.symbol)
}

/// The value times a power of ten, by moving the point.
fn plain(value: f64, power: i32, significant: Option<usize>) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    let scientific = match significant {
        Some(digits) => format!("{value:.*e}", digits.max(1) - 1),
        None => format!("{value:e}"),
    };
    let Some((mantissa, exponent)) = scientific.split_once('e') else {
        return scientific;
    };
    let exponent: i32 = exponent.parse().unwrap_or(0);
    placed(mantissa, exponent + power)
}

/// Writes `mantissa × 10^exponent` without an exponent where that is short.
fn placed(mantissa: &str, exponent: i32) -> String {
    let (sign, body) = match mantissa.strip_prefix('-') {
        Some(body) => ("-", body),
        None => ("", mantissa),
    };
    let digits: String = body.chars().filter(char::is_ascii_digit).collect();
    let digits = match digits.trim_end_matches('0') {
        "" => "0",
        trimmed => trimmed,
    };
    if !(-7..=15).contains(&exponent) {
        let (first, rest) = digits.split_at(1);
        let point = if rest.is_empty() { "" } else { "." };
        return format!("{sign}{first}{point}{rest}e{exponent}");
    }
    let count = i32::try_from(digits.len()).unwrap_or(i32::MAX);
    if exponent < 0 {
        let zeros = "0".repeat(exponent.unsigned_abs() as usize - 1);
        format!("{sign}0.{zeros}{digits}")
    } else if exponent >= count - 1 {
        let zeros = "0".repeat((exponent + 1 - count).unsigned_abs() as usize);
        format!("{sign}{digits}{zeros}")
    } else {
        let (whole, rest) = digits.split_at(exponent.unsigned_abs() as usize + 1);
        format!("{sign}{whole}.{rest}")
    }
}

/// The fewest digits that are read back as the same value.
fn scaled(si: f64, unit: &Unit, significant: Option<usize>) -> String {
    let one = Number::Decimal {
        digits: "1".to_owned(),
        power: 0,
    };
    let value = (si - unit.offset) / one.scaled(unit);
    if let Some(digits) = significant {
        return plain(value, 0, Some(digits));
    }
    (1..17)
        .map(|digits| plain(value, 0, Some(digits)))
        .find(|text| reads_as(text, unit) == Some(si))
        .unwrap_or_else(|| plain(value, 0, None))
}

fn reads_as(text: &str, unit: &Unit) -> Option<f64> {
    super::number::leading(text)
        .ok()
        .map(|(number, _)| number.in_unit(unit))
}

fn chosen_unit(si: f64, dimension: Dimension) -> Option<&'static Unit> {
    let size = si.abs();
    let rungs = ladder(dimension);
    let symbol = rungs
        .iter()
        .find(|(least, _)| size >= *least && size > 0.0)
        .map_or(dimension.usual_unit(), |(_, symbol)| *symbol);
    match unit::find(symbol, dimension) {
        Found::Unit(unit) => Some(unit),
        Found::Other(_) | Found::Nothing => None,
    }
}

/// Units by least SI value, largest first.
fn ladder(dimension: Dimension) -> &'static [(f64, &'static str)] {
    match dimension {
        Dimension::Length => &[(1.0, "m"), (0.0, "mm")],
        Dimension::Area => &[(0.5, "m²"), (1e-4, "cm²"), (0.0, "mm²")],
        Dimension::Volume => &[(1.0, "m³"), (1e-4, "L"), (0.0, "ml")],
        Dimension::Mass => &[(1.0, "kg"), (0.0, "g")],
        Dimension::Time => &[(3600.0, "h"), (60.0, "min"), (0.0, "s")],
        Dimension::Frequency => &[(1e4, "kHz"), (0.0, "Hz")],
        Dimension::Voltage => &[(0.1, "V"), (0.0, "mV")],
        Dimension::Current => &[(0.1, "A"), (1e-4, "mA"), (1e-7, "µA"), (0.0, "nA")],
        Dimension::Resistance => &[(1e6, "MΩ"), (1e3, "kΩ"), (0.1, "Ω"), (0.0, "mΩ")],
        Dimension::Capacitance => &[(1e-6, "µF"), (1e-9, "nF"), (0.0, "pF")],
        Dimension::Inductance => &[(1e-4, "mH"), (0.0, "µH")],
        Dimension::Power => &[(1e3, "kW"), (0.5, "W"), (0.0, "mW")],
        Dimension::Charge => &[(360.0, "Ah"), (0.0, "mAh")],
        Dimension::Pressure => &[(1e9, "GPa"), (1e6, "MPa"), (1e3, "kPa"), (0.0, "Pa")],
        _ => &[],
    }
}
