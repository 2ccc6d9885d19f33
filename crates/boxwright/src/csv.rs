//! Tables that open in a spreadsheet (RFC 4180).
//!
//! Those that hold names and money begin with the mark of UTF-8, without which spreadsheets
//! read € and ä in the code page of their country; curves are numbers under plain headings and
//! begin without it, for programs.

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

/// The mark of UTF-8.
const MARK: char = '\u{feff}';

/// An amount of money to the smallest coin; empty where none is known.
fn money(amount: Option<f64>) -> String {
    amount.map_or_else(String::new, |amount| rounded(amount, 2))
}

/// A count or a length in m, to the millimetre; other amounts no finer than that.
fn count(value: f64) -> String {
    let text = rounded(value, 3);
    let short = text.trim_end_matches('0').trim_end_matches('.');
    short.to_owned()
}

/// To so many decimals, without a minus before nothing; empty where there is no number.
fn rounded(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return String::new();
    }
    let text = format!("{value:.decimals$}");
    let nothing = text.chars().all(|c| matches!(c, '-' | '0' | '.'));
    if nothing {
        text.trim_start_matches('-').to_owned()
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
pub(crate) fn accounts(accounts: &Accounts, shopping: &Shopping) -> String {
    let mut out = format!("{MARK}account,item,value,unit\r\n");
    let mut add = |account: &str, label: &str, value: String, unit: &str| {
        write!(out, "{account},{},{value},{unit}\r\n", text(label))
            .expect("writing into a String does not fail");
    };
    for air in &accounts.air {
        add("air taken up", &air.label, count(1e3 * air.volume), "L");
    }
    for weight in &accounts.weight {
        add("weight", &weight.label, count(weight.kilograms), "kg");
    }
    for line in &shopping.lines {
        add(
            "to buy",
            &line.label,
            money(line.till()),
            &shopping.currency,
        );
    }
    out
}

/// The shopping list: a line for each thing, and what stands on no shelf after them.
pub(crate) fn shopping(shopping: &Shopping) -> String {
    let till = format!("till ({})", shopping.currency);
    let price = format!("price of one ({})", shopping.currency);
    let worth = format!("worth in the box ({})", shopping.currency);
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
    let mut out = String::from(MARK);
    out += &line(headings.map(text));
    for thing in &shopping.lines {
        let unit = match thing.unit {
            Unit::Piece => "",
            Unit::Metre => "m",
        };
        let instead: Vec<&str> = thing.instead.iter().map(|other| &*other.label).collect();
        out += &line([
            text(thing.kind.words()),
            text(&thing.label),
            text(&thing.about),
            text(unit),
            count(thing.needed),
            count(thing.on_hand),
            count(thing.to_buy),
            money(thing.price),
            money(thing.till()),
            money(thing.worth()),
            text(&instead.join(" / ")),
        ]);
    }
    for extra in &shopping.extras {
        let fields = [
            text("Needed too, without a price"),
            text(&extra.label),
            text(&extra.about),
            text(extra.unit),
            match extra.unit {
                "m" => count(extra.amount),
                "" => rounded(extra.amount, 0),
                _ => rounded(extra.amount, 1),
            },
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
    fn money_has_cents_and_lengths_have_millimetres() {
        for (value, cents, millimetres) in [
            (3.850_000_000_000_000_5, "3.85", "3.85"),
            (2.844_999_999_999_999_8, "2.84", "2.845"),
            (1.0, "1.00", "1"),
            (-0.000_1, "0.00", "0"),
            (10.0, "10.00", "10"),
            (f64::NAN, "", ""),
        ] {
            assert_eq!(money(Some(value)), cents);
            assert_eq!(count(value), millimetres);
        }
        assert_eq!(money(None), "");
    }

    #[test]
    fn numbers_read_back_and_nothing_is_empty() {
        assert_eq!(number(0.1 + 0.2).parse::<f64>().unwrap(), 0.1 + 0.2);
        assert_eq!(number(f64::NAN), "");
    }

    /// Fields of every line, quotes taken away, as RFC 4180 has them.
    fn rows(csv: &str) -> Vec<Vec<String>> {
        let mut rows = vec![vec![String::new()]];
        let mut quoted = false;
        let mut chars = csv.trim_start_matches(MARK).chars().peekable();
        while let Some(c) = chars.next() {
            let row = rows.last_mut().expect("there is one");
            let field = row.last_mut().expect("there is one");
            match c {
                '"' if quoted && chars.peek() == Some(&'"') => {
                    chars.next();
                    field.push('"');
                }
                '"' => quoted = !quoted,
                ',' if !quoted => row.push(String::new()),
                '\r' if !quoted => {}
                '\n' if !quoted => rows.push(vec![String::new()]),
                _ => field.push(c),
            }
        }
        rows.retain(|row| row.len() > 1);
        rows
    }

    /// The column of sums, added up from the file alone, is what the brief is held against.
    #[test]
    fn the_file_adds_up_to_what_is_promised() {
        for name in ["bathing-beach", "salvage-party", "workshop-mono"] {
            let folder = format!("{}/../../examples/{name}", env!("CARGO_MANIFEST_DIR"));
            let design = std::fs::read_to_string(format!("{folder}/design.toml"));
            let shelf = std::fs::read_to_string(format!("{folder}/shelf.toml")).ok();
            let texts = studies::Texts {
                design: &design.expect("a shipped example"),
                shelf: shelf.as_deref(),
            };
            let options = studies::Options {
                builds: 0,
                spread: 1.0,
                progress: &|_| {},
            };
            let report = studies::survey(texts, options).expect("a sound example");
            let csv = shopping(&report.money);
            assert!(csv.starts_with(MARK) && csv.ends_with("\r\n"));
            let rows = rows(&csv);
            let column = |heading: &str| {
                let mut headings = rows[0].iter();
                let found = headings.position(|name| name.starts_with(heading));
                found.unwrap_or_else(|| panic!("no column {heading}"))
            };
            let [needed, drawer, buy, each, till] =
                ["needed", "in the drawer", "to buy", "price", "till"].map(column);
            let value = |row: &[String], column: usize| row[column].parse::<f64>().unwrap_or(0.0);
            let mut sum = 0.0;
            for row in &rows[1..] {
                assert_eq!(row.len(), rows[0].len(), "{row:?}");
                if row[till].is_empty() {
                    continue;
                }
                assert_eq!(
                    row[till].split_once('.').map(|(_, cents)| cents.len()),
                    Some(2)
                );
                let product = value(row, buy) * value(row, each);
                let off = (product - value(row, till)).abs();
                assert!(off <= 0.005 * (1.0 + value(row, buy)), "{row:?}");
                assert!(value(row, drawer) + value(row, buy) >= value(row, needed) - 1e-9);
                sum += value(row, till);
            }
            let mut promises = report.promises.iter();
            let promised = promises.find(|promise| promise.id == "cost");
            let promised = promised.expect("every design has its cost").value;
            let cents = 0.005 * rows.len() as f64;
            assert!((sum - promised).abs() <= cents, "{name}: {sum} {promised}");
        }
    }
}
