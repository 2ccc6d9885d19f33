//! Tables that open in a spreadsheet (RFC 4180).

use std::fmt::Write;
use studies::money::Shopping;
use studies::report::{Accounts, Curve, Discharging};

/// One field of text. A spreadsheet takes what begins with one of these signs
/// for a formula; a leading apostrophe keeps it text.
fn text(text: &str) -> String {
    let formula = text.starts_with(['=', '+', '-', '@', '\t', '\r']);
    let text = if formula {
        format!("'{text}")
    } else {
        text.to_owned()
    };
    if text.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text
    }
}

/// A number in full precision; empty where there is none.
fn number(value: f64) -> String {
    if value.is_finite() {
        format!("{value}")
    } else {
        String::new()
    }
}

fn line(fields: impl IntoIterator<Item = String>) -> String {
    let fields: Vec<String> = fields.into_iter().collect();
    format!("{}\r\n", fields.join(","))
}

/// A column of numbers with its heading.
type Column<'a> = (String, &'a [f64]);

fn columns(curve: &Curve) -> Vec<Column<'_>> {
    let heading = |what: &str| format!("{} {what} ({})", curve.id, curve.unit);
    let bands = [("P10", &curve.p10), ("P90", &curve.p90)];
    let bands = bands
        .into_iter()
        .filter_map(|(name, side)| side.as_ref().map(|side| (heading(name), side.as_slice())));
    std::iter::once((heading("this build"), curve.y.as_slice()))
        .chain(bands)
        .collect()
}

/// Every curve beside the others, against one column of frequencies.
pub(crate) fn curves(curves: &[Curve]) -> String {
    let Some(first) = curves.first() else {
        return String::new();
    };
    table(
        &first.x,
        &curves.iter().flat_map(columns).collect::<Vec<_>>(),
        limits(curves),
    )
}

/// One curve with its band.
pub(crate) fn curve(curve: &Curve) -> String {
    table(
        &curve.x,
        &columns(curve),
        limits(std::slice::from_ref(curve)),
    )
}

fn limits(curves: &[Curve]) -> Option<&[studies::Limit]> {
    curves.iter().find_map(|curve| curve.limits.as_deref())
}

fn table(x: &[f64], columns: &[Column<'_>], limits: Option<&[studies::Limit]>) -> String {
    let headings = std::iter::once("frequency (Hz)".to_owned())
        .chain(columns.iter().map(|(heading, _)| text(heading)))
        .chain(limits.map(|_| "first limit".to_owned()));
    let mut out = line(headings);
    for (row, &hertz) in x.iter().enumerate() {
        let numbers = std::iter::once(hertz).chain(columns.iter().map(|(_, values)| values[row]));
        let limit = limits.map(|limits| text(limits[row].words()));
        out += &line(numbers.map(number).chain(limit));
    }
    out
}

/// The battery's voltage against time.
pub(crate) fn discharge(discharge: &Discharging) -> String {
    let mut out = line(["time (h)", "battery (V)"].map(String::from));
    for (&hours, &volts) in discharge.hours.iter().zip(&discharge.volts) {
        out += &line([hours, volts].map(number));
    }
    out
}

/// What takes up air, weighs and costs how much; money in the brief's currency.
pub(crate) fn accounts(accounts: &Accounts, money: &Shopping) -> String {
    let mut out = String::from("account,item,value,unit\r\n");
    let mut add = |account: &str, label: &str, value: f64, unit: &str| {
        write!(
            out,
            "{account},{},{},{unit}\r\n",
            text(label),
            number(value)
        )
        .expect("writing into a String does not fail");
    };
    for air in &accounts.air {
        add("air taken up", &air.label, 1e3 * air.volume, "L");
    }
    for weight in &accounts.weight {
        add("weight", &weight.label, weight.kilograms, "kg");
    }
    for line in &money.lines {
        let till = line.till().unwrap_or(f64::NAN);
        add("to buy", &line.label, till, &money.currency);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_text_is_taken_for_a_formula() {
        for (given, field) in [
            ("=1+1", "'=1+1"),
            ("+49", "'+49"),
            ("-x", "'-x"),
            ("@sum", "'@sum"),
            ("\tx", "'\tx"),
            ("plain", "plain"),
            ("a, b", "\"a, b\""),
            ("4\" pipe", "\"4\"\" pipe\""),
            ("=a,b", "\"'=a,b\""),
        ] {
            assert_eq!(text(given), field);
        }
    }

    #[test]
    fn numbers_read_back_and_nothing_is_empty() {
        assert_eq!(number(0.1 + 0.2).parse::<f64>().unwrap(), 0.1 + 0.2);
        assert_eq!(number(f64::NAN), "");
    }
}
