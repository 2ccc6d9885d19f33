//! Tables that open in a spreadsheet (RFC 4180).

use std::fmt::Write;
use studies::money::{Shopping, Unit};
use studies::report::{Accounts, Curve, Discharging};

/// One field of text.
fn text(text: &str) -> String {
    let text = guarded(text);
    if text.contains([',', ';', '"', '\t', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text
    }
}

/// A spreadsheet takes what begins with one of these signs for a formula, the wide forms too.
const FORMULA: [char; 8] = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];

/// Text in which nothing can be taken for a formula, whatever a spreadsheet splits cells at: an
/// apostrophe stands before a sign that begins a formula wherever a cell may begin, which is at
/// the start and after each separator and line break, spaces and quotes skipped. It stands
/// before an apostrophe there as well, so that taking them away again gives the text.
fn guarded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut begins = true;
    for c in text.chars() {
        let breaks = matches!(c, ',' | ';' | '\t' | '\n' | '\r');
        if begins && (FORMULA.contains(&c) || c == '\'' || matches!(c, '\t' | '\n' | '\r')) {
            out.push('\'');
        }
        out.push(c);
        begins = breaks || begins && (c.is_whitespace() || c == '"');
    }
    out
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

/// The shopping list: a line for each thing, and what stands on no shelf after them.
pub(crate) fn shopping(money: &Shopping) -> String {
    let till = format!("till ({})", money.currency);
    let price = format!("price of one ({})", money.currency);
    let worth = format!("worth in the box ({})", money.currency);
    let headings = [
        "kind",
        "thing",
        "for",
        "unit",
        "needed",
        "in the drawer",
        "to buy",
        &price,
        &till,
        &worth,
        "would do instead",
    ];
    let mut out = line(headings.map(text));
    for thing in &money.lines {
        let unit = match thing.unit {
            Unit::Piece => "",
            Unit::Metre => "m",
        };
        let instead: Vec<&str> = thing.instead.iter().map(|other| &*other.label).collect();
        let unknown = f64::NAN;
        out += &line([
            text(thing.kind.words()),
            text(&thing.label),
            text(&thing.about),
            text(unit),
            number(thing.needed),
            number(thing.on_hand),
            number(thing.to_buy),
            number(thing.price.unwrap_or(unknown)),
            number(thing.till().unwrap_or(unknown)),
            number(thing.worth().unwrap_or(unknown)),
            text(&instead.join(" / ")),
        ]);
    }
    for extra in &money.extras {
        let fields = [
            text("Needed too, without a price"),
            text(&extra.label),
            text(&extra.about),
            text(extra.unit),
            number(extra.amount),
        ];
        out += &line(
            fields
                .into_iter()
                .chain(std::iter::repeat_n(String::new(), 6)),
        );
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The text before it was guarded.
    fn bare(guarded: &str) -> String {
        let mut out = String::new();
        let mut begins = true;
        let mut chars = guarded.chars();
        while let Some(mut c) = chars.next() {
            if begins && c == '\'' {
                c = chars.next().expect("an apostrophe guards something");
            }
            out.push(c);
            let breaks = matches!(c, ',' | ';' | '\t' | '\n' | '\r');
            begins = breaks || begins && (c.is_whitespace() || c == '"');
        }
        out
    }

    /// One field of a line as RFC 4180 has it.
    fn read_back(field: &str) -> String {
        match field.strip_prefix('"') {
            Some(rest) => rest
                .strip_suffix('"')
                .expect("a quote that opens is closed")
                .replace("\"\"", "\""),
            None => field.to_owned(),
        }
    }

    proptest! {
        #[test]
        fn whatever_splits_the_cells_no_cell_is_a_formula_and_the_name_comes_back(
            name in "[-=+@＝,;\"' a\t\r\n|x1]{0,12}|\\PC{0,20}",
        ) {
            let field = text(&name);
            let read = read_back(&field);
            prop_assert_eq!(bare(&read), name);
            let unquoted = !field.starts_with('"');
            prop_assert!(!(unquoted && field.contains([',', '"', '\n', '\r'])));
            for cells in [&field, &read] {
                for cell in cells.split([',', ';', '\t', '\n', '\r']) {
                    let first = cell.trim_start_matches(|c: char| c.is_whitespace() || c == '"');
                    prop_assert!(!first.starts_with(FORMULA), "{field:?}");
                }
            }
        }
    }

    #[test]
    fn no_text_is_taken_for_a_formula() {
        for (given, field) in [
            ("=1+1", "'=1+1"),
            ("+49", "'+49"),
            ("-x", "'-x"),
            ("@sum", "'@sum"),
            ("\tx", "\"'\tx\""),
            ("plain", "plain"),
            ("a, b", "\"a, b\""),
            ("4\" pipe", "\"4\"\" pipe\""),
            ("=a,b", "\"'=a,b\""),
            ("a;=b", "\"a;'=b\""),
            ("'quoted'", "''quoted'"),
            (" =1", " '=1"),
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
